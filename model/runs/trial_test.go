package runs

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// A trial of two shifts and a half is the replications of two shifts and that of a half, added up, and
// what is delivered by the end of each window is what the course of each shift says.
func TestTrialIsItsShifts(t *testing.T) {
	l := referenceLineOfAnHour()
	half := *l
	half.Shift = l.Shift / 2
	trial := &Trial{Line: l, Length: 2.5 * l.Shift, Window: 1800, First: 3}
	plan := sim.Plan{Seed: 5, Min: 4, Max: 4}
	var seen int
	_, err := trial.Run(t.Context(), plan, func(replication int, r *TrialRun) {
		seen++
		var want model.Outcome
		var good []int64
		for k, line := range []*model.Line{l, l, &half} {
			s, err := model.New(line)
			require.NoError(t, err)
			var times []sim.Seconds
			for at := sim.Seconds(1800); at <= line.Shift; at += 1800 {
				times = append(times, at)
			}
			var one model.Outcome
			_, delivered, err := s.Record(5, (replication+3)*3+k, times, &one)
			require.NoError(t, err)
			for _, n := range delivered {
				good = append(good, want.Sets.Good+n)
			}
			want.Add(&one)
		}
		assert.Equal(t, want, r.Outcome)
		assert.Equal(t, good, r.Good)
		assert.Equal(t, want.Sets.Good, r.Good[len(r.Good)-1], "the last window ends with the trial")
	})
	require.NoError(t, err)
	assert.Equal(t, 4, seen)
}

// The same for any number of workers, and other random events with other numbers.
func TestTrialsAreRepeatable(t *testing.T) {
	goods := func(workers, first int) (all []int64) {
		trial := &Trial{Line: referenceLineOfAnHour(), Length: 5400, Window: 1800, First: first}
		_, err := trial.Run(t.Context(), sim.Plan{Seed: 1, Min: 70, Max: 70, Workers: workers}, func(_ int, r *TrialRun) {
			all = append(all, r.Outcome.Sets.Good, r.Good[0])
		})
		require.NoError(t, err)
		return all
	}
	assert.Equal(t, goods(1, 0), goods(5, 0))
	assert.NotEqual(t, goods(1, 0), goods(1, 70))
}

func TestTrialRefuses(t *testing.T) {
	job := referenceLineOfAnHour()
	job.Job.Sets = 10
	plan := sim.Plan{Min: 1, Max: 1}
	_, err := (&Trial{Line: job, Length: 1, Window: 1}).Run(t.Context(), plan, nil)
	assert.ErrorContains(t, err, "works for a shift")
	_, err = (&Trial{Line: referenceLineOfAnHour(), Window: 1}).Run(t.Context(), plan, nil)
	assert.ErrorContains(t, err, "a trial of 0 s")
}

// Three times as many faults are three times as many of each, but not of stocks.
func TestFaultier(t *testing.T) {
	l := referenceLineOfAnHour()
	faultier := Faultier(l, 3).Parameters()
	for i, v := range l.Parameters() {
		is := faultier[i].Size()
		switch v.Name {
		case "misfeed", "double", "jam", "envelope_misfeed", "flap":
			assert.InDelta(t, 3*v.Size(), is, 1e-15, v.Path())
		default:
			assert.InDelta(t, v.Size(), is, 0, v.Path())
		}
	}
	assert.Same(t, l, Faultier(l, 1))
}
