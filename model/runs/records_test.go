package runs

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// everything counts every stop.
func everything(int, model.Cause) bool { return true }

// A replication of a period is a job of that many sets on the line at that speed, with the
// random streams of its own number.
func TestReplayIsJobs(t *testing.T) {
	l := modeltest.ReferenceLine()
	r := &Replay{Line: l, Periods: []Period{{"Monday", 9000, 0}, {"Tuesday", 4000, 12_000}, {"Wednesday", 5000, 0}}, Counts: everything}
	replicas, ending, err := r.Run(t.Context(), sim.Plan{Seed: 7, Min: 1, Max: 5}, nil)
	require.NoError(t, err)
	assert.Equal(t, sim.AtMost, ending)
	require.Len(t, replicas, 5)
	var o model.Outcome
	for i, one := range replicas {
		feeds := int64(0)
		for k, p := range r.Periods {
			line := *l
			line.Shift, line.Job = 0, model.Job{Sets: p.Sets}
			if p.Speed > 0 {
				line.Speed = p.Speed
			}
			s, err := model.New(&line)
			require.NoError(t, err)
			require.NoError(t, s.Run(7, i*3+k, &o))
			stopped := o.Stopped()
			assert.Equal(t, stopped.Count, one.Periods[k].Stops)
			assert.InDelta(t, float64(stopped.Total()), float64(one.Periods[k].Seconds), 1e-6)
			feeds += o.Stations[0].Attempts
		}
		assert.Equal(t, feeds, one.Feeds[0])
		byCause := StopSum{}
		for _, station := range one.Causes {
			for _, s := range station {
				byCause.Add(s)
			}
		}
		whole := one.IntegerDistribution()
		assert.Equal(t, whole.Stops, byCause.Stops)
		assert.InDelta(t, float64(whole.Seconds), float64(byCause.Seconds), 1e-6)
	}
	assert.NotEqual(t, replicas[0], replicas[1])
}

// The result is the same bit for bit for any number of workers, also where each replication
// draws the line anew.
func TestReplayOfAnyWorkers(t *testing.T) {
	for name, uncertain := range map[string][]model.UncertainInput{
		"known":     nil,
		"uncertain": {{Station: "inserter", Name: "jam", Of: output.Counted{Seen: 4, Of: 9000}}},
	} {
		t.Run(name, func(t *testing.T) {
			l := modeltest.ReferenceLine()
			l.UncertainInputs = uncertain
			r := &Replay{Line: l, Periods: []Period{{"1", 3000, 0}, {"2", 3000, 9000}}, Counts: everything}
			one, _, err := r.Run(t.Context(), sim.Plan{Seed: 1, Min: 1, Max: 70, Workers: 1}, nil)
			require.NoError(t, err)
			three, _, err := r.Run(t.Context(), sim.Plan{Seed: 1, Min: 1, Max: 70, Workers: 3}, nil)
			require.NoError(t, err)
			assert.Equal(t, one, three)
		})
	}
}

// Jams stop the line once in 500 feeds, for 60 s on average and 4 s of restarting. Uncertain,
// with a quarter of the mean for its standard error, they vary more than chance has it: the
// variance of n stops that are expected is n, and (n/4)² besides.
func TestReplayDrawsTheLine(t *testing.T) {
	const sets, reps, expected = 20_000, 600, 40
	jamming := func(uncertain ...model.UncertainInput) *model.Line {
		l := modeltest.CalmLine()
		l.Shift, l.Crew.Walk = 3600, sim.Constant(0)
		l.Stations[0].(*model.Feeder).Jam = 1.0 / 500
		l.UncertainInputs = uncertain
		return l
	}
	stopsOf := func(l *model.Line) (stops, seconds sim.Sample) {
		replicas, _, err := (&Replay{Line: l, Periods: []Period{{"1", sets, 0}}, Counts: everything}).Run(t.Context(), sim.Plan{Seed: 3, Min: 1, Max: reps}, nil)
		require.NoError(t, err)
		for _, r := range replicas {
			stops, seconds = append(stops, float64(r.IntegerDistribution().Stops)), append(seconds, float64(r.IntegerDistribution().Seconds))
		}
		return stops, seconds
	}
	// Standard errors: of a mean √(variance / n), of a variance about √(2 / n) of it.
	known, seconds := stopsOf(jamming())
	for i := range known {
		require.InDelta(t, 64*known[i], seconds[i], 1e-6)
	}
	assert.InDelta(t, expected, known.Mean(), modeltest.Z999*math.Sqrt(expected/float64(reps)))
	assert.Greater(t, math.Abs(known.Mean()-1.05*expected), modeltest.Z999*math.Sqrt(expected/float64(reps)), "a rate 5 % off goes unseen")
	tolerance := modeltest.Z999 * math.Sqrt(2/float64(reps))
	assert.InEpsilon(t, expected, known.SD()*known.SD(), tolerance)
	uncertain, _ := stopsOf(jamming(model.UncertainInput{Station: "first", Name: "jam", Of: output.About{Mean: 1.0 / 500, Error: 1.0 / 2000}}))
	assert.InEpsilon(t, expected+expected*expected/16, uncertain.SD()*uncertain.SD(), 2*tolerance)
	assert.Greater(t, uncertain.SD()*uncertain.SD(), expected*(1+tolerance), "the uncertainty goes unseen")
}

