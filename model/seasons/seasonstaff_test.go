package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// By hand, as in TestSeasonByHand but with two operators in the first week: they put the two inserts
// of the first job in side by side, 10 min instead of 20. All else is as it was, 10 min earlier.
func TestSeasonStaffByHand(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Staff = []Staffed{{Name: "two", Weeks: []int{1}, Operators: 2}}
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	for i, want := range []struct{ change, begun, finished float64 }{
		{1.0 / 6, 0, 2 + 1.0/6}, {1.0 / 6, 2 + 1.0/6, 5 + 1.0/3}, {1.0 / 6, 5 + 1.0/3, 6.5},
	} {
		j := study.Jobs[i]
		assert.InDelta(t, want.change, j.Change[1], 1e-9, "changeover of job %d", i)
		assert.InDelta(t, want.begun, j.Begun[1], 1e-9, "start of job %d", i)
		assert.InDelta(t, want.finished, j.Finished[1], 1e-9, "end of job %d", i)
	}
	assert.InDelta(t, 2*4+4, s.OperatorHours(), 1e-9)
	assert.Equal(t, int64(2*(7195+10795+3595)), study.Total.Sets.Good)
}

// By day and shift, by hand: a week of two days with two shifts of 2 h, one operator, but two in the second
// shift of the first day and nobody less anywhere. 4 · 2 + 2 = 10 operator hours a week.
func TestSeasonStaffByDayAndShift(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Calendar = &Calendar{Days: 2, Shifts: []ShiftTime{{Start: 8 * hour, Length: 2 * hour}, {Start: 10 * hour, Length: 2 * hour}}}
	s.Staff = []Staffed{{Name: "two", Days: []int{1}, Shifts: []int{2}, Operators: 2}}
	assert.InDelta(t, 20, s.OperatorHours(), 1e-9)
	assert.Equal(t, []model.Staffing{{From: 0, Operators: 1}, {From: 2 * hour, Operators: 2}, {From: 4 * hour, Operators: 1}, {From: 10 * hour, Operators: 2}}, s.staffing()[:4])
}

// Where as many are there in each shift as in the crew, all is as without a word of it, with the same
// random numbers; with one more it is not.
func TestSeasonStaffOfTheCrew(t *testing.T) {
	run := func(staff ...Staffed) *SeasonStudy {
		l := modeltest.ReferenceLine()
		l.Crew.Order = model.AlongTheTrack // the most urgent of one line are ranked by cycles
		for _, f := range modeltest.StationsOf[*model.Feeder](l) {
			f.Hopper.Capacity, f.Hopper.Warn = 400, 150 // one operator hardly keeps up
		}
		s := fortnight(l)
		s.Weeks = []Week{{"one", []int64{30_000, 20_000}}, {"two", []int64{20_000, 0}}}
		s.Staff, s.Begins.Kept = staff, true
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 6, Max: 6}, nil)
		require.NoError(t, err)
		return study
	}
	by := run()
	crew := by.Season.Line.Crew.Operators
	same, more := run(Staffed{Name: "all", Operators: crew}), run(Staffed{Name: "all", Operators: crew + 1})
	for k := range by.Jobs {
		// A cycle that ends when an operator finishes may end a rounding later: some cycles of 0.2 s.
		assert.InDeltaSlice(t, by.Jobs[k].Finished, same.Jobs[k].Finished, 0.002)
		assert.InDeltaSlice(t, by.Jobs[k].Change, same.Jobs[k].Change, 1e-6)
	}
	assert.Less(t, more.Jobs[2].Finished.Mean(), by.Jobs[2].Finished.Mean()-0.01, "this test can fail")
}

func TestSeasonStaffRefused(t *testing.T) {
	for text, change := range map[string]func(s *Season){
		"nobody has 0 operators":   func(s *Season) { s.Staff = []Staffed{{Name: "nobody"}} },
		"changes within a shift":   func(s *Season) { s.Line.Crew.Later = []model.Presence{{After: 60, Operators: 1}} },
		"which is for at most 104": func(s *Season) { s.Weeks = make([]Week, 105) },
	} {
		s := fortnight(modeltest.CalmLine())
		s.Staff = []Staffed{{Name: "two", Operators: 2}}
		change(s)
		_, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		assert.ErrorContains(t, err, text)
	}
}
