package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
)

// lossySeason is a week of two jobs of three sets. Each document but the first jams and takes 32 s: in each
// job the second set is lost after 33 s and the third after 65, and the last pocket is delivered after 70.
func lossySeason(closing model.Job) *Season {
	l := modeltest.CalmLine()
	l.Crew.Walk = sim.Constant(10.25)
	l.Stations[0] = &model.Channel{
		Place: model.Place{Name: "channel"}, Sheets: 7200, Pages: sim.Always(3), Buffer: 1,
		Jam: 1, Stream: model.Stream{Name: "documents", Tries: 1}, Clear: sim.Constant(20.25),
	}
	s := fortnight(l)
	for _, p := range s.Products {
		p.Inserts, p.Documents = p.Inserts[:1], &setup.Documents{Pages: sim.Always(3)}
	}
	s.Weeks, s.Change, s.Closing = []Week{{"one", []int64{3, 3}}}, nil, closing
	return s
}

// By hand, 60 remakes an hour beside the line. The second job begins after 70 s, when the line is free,
// 83 s before the first is closed. The bench makes the remakes of the first from 33 to 153 s, those of the
// second, of 103 and 135 s, from 153 to 273. So it is with staff by shift, and with lines at jobs. Made by
// hand once the line is done, the next job waits for them: 70 s and 120.
func TestNextJobOfASeasonBeginsBesideTheBench(t *testing.T) {
	for _, c := range []struct {
		closing                       model.Closing
		begun, free, closed, finished float64
	}{
		{model.Beside, 70, 140, 153, 273},
		{model.ByHand, 190, 380, 190, 380},
	} {
		for _, staff := range [][]Staffed{nil, {{Name: "one", Operators: 1}}} {
			s := lossySeason(model.Job{Closing: c.closing, PerHour: 60})
			s.Staff = staff
			study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
			require.NoError(t, err)
			first, second := study.Jobs[0], study.Jobs[1]
			assert.InDelta(t, c.closed/3600, first.Finished[1], 1e-9)
			assert.InDelta(t, c.begun/3600, second.Begun[1], 1e-9)
			assert.InDelta(t, c.free/3600, second.LineFree()[1], 1e-9)
			assert.InDelta(t, c.finished/3600, second.Finished[1], 1e-9)
			assert.InDelta(t, (c.finished-c.begun)/3600, second.Hours[1], 1e-9)
			assert.InDelta(t, c.free/3600, study.Weeks[0].Work[1], 1e-9, "of the line")
			assert.Equal(t, int64(8), study.Total.Job.ByHand, "two of each of four jobs")
			assert.Equal(t, c.closing == model.Beside, first.Free != nil)
			assert.Zero(t, first.Lacks+second.Lacks)
			assert.Zero(t, second.Late, "the week is long enough")
			if c.closing == model.Beside {
				assert.Nil(t, first.Stood)
				continue
			}
			assert.InDelta(t, 120.0/3600, first.Stood[1], 1e-9, "two remakes of a minute")
		}
		s := lossySeason(model.Job{Closing: c.closing, PerHour: 60})
		work := &Together{
			Lines: []*model.Line{s.Line}, Crew: s.Line.Crew, Products: s.Products, Closing: s.Closing,
			Jobs: []Job{{Product: 0, Sets: 3}, {Product: 1, Sets: 3}}, Order: [][]int{{0, 1}},
		}
		together := runTogether(t, work, 2)
		assert.InDelta(t, c.begun, together.Jobs[1].Begun[1], 1e-6)
		assert.InDelta(t, c.free, together.Jobs[1].Free[1], 1e-6)
		assert.InDelta(t, c.closed, together.Jobs[0].Finished[1], 1e-6)
		assert.InDelta(t, c.finished, together.Finished[1], 1e-6)
	}
}

// Where nothing is made again, two of the three sets of each job are not delivered, in each of two seasons.
func TestWhatIsLostIsLacking(t *testing.T) {
	s := lossySeason(model.Job{})
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	assert.InDelta(t, 4, study.Jobs[0].Lacks, 0)
	assert.InDelta(t, 4, study.Jobs[1].Lacks, 0)
	work := &Together{
		Lines: []*model.Line{s.Line}, Crew: s.Line.Crew, Products: s.Products,
		Jobs: []Job{{Product: 0, Sets: 3}, {Product: 1, Sets: 3}}, Order: [][]int{{0, 1}},
	}
	assert.InDelta(t, 4, runTogether(t, work, 2).Jobs[1].Lacks, 0)
}

// By hand, on the same jobs: a bench that was done in the week before is not still at it. The job of the
// second week is closed 153 s after its start, as that of the first.
func TestBenchIsFreeByTheNextWeek(t *testing.T) {
	s := lossySeason(model.Job{Closing: model.Beside, PerHour: 60})
	s.Weeks = []Week{{"one", []int64{3, 0}}, {"two", []int64{0, 3}}}
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	for _, j := range study.Jobs {
		assert.InDelta(t, 153.0/3600, j.Finished[1]-j.Begun[1], 1e-9)
	}
}

// A set that waits for the bench at the end of a week is left: with a bench that makes one in two hours
// the last of the four remakes is made eight hours and 33 s after the start, and the week has four.
func TestBacklogOfTheBench(t *testing.T) {
	s := lossySeason(model.Job{Closing: model.Beside, PerHour: 0.5})
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	assert.InDelta(t, 8+33.0/3600, study.Jobs[1].Finished[0], 1e-9)
	assert.Zero(t, study.Weeks[0].InTime())
	assert.Zero(t, study.Weeks[0].Overtime[0], "the line is done")
}