// Faults grow with the speed of each period: with an exponent of 2, half the speed has
// a quarter of them.
func TestReplayOfSpeeds(t *testing.T) {
	l := modeltest.CalmLine()
	first := l.Stations[0].(*model.Feeder)
	first.Jam, first.Growth, first.Rated = 1.0/200, 2, 3600
	r := &Replay{Line: l, Periods: []Period{{"fast", 4000, 0}, {"slow", 16_000, 1800}}, Counts: everything}
	replicas, _, err := r.Run(t.Context(), sim.Plan{Seed: 1, Min: 1, Max: 300}, nil)
	require.NoError(t, err)
	for k, p := range r.Periods {
		var stops sim.Sample
		for _, one := range replicas {
			stops = append(stops, float64(one.Periods[k].Stops))
		}
		assert.InDelta(t, 20, stops.Mean(), modeltest.Z999*stops.SD()/math.Sqrt(300), p.Name)
	}
}

// Only what the log has is counted.
func TestReplayCounts(t *testing.T) {
	l := modeltest.ReferenceLine()
	jams := func(station int, c model.Cause) bool { return station == 2 && c == model.CauseJam }
	replicas, _, err := (&Replay{Line: l, Periods: []Period{{"1", 100_000, 0}}, Counts: jams}).Run(t.Context(), sim.Plan{Min: 1, Max: 3}, nil)
	require.NoError(t, err)
	for _, r := range replicas {
		assert.Positive(t, r.IntegerDistribution().Stops)
		assert.Equal(t, r.IntegerDistribution(), r.Causes[2][model.CauseJam])
		assert.Zero(t, r.Causes[1][model.CauseJam])
	}
}

func TestReplayRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		line    *model.Line
		periods []Period
		want    string
	}{
		"no period":       {modeltest.CalmLine(), nil, "the record has no period"},
		"no sets":         {modeltest.CalmLine(), []Period{{"Monday", 0, 0}}, "Monday has 0 sets, want at least 1"},
		"NaN":             {modeltest.CalmLine(), []Period{{"Monday", 1, math.NaN()}}, "Monday has a speed of NaN"},
		"infinite":        {modeltest.CalmLine(), []Period{{"Monday", 1, math.Inf(1)}}, "Monday has a speed of +Inf"},
		"backwards":       {modeltest.CalmLine(), []Period{{"Monday", 1, -5}}, "Monday has a speed of -5"},
		"no line at all":  {&model.Line{}, []Period{{"Monday", 1, 0}}, "the line has no restart delay"},
		"all that wrongs": {modeltest.CalmLine(), []Period{{"a", 0, 0}, {"b", 0, 0}}, "a has 0 sets, want at least 1\nb has 0 sets"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := (&Replay{Line: c.line, Periods: c.periods, Counts: everything}).Run(t.Context(), sim.Plan{Min: 1, Max: 1}, nil)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

// A record that is interrupted has the replications until then.
func TestReplayInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	r := &Replay{Line: modeltest.CalmLine(), Periods: []Period{{"1", 100, 0}}, Counts: everything}
	watched := 0
	replicas, ending, err := r.Run(ctx, sim.Plan{Min: 1, Max: 10_000}, func(replication int, _ *Replica) {
		assert.Equal(t, watched, replication)
		if watched++; replication == 3 {
			cancel()
		}
	})
	require.NoError(t, err)
	assert.Equal(t, sim.Cancelled, ending)
	assert.Len(t, replicas, watched)
	assert.Less(t, watched, 10_000)
}
