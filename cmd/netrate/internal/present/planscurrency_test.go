package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/scenarios"
)

// A plan has one currency, in its sentences as in its tables: that of the file, or none that is named.
func TestPlansCurrency(t *testing.T) {
	x := study.PlansPlan{Cost: 620, LateCost: 30}
	s := Plans{Origin: page.Origin{Scenario: &scenarios.Scenario{}}}
	assert.Equal(t, "620 for what is chosen and 30 for lateness, in the mean", s.price(&x))
	assert.Equal(t, "money", s.currency())
	s.Origin.Scenario.Prices = &worth.Costs{Currency: "EUR"}
	assert.Equal(t, "620 EUR for what is chosen and 30 EUR for lateness, in the mean", s.price(&x))
	assert.Equal(t, "EUR", s.currency())
}
