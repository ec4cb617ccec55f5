package study

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// plansOf is two jobs on two calm lines with two operators, from 08:00 to 12:00 on each of five days. A
// line does a set a second; the second job is due after 2 h.
func plansOf() *seasons.Plan {
	p := &seasons.Plan{
		Crew:     model.Crew{Operators: 2, Walk: sim.Constant(0)},
		Calendar: &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Start: 8 * 3600, Length: 4 * 3600}}},
		Products: []*setup.Product{{Name: "bills", Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}, Inserts: []setup.Insert{{Name: "bill", Material: 1, Share: 1}}}},
		Jobs: []seasons.PlanJob{
			{Name: "long", Sets: 4*3600 - 5, Due: 13 * 3600, Priority: 1, InHand: -1},
			{Name: "short", Sets: 3*3600 - 5, Due: 10 * 3600, Priority: 2, InHand: -1},
		},
		Late: 10,
	}
	for _, name := range []string{"a", "b"} {
		l := modeltest.CalmLine()
		l.Name = name
		p.Lines = append(p.Lines, l)
	}
	return p
}

func askPlans(t *testing.T, q *Plans) *PlansAnswer {
	t.Helper()
	q.Plan = sim.Plan{Seed: 1, Min: 4, Max: 4}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	return a
}

// Where lateness has no price, what it costs is not 0: it is not known, and null in JSON.
func TestPlansLatenessWithoutAPrice(t *testing.T) {
	p := plansOf()
	p.Late = 0
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}})
	x := &a.Plans[0]
	assert.InDelta(t, 2, float64(x.Late.Mean), 1e-6)
	assert.True(t, math.IsNaN(float64(x.LateCost)))
	assert.Zero(t, x.All())
	for _, j := range x.Jobs() {
		assert.True(t, math.IsNaN(float64(j.LateCost)))
	}
	text, err := json.Marshal(x)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"lateness_cost":null`)
	assert.NotContains(t, string(text), `"lateness_cost":0`)
}

// By hand: both lines begin at 08:00. The long job ends when the shift does, at 12:00, in time; the
// short one at 11:00, an hour late, twice as bad: 2 h, and 20 in money. It would have had to begin at
// 07:00, before the plan does.
func TestPlansByHand(t *testing.T) {
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}}})
	x := &a.Plans[0]
	assert.True(t, x.Exact)
	assert.InDelta(t, 2, float64(x.Late.Mean), 1e-6)
	assert.InDelta(t, 20, float64(x.LateCost), 1e-5)
	assert.Zero(t, float64(x.AllInTime.Share))
	for _, j := range x.Jobs() {
		_, _, hour, minute := j.Finished.P50.Parts()
		if j.Name == "short" {
			assert.Equal(t, [2]int{11, 0}, [2]int{hour, minute})
			assert.Zero(t, float64(j.InTime.Share))
			assert.Nil(t, j.StartBy)
			assert.InDelta(t, 1, float64(j.Late), 1e-6)
			continue
		}
		assert.Equal(t, [2]int{12, 0}, [2]int{hour, minute}, "at the end of the shift, not at the start of the next")
		assert.Equal(t, Number(1), j.InTime.Share)
		require.NotNil(t, j.StartBy)
		assert.Equal(t, sim.Seconds(8*3600), j.StartBy.At)
	}
	assert.InDelta(t, 2, float64(x.Paper.LateBound), 1e-6, "the bound finds that it cannot be in time")
	assert.InDelta(t, 4, float64(x.Paper.Hours), 1e-6)
}

// A service is had at least cost: two more hours in the early morning, in which somebody is there only
// if that is chosen, are enough; hiring somebody is dearer and helps nobody.
func TestPlansChoose(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Days: []int{1}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 15},
		{Name: "hired", Operators: 3, Optional: true, Cost: 500},
	}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}, {Name: "other", Plan: p}}, Service: 0.9}
	a := askPlans(t, q)
	require.Len(t, a.Plans, 5, "the base, three combinations, the variant")
	require.GreaterOrEqual(t, int(a.Chosen), 0)
	assert.Equal(t, []string{"early"}, a.Plans[a.Chosen].Chosen)
	assert.InDelta(t, 15, a.Plans[a.Chosen].All(), 1e-9)
	assert.False(t, a.Plans[0].Serves(0.9))
	p.Staffed[1].Optional, p.Staffed[2].Optional = false, false
	_, err := q.Ask(context.Background(), nil)
	require.ErrorContains(t, err, "nothing under staff is optional")
}

// Nothing is enough: the short job, due at 10:00, is finished at 11:00, or at 10:30 with half an hour more
// in the early morning. That comes nearest, being less late; the base is cheaper. Somebody hired changes
// nothing, and comes no nearer than what is cheaper.
func TestPlansComeNear(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 7.5 * 3600, Length: 1800}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Days: []int{1}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 5000},
		{Name: "hired", Shifts: []int{2}, Operators: 3, Optional: true, Cost: 500},
	}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9}
	a := askPlans(t, q)
	require.Len(t, a.Plans, 4)
	assert.Equal(t, [4]Index{-1, 1, 0, 1}, [4]Index{a.Chosen, a.Nearest, a.Cheapest, a.Shown()})
	assert.Equal(t, []string{"early"}, a.Plans[1].Chosen)
	assert.InDelta(t, 5010, a.Plans[1].All(), 1e-5)
	p.Jobs[1].Due = 10.5 * 3600
	a = askPlans(t, q)
	assert.Equal(t, [4]Index{1, -1, -1, 1}, [4]Index{a.Chosen, a.Nearest, a.Cheapest, a.Shown()})
}

// What is gained in one replication of four is not shown to be a gain: the base is nearest, not what costs
// more. Gained in all four it is.
func TestPlansComeNearByMoreThanChance(t *testing.T) {
	p := plansOf()
	p.Staffed = []seasons.Staffed{{Name: "hired", Operators: 3, Optional: true, Cost: 500}}
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9})
	require.Len(t, a.Plans, 2)
	hired := &a.Plans[1]
	gains := func(replications int) Index {
		for r := range replications {
			hired.Study.Jobs[1].Finished[r] = 2.5 * 3600 // half an hour sooner, and late still
		}
		a.Plans[1] = hired.counted(hired.Study)
		a.choose(0.9)
		return a.Shown()
	}
	assert.Equal(t, Index(0), gains(1))
	assert.True(t, a.Plans[1].nearer(&a.Plans[0]), "by chance")
	assert.Equal(t, Index(-1), a.Chosen)
	assert.Equal(t, Index(1), gains(4))
	minutes := func(lateCost float64) Index { // 2 min sooner in all four, times 2: 4 min of 2 h
		for i := range a.Plans {
			a.Plans[i].Made.Plan.Late = lateCost
		}
		for r := range hired.Study.Jobs[1].Finished {
			hired.Study.Jobs[1].Finished[r] = a.Plans[0].Study.Jobs[1].Finished[r] - 120
		}
		a.Plans[1] = hired.counted(hired.Study)
		a.choose(0.9)
		return a.Shown()
	}
	assert.Equal(t, Index(0), minutes(50), "3.33 saved for 500, and no date is kept more often")
	assert.True(t, a.Plans[1].nearer(&a.Plans[0]))
	assert.Equal(t, Index(1), minutes(9000), "600 saved for 500")
	same := []bool{false, false, false, false, false, false, true}
	assert.False(t, moreOften([]bool{true, true, true, true, false, false, true}, same), "4 of 4 pairs may be chance: 1 in 16, and the interval has two sides")
	assert.True(t, moreOften([]bool{true, true, true, true, true, true, true}, same), "6 of 6 are 1 in 64")
	assert.False(t, moreOften(same, same))
}

// A plan is surer if each of its dates is kept more often than the one least sure of another, even where all of them never
// are; not if one of them is kept no more often.
func TestPlansAreSurerByEachDate(t *testing.T) {
	plan := func(long, short func(r int) bool) *PlansPlan {
		a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}}})
		x := &a.Plans[0]
		study := *x.Study
		study.Done, study.Jobs = 20, slices.Clone(study.Jobs)
		for j, in := range []func(int) bool{long, short} {
			due := float64(x.Made.Horizon.Worked(x.Made.Plan.Jobs[j].Due))
			study.Jobs[j].Finished = nil
			for r := range study.Done {
				study.Jobs[j].Finished = append(study.Jobs[j].Finished, due+map[bool]float64{true: -1, false: 1}[in(r)])
			}
			study.Jobs[j].Begun, study.Jobs[j].First, study.Jobs[j].Free = make(sim.Sample, 20), make(sim.Sample, 20), study.Jobs[j].Finished
		}
		study.Finished, study.Free = study.Jobs[0].Finished, study.Jobs[0].Finished
		own := x.counted(&study)
		return &own
	}
	never, odd, even := func(int) bool { return false }, func(r int) bool { return r%2 == 1 }, func(r int) bool { return r%2 == 0 }
	base := plan(odd, never)
	assert.True(t, plan(odd, even).shownSurer(base), "10 of 20 against none, of each")
	assert.False(t, plan(odd, never).shownSurer(base), "one is kept no more often")
	assert.False(t, plan(odd, func(r int) bool { return r < 4 }).shownSurer(base), "4 of 20 against none may be chance")
	assert.False(t, moreOften(plan(odd, even).inAll(), base.inAll()), "all dates are never kept in either")
}

// By hand: the line of the short job is down from 08:30 to 09:30. It is done by 12:00, and has 3 h of work. A
// job that runs when the plan begins has no time to start by.
func TestPlansDownIsNoWork(t *testing.T) {
	p := plansOf()
	for i := range p.Lines {
		p.Down = append(p.Down, seasons.LineDown{Line: i, Window: seasons.Window{From: 8.5 * 3600, To: 9.5 * 3600}})
	}
	p.Jobs[1].InHand = 0
	p.Jobs[1].Due = 13 * 3600
	for _, l := range askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0].Lines {
		require.Len(t, l.Jobs, 1)
		want := map[string]float64{"long": 4, "short": 3}[l.Jobs[0].Name]
		assert.InDelta(t, want, float64(l.Busy.Mean), 0.01, l.Name)
		assert.Equal(t, [][2]float64{{0.5, 1.5}}, l.Down())
		assert.Equal(t, l.Jobs[0].Name == "short", l.Jobs[0].Running)
		if l.Jobs[0].Running {
			assert.Nil(t, l.Jobs[0].StartBy)
		}
	}
}

// By hand: the changeover takes from 08:00 to 08:30, while the lines are down from 08:15 to 09:15: the first set is
// then, and not in between.
func TestPlansFirstSetIsNotWhileDown(t *testing.T) {
	p := plansOf()
	p.Change = &setup.Changeover{Always: setup.Change{Time: sim.Constant(1800)}}
	for i := range p.Lines {
		p.Down = append(p.Down, seasons.LineDown{Line: i, Window: seasons.Window{From: 8.25 * 3600, To: 9.25 * 3600}})
	}
	for _, j := range askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0].Jobs() {
		assert.InDelta(t, 9.25*3600, float64(j.First.At), 1, j.Name)
	}
}

// A slip is one that replications as many do not show by chance: of 1 to 100, nine in ten are below 90, and it
// is not below 81 or so.
func TestSurelyBelow(t *testing.T) {
	s := make(sim.Sample, 100)
	for i := range s {
		s[i] = float64(i + 1)
	}
	assert.InDelta(t, 90-1.96*3*1.4142, surelyBelow(s, 0.9), 1.5)
	assert.InDelta(t, 1, surelyBelow(s[:2], 0.9), 1)
}

// At 09:00 an hour of the short job is done, on a; the long one has not begun, since b broke down. What
// is left is planned: the short one stays where it is. Going on in the order as it was comes to the same.
func TestPlansGoOn(t *testing.T) {
	q := &Plans{
		Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}}, Now: 9 * 3600,
		Done: []seasons.Progress{{Job: "short", Sets: 3600, Line: "a"}},
	}
	a := askPlans(t, q)
	require.Len(t, a.Plans, 2)
	require.NotNil(t, a.Change)
	assert.Equal(t, "short", a.Plans[0].Lines[0].Jobs[0].Name)
	_, day, hour, _ := a.Plans[0].Lines[0].Jobs[0].Finished.P50.Parts()
	assert.Equal(t, [2]int{1, 11}, [2]int{day, hour})
	assert.InDelta(t, 0, float64(a.Change.Hours.Mean), 1e-6)
	assert.InDelta(t, 0, float64(a.Change.Late.Mean), 1e-6)
	for text, done := range map[string][]seasons.Progress{
		"has no job":       {{Job: "other"}},
		"want from 0 to":   {{Job: "short", Sets: 1e9}},
		"no line is named": {{Job: "short", Sets: 1, Line: "c"}},
		"is at":            {{Job: "short", Sets: 1, Line: "a"}, {Job: "long", Sets: 1, Line: "a"}},
		"all jobs are":     {{Job: "short", Sets: 3*3600 - 5}, {Job: "long", Sets: 4*3600 - 5}},
	} {
		q.Done = done
		_, err := q.Ask(context.Background(), nil)
		assert.ErrorContains(t, err, text)
	}
	q.Done = []seasons.Progress{{Job: "short", Sets: 3600, Line: "a"}}
	q.Configurations[0].Plan.Jobs[1].NotBefore = 11 * 3600
	_, err := q.Ask(context.Background(), nil)
	assert.ErrorContains(t, err, "short is begun, and by its not_before it may begin only later", "one of them is a slip")
}

// By hand: people come on the first day alone, for 4 h. The long job, of 4 h, is finished with them; one
// of 5 h never is, whenever it is due: its lateness has no end, and its plan is not chosen. A second day
// is dear, and chosen.
func TestPlansThatAreNotFinished(t *testing.T) {
	p := plansOf()
	p.Jobs[1].Sets, p.Jobs[1].Due = 5*3600-5, 14*24*3600
	p.Staffed = []seasons.Staffed{
		{Name: "nobody later", Days: []int{2, 3, 4, 5}},
		{Name: "nobody in other weeks", Weeks: []int{2, 3}},
		{Name: "two days", Weeks: []int{1}, Days: []int{2}, Operators: 2, Optional: true, Cost: 9000},
	}
	for w := 4; w <= 104; w++ {
		p.Staffed[1].Weeks = append(p.Staffed[1].Weeks, w)
	}
	for _, due := range []sim.Seconds{14 * 24 * 3600, sim.Seconds(math.Inf(1))} {
		p.Jobs[1].Due = due
		a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9})
		base := &a.Plans[0]
		for _, j := range base.Jobs() {
			if j.Name == "long" {
				assert.Zero(t, float64(j.Unfinished))
				assert.Equal(t, Number(1), j.InTime.Share)
				continue
			}
			assert.Equal(t, Number(1), j.Unfinished)
			assert.True(t, j.Finished.P50.Never())
			if assert.Equal(t, !math.IsInf(float64(due), 1), j.Due != nil); j.Due != nil {
				assert.Zero(t, float64(j.InTime.Share))
				assert.True(t, math.IsInf(float64(base.Late.Mean), 1))
				assert.True(t, math.IsInf(base.All(), 1))
			}
		}
		assert.True(t, base.Last.P50.Never())
		require.Equal(t, Index(1), a.Chosen)
		assert.Equal(t, Number(0), a.Plans[1].Jobs()[0].Unfinished)
		assert.InDelta(t, 9000, a.Plans[1].All(), 1e-9)
		_, err := json.Marshal(a)
		require.NoError(t, err)
	}
	p.Jobs[1].Due, p.Jobs[1].Priority, p.Staffed = 14*24*3600, 0, p.Staffed[:2]
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}})
	assert.Zero(t, float64(a.Plans[0].Late.Mean), "an end that nobody waits for costs nothing")
	assert.Zero(t, a.Plans[0].All())
}

// What planning anew brings is set against the order as it was with the same choice: the order is the same, and the 22 h
// that somebody there on the first day brings are not its doing.
func TestPlansChangeIsOfTheChoice(t *testing.T) {
	p := plansOf()
	p.Jobs[0].Due, p.Jobs[1].Due = 12*3600, sim.Seconds(math.Inf(1))
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 8 * 3600, Length: 2 * 3600}, {Start: 10 * 3600, Length: 2 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "short days", Shifts: []int{2}},
		{Name: "whole days", Shifts: []int{2}, Operators: 2, Optional: true, Cost: 5},
	}
	a := askPlans(t, &Plans{
		Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9, Now: 8 * 3600, Done: []seasons.Progress{},
	})
	require.Positive(t, int(a.Chosen))
	assert.True(t, a.Change.Same)
	assert.InDelta(t, 0, float64(a.Change.Hours.Mean), 1e-6)
	assert.InDelta(t, 0, float64(a.Change.Late.Mean), 1e-6)
	require.Len(t, a.Plans, 4)
	assert.Equal(t, 4, a.Asked)
	assert.False(t, bool(a.Settings.Partial))
	assert.Equal(t, "the order as it was with whole days", a.Plans[3].Name)
	assert.InDelta(t, 22, float64(plansChange(&a.Plans[1], &a.Plans[a.Chosen]).Hours.Mean), 1e-6, "at 12:00 on the first day rather than at 10:00 on the next")
}

// At 10:00 the date of the short job is over, and no choice keeps it. It is set aside, and late all the same: from 10:00
// to 12:00, by 2 h of priority 2. The long job, 4 h from 10:00 on, is in time with an afternoon.
func TestPlansSetDatesAsideThatAreOver(t *testing.T) {
	p := plansOf()
	p.Jobs[0].Due = 14.5 * 3600
	p.Calendar.Shifts = append(p.Calendar.Shifts, seasons.ShiftTime{Start: 12 * 3600, Length: 4 * 3600})
	p.Staffed = []seasons.Staffed{
		{Name: "mornings", Shifts: []int{2}},
		{Name: "afternoon", Weeks: []int{1}, Days: []int{1}, Shifts: []int{2}, Operators: 2, Optional: true, Cost: 15},
	}
	q := &Plans{
		Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9, Now: 10 * 3600,
		Done: []seasons.Progress{{Job: "short", Sets: 3600, Line: "a"}},
	}
	a := askPlans(t, q)
	require.Positive(t, int(a.Chosen))
	x := &a.Plans[a.Chosen]
	assert.Equal(t, []string{"afternoon"}, x.Chosen)
	assert.Equal(t, Number(1), x.AllInTime.Share)
	assert.InDelta(t, 4, float64(x.Late.Mean), 0.01)
	for _, j := range x.Jobs() {
		assert.Equal(t, j.Name == "short", j.DateOver, j.Name)
	}
	p.Jobs[0].Due = 9 * 3600
	a = askPlans(t, q)
	assert.Equal(t, Index(-1), a.Chosen, "where all are over none is set aside")
	assert.Zero(t, float64(a.Plans[0].AllInTime.Share))
}

// What was found when a signal ended the question is the answer.
func TestPlansAreCut(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}, {Name: "other", Plan: plansOf()}}, Plan: sim.Plan{Seed: 1, Min: 500, Max: 500, Workers: 1}}
	seen := 0
	a, err := q.Ask(ctx, func(s Sofar[PlansAnswer]) {
		if seen = s.Done; seen == 20 {
			part := s.Answer()
			assert.True(t, part.Settings.Partial)
			assert.Equal(t, 20, part.Settings.Reps)
			stop()
		}
	})
	require.NoError(t, err)
	assert.True(t, a.Settings.Partial)
	require.Len(t, a.Plans, 1)
	assert.Equal(t, a.Plans[0].Study.Done, a.Settings.Reps)
}

// A question that is ended while its first plan is made has no answer, and none is made up.
func TestPlansAreCutAtOnce(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}}
	a, err := q.Ask(ctx, nil)
	require.NoError(t, err)
	assert.Empty(t, a.Plans)
	assert.True(t, a.Settings.Partial)
}

// What ends with a shift ends then, and what follows begins with the next, whatever the length: in hours
// and back, the 124,800 s of two shifts of 17 h 20 are not what they were.
func TestPlansEndWithTheShift(t *testing.T) {
	const length = 62_400
	hours := float64(2*length) / 3600
	require.NotEqual(t, float64(2*length), 3600*hours, "a length that comes out shows nothing")
	p := plansOf()
	p.Lines = p.Lines[:1]
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 0, Length: length}}
	p.Jobs[0].Sets, p.Jobs[0].Due = 2*length-5, 24*3600+length
	p.Jobs[1].Due = 5 * 24 * 3600
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}})
	jobs := a.Plans[0].Jobs()
	require.Equal(t, "long", jobs[0].Name)
	assert.Equal(t, sim.Seconds(24*3600+length), jobs[0].Finished.P90.At)
	assert.Equal(t, Number(1), jobs[0].InTime.Share)
	assert.Equal(t, sim.Seconds(2*24*3600), jobs[1].Begun.P50.At)
	assert.Equal(t, sim.Seconds(2*24*3600), jobs[1].First.At)
}

// A moment is what the clock on the wall shows, also after the change to summer time: in the European
// Union at 01:00 UTC on the last Sunday of March, which is 29 March 2026 (Directive 2000/84/EC).
func TestPlansMomentInSummer(t *testing.T) {
	paris, err := time.LoadLocation("Europe/Paris")
	require.NoError(t, err)
	starts := time.Date(2026, 3, 23, 0, 0, 0, 0, paris)
	for at, utc := range map[sim.Seconds]string{
		4*86400 + 6*3600: "2026-03-27T05:00:00Z", // Friday
		7*86400 + 6*3600: "2026-03-30T04:00:00Z", // Monday
	} {
		m := PlansMoment{at}.Time(starts)
		assert.Equal(t, 6, m.Hour())
		assert.Equal(t, utc, m.UTC().Format(time.RFC3339))
	}
	text, err := PlansMoment{7*86400 + 6*3600 + 59.6}.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "week 2 day 1 06:01", string(text))
}
