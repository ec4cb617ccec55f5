package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Somebody more is absent, and a line is down once more, by one setting each; what the file has of them stays, and a
// variant that adds to the list has both, where one that has a list of its own says so.
func TestOneMoreItem(t *testing.T) {
	for _, x := range Examples() {
		if x.Name != "nine-jobs" {
			continue
		}
		text := string(x.Data) + `  - {name: down once more, changes: [{set: plan.down.+, to: {line: flats, day: 4, start: "06:00", length: 2 h}}]}
  - {name: down otherwise, changes: [{set: plan.down, to: [{line: flats, day: 5, start: "06:00", length: 2 h}]}]}
`
		s, err := Load(x.Name, []byte(text))
		require.NoError(t, err)
		downs, staff := len(s.Plan.Down), len(s.Plan.Staffed)
		require.Len(t, s.Variants[1].Plan.Down, downs+1)
		set, err := s.Set([]Setting{
			{"plan.staff.+", "{name: two are sick, weeks: [1], days: [4], operators: 1}"},
			{"plan.down.+", `{line: letters, day: 3, start: "06:00", length: 1 h}`},
		})
		require.NoError(t, err)
		require.Len(t, set.Plan.Staffed, staff+1)
		assert.Equal(t, "two are sick", set.Plan.Staffed[staff].Name)
		assert.Len(t, set.Plan.Down, downs+1)
		assert.Len(t, set.Variants[1].Plan.Down, downs+2)
		assert.Len(t, set.Variants[2].Plan.Down, 1)
		assert.Equal(t, []string{"down otherwise"}, set.Keeps("plan.down.+"))
		assert.Empty(t, set.Keeps("plan.staff.+"))
		for _, wrong := range []struct{ path, value, why string }{
			{"plan.staff.Ada is ill.absent", "[Ada]", "(for one item more set plan.staff.+ to all of it, such as {name: Ada is ill, absent: …})"},
			{"plan.down.4.day", "2", "set plan.down.+ to all of it, such as {line: NAME, day: 1"},
			{"plan.staff.+.absent", "[Ada]", "set as a whole: want plan.staff.+={…}"},
			{"plan.staff.+", "{name: one is sick, days: [1], operators: 1}", `two staff are named "one is sick"`},
			{"lines.+", "{name: third}", `no line is named "+"`},
			{"plan.goal.+", "1", "goal is a mapping"},
		} {
			_, err := s.Set([]Setting{{wrong.path, wrong.value}})
			require.ErrorContains(t, err, wrong.why, wrong.path)
		}
		_, err = Load(x.Name, []byte(strings.Replace(text, "set: plan.down.+, to:", "add:", 1)))
		require.ErrorContains(t, err, "plan.down.+, with to")
		return
	}
	t.Fatal("there is no such example")
}
