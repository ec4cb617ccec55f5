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
	_, err = (&Trial{Line: referenceLineOfAnHour(), Length: 7200, Window: 7200, Each: []sim.Seconds{3600, 3000}}).Run(t.Context(), plan, nil)
	assert.ErrorContains(t, err, "of which the shifts come to 6600 s")
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

// Shifts may each have a length of their own: a trial of them is the replications of lines that work so long. Where
// the lengths are those of the line it is the trial without them.
func TestTrialOfShiftsOfTheirOwn(t *testing.T) {
	l := referenceLineOfAnHour()
	of := func(trial *Trial) (runs []TrialRun) {
		trial.Line, trial.Window = l, 600
		_, err := trial.Run(t.Context(), sim.Plan{Seed: 5, Min: 3, Max: 3}, func(_ int, r *TrialRun) {
			one := TrialRun{Outcome: r.Outcome, Good: append([]int64(nil), r.Good...), Shifts: append([]TrialSums(nil), r.Shifts...)}
			one.Outcome.Stations = append(one.Outcome.Stations[:0:0], one.Outcome.Stations...)
			runs = append(runs, one)
		})
		require.NoError(t, err)
		return runs
	}
	assert.Equal(t, of(&Trial{Length: 9000}), of(&Trial{Length: 9000, Each: []sim.Seconds{3600, 3600, 1800}}))
	for _, r := range of(&Trial{Length: 9000, Each: []sim.Seconds{1800, 5400, 1800}}) {
		require.Len(t, r.Shifts, 3)
		require.Len(t, r.Good, 15)
		assert.Equal(t, r.Shifts[0].Good, r.Good[2])
		assert.Equal(t, r.Shifts[1].Good, r.Good[11])
		assert.Equal(t, r.Outcome.Sets.Good, r.Good[14])
	}
	long := *l
	long.Shift = 5400
	s, err := model.New(&long)
	require.NoError(t, err)
	var one model.Outcome
	require.NoError(t, s.Run(5, 1, &one))
	r := of(&Trial{Length: 9000, Each: []sim.Seconds{1800, 5400, 1800}})[0]
	assert.Equal(t, one.Sets.Good, r.Shifts[1].Good-r.Shifts[0].Good)
}

// A breakdown, for which a technician comes, is no stop for a fault: those are what an operator clears.
func TestStopsForFaultsLeaveBreakdownsOut(t *testing.T) {
	var o model.Outcome
	o.Stations = make([]model.StationOutcome, 1)
	for c := range o.Stations[0].Stops {
		o.Stations[0].Stops[c].Count = 1
	}
	assert.Equal(t, int64(11), sumsOf(&o).Stops, "eight faults, false alarms, wrong stock and misfeeds in a row")
}
