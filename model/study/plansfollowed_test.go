package study

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/seasons"
	"netrate/sim"
)

// followedRuns is how often a plan is simulated here, and how often it is when what it says is followed.
const followedRuns = 200

// followedAtLeast is how often a date is kept at least that is kept 9 times in 10: by three standard errors of the
// difference of two shares of so many replications each.
var followedAtLeast = 0.9 - 3*math.Sqrt(0.9*0.1*2/followedRuns)

// stopping is a week from 06:00 to 22:00 on two lines that stop some 36 times an hour of running, a minute each: the
// two people of the crew are often both wanted. Each line has two jobs.
func stopping(sets ...int64) *seasons.Plan {
	p := plansOf()
	p.Calendar = &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Start: 6 * 3600, Length: 8 * 3600}, {Start: 14 * 3600, Length: 8 * 3600}}}
	p.Lines, p.Jobs, p.Crew = nil, nil, model.Crew{Operators: 2, Walk: sim.Constant(15)}
	for _, name := range []string{"a", "b"} {
		l := modeltest.CalmLine()
		l.Name = name
		for _, s := range l.Stations {
			if f, is := s.(*model.Feeder); is {
				f.Jam = 0.005
			}
		}
		p.Lines = append(p.Lines, l)
	}
	for i, n := range sets {
		p.Jobs = append(p.Jobs, seasons.PlanJob{Name: fmt.Sprint("job ", i+1), Sets: n, Due: sim.Seconds(math.Inf(1)), Priority: 1, InHand: -1})
	}
	p.Order = [][]int{{0, 1}, {2, 3}}
	return p
}

// planOf returns a plan in its order, with what it comes to and by when its jobs must start.
func planOf(t *testing.T, p *seasons.Plan) *PlansPlan {
	t.Helper()
	how := sim.Plan{Seed: 1, Min: followedRuns, Max: followedRuns}
	made, err := p.Make(t.Context(), how, nil)
	require.NoError(t, err)
	study, err := seasons.RunTogether(t.Context(), made.Together(), how, nil)
	require.NoError(t, err)
	x := newPlansPlan(&planned{PlansConfiguration: PlansConfiguration{Name: "base", Plan: p}}, made).counted(study)
	require.NoError(t, x.startBys(t.Context(), how))
	return &x
}

// followed returns how often the date of a job is kept in the whole plan, by other random numbers, if it is told not to
// begin before a time.
func (x *PlansPlan) followed(t *testing.T, job int, from sim.Seconds) float64 {
	t.Helper()
	work, h := x.Made.Together(), x.Made.Horizon
	work.Jobs[job].NotBefore = h.Worked(from)
	study, err := seasons.RunTogether(t.Context(), work, sim.Plan{Seed: 2, Min: followedRuns, Max: followedRuns}, nil)
	require.NoError(t, err)
	kept, due := 0.0, float64(h.Worked(x.Made.Plan.Jobs[job].Due))
	for _, finished := range study.Jobs[job].Finished {
		if finished <= due {
			kept += 1.0 / followedRuns
		}
	}
	return kept
}

// job returns a job by its number among all.
func (x *PlansPlan) job(number int) *PlansJob {
	for _, j := range x.Jobs() {
		if j.Index == number {
			return j
		}
	}
	return nil
}

// What is said of the second job of a line, which ends on Monday and is due later, holds if it is followed, where it then
// runs among other people, breaks and holidays, and half an hour later does not. Laid back from the date, the work that
// it has on Monday does not hold where there are fewer people.
func TestStartByIsKeptIfFollowed(t *testing.T) {
	const day, hour = 24 * 3600, 3600
	staff := func(name string, operators int, days, shifts []int) []seasons.Staffed {
		return []seasons.Staffed{{Name: name, Days: days, Shifts: shifts, Operators: operators}}
	}
	for name, c := range map[string]struct {
		change func(p *seasons.Plan)
		due    sim.Seconds
		wrong  bool // the forecast
	}{
		"fewer in the early shift": {func(p *seasons.Plan) { p.Staffed = staff("few", 1, []int{2, 3}, []int{1}) }, day + 13*hour, true},
		"a break":                  {func(p *seasons.Plan) { p.Calendar.Breaks = []seasons.Break{{After: 4 * hour, Length: hour}} }, day + 11.5*hour, false},
		"a holiday":                {func(p *seasons.Plan) { p.Staffed = staff("holiday", 0, []int{2}, nil) }, 2*day + 8*hour, false},
	} {
		t.Run(name, func(t *testing.T) {
			p := stopping(6000, 12_000, 30_000, 60_000)
			c.change(p)
			p.Jobs[1].Due = c.due
			x := planOf(t, p)
			by := x.job(1).StartBy
			require.NotNil(t, by)
			assert.GreaterOrEqual(t, x.followed(t, 1, by.At), followedAtLeast)
			assert.Less(t, x.followed(t, 1, by.At+1800), followedAtLeast)
			if c.wrong {
				s := x.starts(x.job(1), sim.Plan{})
				assert.Less(t, x.followed(t, 1, s.h.From(sim.Seconds(s.forecast))), followedAtLeast)
			}
		})
	}
}

// Of eight random weeks: what is said holds if it is followed.
func TestStartByIsKeptInRandomWeeks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	found := 0
	for range 8 {
		sets := make([]int64, 4)
		for i := range sets {
			sets[i] = 2000 + r.Int64N(16_000)
		}
		p := stopping(sets...)
		for d := 1; d <= 5; d++ {
			p.Staffed = append(p.Staffed, seasons.Staffed{Name: fmt.Sprint("day ", d), Days: []int{d}, Shifts: []int{1 + r.IntN(2)}, Operators: 1})
		}
		job := r.IntN(4)
		p.Jobs[job].Due = sim.Seconds(2+r.IntN(3))*24*3600 + sim.Seconds(6+r.IntN(16))*3600
		x := planOf(t, p)
		if by := x.job(job).StartBy; by != nil {
			found++
			assert.GreaterOrEqual(t, x.followed(t, job, by.At), followedAtLeast)
		}
	}
	assert.GreaterOrEqual(t, found, 6)
}

// An answer that is interrupted while starts are looked for has all dates, is partial, and has the starts that were found
// by then: here none. That the short job cannot be in time by any start is known from the dates.
func TestStartsInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	p := plansOf()
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}}
	a, err := q.Ask(ctx, func(s Sofar[PlansAnswer]) {
		if s.Done == s.Most {
			stop()
		}
	})
	require.NoError(t, err)
	assert.True(t, a.Settings.Partial)
	assert.Equal(t, 4, a.Settings.Reps)
	for _, j := range a.Plans[0].Jobs() {
		assert.Nil(t, j.StartBy, j.Name)
		assert.Equal(t, j.Name == "short", j.TooLate, j.Name)
	}
}
