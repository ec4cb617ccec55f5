package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// A variant in which all lines run all jobs as without it is said to do so once, and as in the base; of one line by
// itself, as in its column.
func TestCoverageLikewise(t *testing.T) {
	of := func(line, name string, alike ...string) study.CoverageColumn {
		return study.CoverageColumn{Line: line, Name: name, Alike: alike}
	}
	a := &study.CoverageAnswer{Columns: []study.CoverageColumn{of("swift", "swift", "down on Thursday"), of("heron", "heron", "down on Thursday"), of("bustard", "bustard")}}
	assert.Equal(t, "In down on Thursday all jobs run on swift and heron as in the base.\n", coverageLikewise(a))
	a.Columns = []study.CoverageColumn{of("", "base", "down on Thursday"), of("", "faster")}
	assert.Equal(t, "In down on Thursday all jobs run as in base.\n", coverageLikewise(a))
}

// A variant that changes nothing but the plan is said to be as the base, and one that changes more is not.
func TestComparisonOfThePlanAlone(t *testing.T) {
	a := &study.ComparisonAnswer{Lines: make([]study.LineAnswer, 3)}
	a.Lines[1].Of.Name, a.Lines[1].Changes = "down on Thursday", []string{"plan.down.+: not given → {day: 4}"}
	a.Lines[2].Of.Name, a.Lines[2].Changes = "more crew", []string{"plan.down: x → y", "crew.operators: 2 → 3"}
	assert.Equal(t, "\n\n“down on Thursday” changes the plan alone, which plays no part here: it is as the base.", comparisonPlanned(a))
	a.Lines[1].Changes = nil
	assert.Empty(t, comparisonPlanned(a))
}
