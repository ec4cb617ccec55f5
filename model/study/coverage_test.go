package study

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/setup"
)

// Lines of several, variants that make no difference, and jobs that only a variant has.
func TestCoverageColumns(t *testing.T) {
	line := func(name string, speed float64) *model.Line {
		return &model.Line{
			Name: name, Speed: speed, Shift: 3600, Crew: model.Crew{Operators: 1},
			Stations: []model.Station{&model.Delivery{}},
		}
	}
	group := &model.LineGroup{Lines: []*model.Line{line("a", 100), line("b", 200)}}
	jobs := []*setup.Product{{Name: "one"}}
	a := Coverage{Alternatives: []Alternative{
		{Name: "base", Group: group, Products: jobs},
		{Name: "same", Group: group, Products: jobs},
		{Name: "more jobs", Group: group, Products: append(jobs, &setup.Product{Name: "two"})},
	}}.Ask()
	assert.Equal(t, []string{"a", "b", "more jobs: a", "more jobs: b"}, a.Lines)
	assert.Equal(t, []string{"same"}, a.Columns[0].Alike)
	assert.Equal(t, []string{"same"}, a.Columns[1].Alike)
	assert.Len(t, a.Jobs, 2)
	assert.Nil(t, a.Jobs[1].On[0], "the base has no such job")
	assert.NotNil(t, a.Jobs[1].On[2])
}
