package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// besideLine is the line of the hand case of a job closed beside the line: of three sets the second is
// lost after 33 s and the third after 65, and the line is free after 70.
func besideLine(name string, perHour float64) *Line {
	return handLine(0, func(l *Line, _, _ *Feeder) {
		handChannel(l, 1)
		l.Name, l.Job = name, Job{Sets: 3, Closing: Beside, PerHour: perHour}
	})
}

// By hand, 60 remakes an hour. On one line the second job begins after 70 s, before the first is closed:
// that one's remakes are made from 33 to 93 s and on to 153; those of the second, of 103 and 135 s, are
// made from 153 to 213 and on to 273. The line alone says the same of a bench that is busy for 83 s yet.
func TestNextJobBeginsBesideTheBench(t *testing.T) {
	l := besideLine("p", 60)
	g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"x"}, Setups: [][]*Line{{l}}, Crew: l.Crew})
	require.NoError(t, err)
	work := [][]JobRun{{{Sets: 3}, {Sets: 3, Replication: 1}}}
	for range 2 {
		require.NoError(t, g.Run(1, work))
		first, second := &work[0][0], &work[0][1]
		assert.Equal(t, []sim.Seconds{0, 70, 153}, []sim.Seconds{first.Begun, first.Free, first.Finished})
		assert.Equal(t, []sim.Seconds{70, 140, 273}, []sim.Seconds{second.Begun, second.Free, second.Finished})
		assert.Equal(t, JobOutcome{Passes: 1, ByHand: 2, Hand: 133, Finish: 203}, second.Outcome.Job)
	}
	alone, err := New(l)
	require.NoError(t, err)
	alone.BenchBusy(83)
	var out Outcome
	require.NoError(t, alone.RunJob(1, 1, 3, &out))
	assert.Equal(t, work[0][1].Outcome.Job, out.Job)
}

// By hand: two lines lose their sets at the same moments, 33 and 65 s, and each has somebody to clear.
// At the one bench the first line's go first: 93, 153, 213 and 273 s.
func TestOneBenchForAllJobs(t *testing.T) {
	a, b := besideLine("p", 60), besideLine("q", 60)
	crew := a.Crew
	crew.Operators = 2
	g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"x", "y"}, Setups: [][]*Line{{a}, {b}}, Crew: crew, Down: [][]Stretch{nil, {{From: 80, To: 500}}}})
	require.NoError(t, err)
	work := [][]JobRun{{{Sets: 3}}, {{Sets: 3}, {Sets: 3, Replication: 1}}}
	require.NoError(t, g.Run(1, work))
	assert.Equal(t, sim.Seconds(213), work[0][0].Finished)
	assert.Equal(t, sim.Seconds(273), work[1][0].Finished, "its line is down: the bench goes on")
	assert.Equal(t, sim.Seconds(70), work[1][0].Free)
	assert.Greater(t, work[1][1].Free, sim.Seconds(500))
}

// Whatever befalls them, the bench has no more to do than time, no line waits for it, and each job is
// finished when the bench would have it.
func TestSharedBenchIsWhole(t *testing.T) {
	behind := 0
	for seed := range uint64(10) {
		a, b := besideLine("p", 90), besideLine("q", 90)
		a.Stations[0].(*Channel).Jam, b.Stations[0].(*Channel).Jam = 0.3, 0.1
		g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"x", "y"}, Setups: [][]*Line{{a}, {b}}, Crew: a.Crew})
		require.NoError(t, err)
		work := [][]JobRun{{{Sets: 60}, {Sets: 90, Replication: 1}}, {{Sets: 200, Replication: 2}, {Sets: 5, Replication: 3}}}
		require.NoError(t, g.Run(seed, work))
		made, last := int64(0), sim.Seconds(0)
		for _, line := range work {
			now := sim.Seconds(0)
			for i := range line {
				j := &line[i]
				require.NoError(t, j.Outcome.Balance())
				assert.Equal(t, now, j.Begun, "when the line is free")
				assert.GreaterOrEqual(t, j.Finished, j.Free)
				assert.InDelta(t, float64(j.Finished-j.First), float64(j.Outcome.Job.Finish), 1e-6)
				assert.InDelta(t, float64(j.Finished-j.Free), float64(j.Outcome.Job.Hand), 1e-9)
				if now = j.Free; j.Finished > j.Free {
					behind++
				}
				made, last = made+j.Outcome.Job.ByHand, max(last, j.Finished)
			}
		}
		assert.GreaterOrEqual(t, float64(last)+1e-6, float64(made)*40)
	}
	assert.Positive(t, behind)
}
