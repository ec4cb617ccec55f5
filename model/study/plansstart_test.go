package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// By hand, each on one line with one job of so many hours of work, from 08:00 to 12:00 on each day. When it must
// begin is then tried: begun then the date is kept, begun later it is not. Taken back from the date, the time that
// the job takes where it is in the plan is right only where nothing stands in between, as in the first. Who is at a
// changeover when a shift ends finishes it.
func TestPlansStartBy(t *testing.T) {
	const day, hour = 24 * 3600, 3600
	down := func(from, to sim.Seconds) []seasons.LineDown {
		return []seasons.LineDown{{Window: seasons.Window{From: from, To: to}}}
	}
	for name, c := range map[string]struct {
		work, change sim.Seconds
		down         []seasons.LineDown
		sick         int // the day of the only one who may change over
		due, by      sim.Seconds
		late         sim.Seconds // a start that is too late
	}{
		"nothing between":             {work: 4, due: day + 10*hour, by: 10 * hour, late: 10*hour + 60},
		"down ahead":                  {work: 4, down: down(day+9*hour, day+11*hour), due: day + 12*hour, by: 10 * hour, late: 10*hour + 60},
		"down at the date":            {work: 4, down: down(day+9*hour, day+11*hour), due: day + 10*hour, by: 9 * hour, late: 9*hour + 60},
		"down at its place":           {work: 4, down: down(9*hour, 10*hour), due: 2*day + 11*hour, by: day + 11*hour, late: day + 11*hour + 60},
		"down in the changeover":      {work: 3, change: 0.5, down: down(9*hour, 10*hour), due: day + 9.25*hour, by: 9*hour - 60, late: 9 * hour},
		"nobody may change, ahead":    {work: 3, change: 0.5, sick: 2, due: 2*day + 9*hour, by: 12*hour - startStep, late: day + 8*hour + 60},
		"nobody may change, at first": {work: 3, change: 0.5, sick: 1, due: 2*day + 12*hour, by: 2*day + 8.5*hour, late: 2*day + 8.5*hour + 60},
	} {
		t.Run(name, func(t *testing.T) {
			p := plansOf()
			p.Lines, p.Jobs, p.Down = p.Lines[:1], p.Jobs[:1], c.down
			p.Jobs[0].Sets, p.Jobs[0].Due = int64(c.work*hour)-5, c.due
			p.Change = &setup.Changeover{}
			if c.change > 0 {
				p.Change.Always.Time = sim.Constant(c.change * hour)
			}
			if c.sick > 0 {
				p.Crew = model.Crew{Operators: 2, Walk: sim.Constant(0), People: []model.Person{
					{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1, Only: model.Clearing | model.Filling},
				}}
				p.Lines[0].Crew = p.Crew
				p.Staffed = []seasons.Staffed{{Name: "Anna is sick", Weeks: []int{1}, Days: []int{c.sick}, Operators: seasons.AsElse, Absent: []string{"Anna"}}}
			}
			job := func() PlansJob {
				return askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0].Lines[0].Jobs[0]
			}
			j := job()
			require.NotNil(t, j.StartBy)
			assert.Equal(t, Number(1), j.StartKept.Share)
			assert.LessOrEqual(t, float64(j.StartBy.At), float64(c.by))
			assert.GreaterOrEqual(t, float64(j.StartBy.At), float64(c.by-startStep), "a line starts again in 4 s")
			p.Jobs[0].NotBefore = j.StartBy.At
			assert.Equal(t, Number(1), job().InTime.Share)
			p.Jobs[0].NotBefore = c.late
			assert.Zero(t, job().InTime.Share)
		})
	}
}

// A changeover begins an hour before a day on which nobody may do some piece of it, and ends an hour after that day: it
// may have been at work all the while. If nobody may do any piece then, it was at work for 2 h.
func TestLatestStartsOfSomePieces(t *testing.T) {
	some := []model.Stretch{{From: 4 * 3600, To: 8 * 3600}}
	job := &seasons.TogetherJob{
		Begun: sim.Sample{3 * 3600}, First: sim.Sample{9 * 3600}, Free: sim.Sample{10 * 3600}, Finished: sim.Sample{10 * 3600},
		Barred: seasons.Barred{Some: some},
	}
	assert.InDelta(t, 14*3600, latestStarts(21*3600, job, nil)[0], 1e-6, "6 h and 1 h of work")
	job.Barred.All = some
	assert.InDelta(t, 18*3600, latestStarts(21*3600, job, nil)[0], 1e-6, "2 h and 1 h")
	job.First[0], job.Free[0], job.Finished[0] = 4.5*3600, 5.5*3600, 5.5*3600
	assert.InDelta(t, 18.5*3600, latestStarts(21*3600, job, nil)[0], 1e-6, "who was at it finished it: 1.5 h and 1 h")
	assert.InDelta(t, 3*3600, latestStarts(5.5*3600, job, nil)[0], 1e-6, "it was in time")
}

// By hand: people work from 08:00 to 12:00 on each day. Starts are tried at full five minutes by the clock on the wall;
// what begins when a shift ends begins with the next.
func TestStartsAreFullFiveMinutes(t *testing.T) {
	const day, hour = 24 * 3600, 3600
	s := &starts{h: plansOf().Horizon()}
	for worked, at := range map[float64]sim.Seconds{
		0:            8 * hour,
		2*hour + 299: 10 * hour,
		2*hour + 300: 10*hour + 300,
		4*hour - 1:   11*hour + 55*60,
		4 * hour:     day + 8*hour,
		20 * hour:    7*day + 8*hour,
	} {
		assert.Equal(t, at, s.h.From(sim.Seconds(s.step(worked))), "after %v s", worked)
	}
}
