package workbench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// The lanes of a plan begin beside the names of their lines, of which the longest is shortened.
func TestPlanNamesLines(t *testing.T) {
	left := func(name string) int { return leftOf(&study.PlansPlan{Lines: []study.PlansLine{{Name: name}}}) }
	assert.Equal(t, planLeft, left("Flats"))
	name := "Zweite Straße (alt)"
	assert.Greater(t, left(name), planLeft)
	assert.Equal(t, name, fitting(name, float64(left(name))*letterWide/boldWide))
	long := strings.Repeat("Größe ", 10)
	assert.Equal(t, mostLeft, left(long))
	assert.True(t, strings.HasSuffix(fitting(long, mostLeft*letterWide/boldWide), "…"))
}
