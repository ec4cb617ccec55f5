package seasons

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
)

// By hand: a calm line does a set a second, and somebody is there from 08:00 to 12:00. Due at 10:00 are 2 h of work,
// 7,200 sets, and not one more; not before 09:00 half of that; and what may begin at its date has no time at all.
// On a second day there are 4 h more, but only if they are chosen.
func TestHopelessByHand(t *testing.T) {
	for _, c := range []struct {
		sets             int64
		notBefore, due   sim.Seconds
		hopeless         bool
		needs, thereTime sim.Seconds
	}{
		{7200, 0, 10 * 3600, false, 0, 0},
		{7300, 0, 10 * 3600, true, 7300, 7200},
		{3600, 9 * 3600, 10 * 3600, false, 0, 0},
		{3700, 9 * 3600, 10 * 3600, true, 3700, 3600},
		{1, 11 * 3600, 10 * 3600, true, 1, 0},
		{28_000, 0, 36 * 3600, false, 0, 0},
		{29_000, 0, 36 * 3600, true, 29_000, 28_800},
		{1 << 40, 0, sim.Seconds(math.Inf(1)), false, 0, 0},
	} {
		p := &Plan{
			Lines:    []*model.Line{modeltest.CalmLine()},
			Crew:     model.Crew{Operators: 2, Walk: sim.Constant(0)},
			Calendar: &Calendar{Days: 2, Shifts: []ShiftTime{{Start: 8 * 3600, Length: 4 * 3600}}},
			Products: []*setup.Product{{Name: "bills", Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}, Inserts: []setup.Insert{{Name: "bill", Material: 1, Share: 1}}}},
			Jobs:     []PlanJob{{Name: "one", Sets: c.sets, NotBefore: c.notBefore, Due: c.due, Priority: 1, InHand: -1}},
			Staffed:  []Staffed{{Name: "no", Days: []int{2}}, {Name: "second day", Days: []int{2}, Operators: 2, Optional: true}},
		}
		require.NoError(t, p.Check())
		jobs := p.Hopeless()
		if !c.hopeless {
			assert.Empty(t, jobs, c)
			continue
		}
		require.Len(t, jobs, 1, c)
		assert.InDelta(t, float64(c.needs), float64(jobs[0].Needs), 1e-6)
		assert.InDelta(t, float64(c.thereTime), float64(jobs[0].There), 1e-6)
	}
}
