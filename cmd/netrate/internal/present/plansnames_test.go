package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// Names with commas stand in quotes, all of a list if one does; what is counted does not.
func TestNamesWithCommas(t *testing.T) {
	assert.Equal(t, "one", called("one"))
	assert.Equal(t, "“week, 2 of 6: Bill”", called("week, 2 of 6: Bill"))
	assert.Equal(t, "one, two and three", listed([]string{"one", "two", "three"}))
	assert.Equal(t, "“last: Bill” and “week, 2 of 6: Bill”", listed([]string{"last: Bill", "week, 2 of 6: Bill"}))
	assert.Equal(t, "“a, b”, “c”, “d” and 2 other jobs", listedFew([]string{"a, b", "c", "d", "e", "f"}))
}

// The jobs of a season are named week by week, those of another plan line by line.
func TestJobsOfASeasonAreInOrder(t *testing.T) {
	x := &study.PlansPlan{Lines: []study.PlansLine{{Jobs: []study.PlansJob{{Name: "second", Index: 2}, {Name: "first", Index: 0}}}, {Jobs: []study.PlansJob{{Name: "other", Index: 1}}}}}
	names := func() (all []string) {
		for _, j := range inOrder(x) {
			all = append(all, j.Name)
		}
		return all
	}
	assert.Equal(t, []string{"second", "first", "other"}, names())
	x.Weeks = []study.PlansWeek{{}}
	assert.Equal(t, []string{"first", "other", "second"}, names())
}
