package study

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// plansBeside is two jobs of three sets on one line, with 60 remakes an hour made beside it. Each document
// but the first jams and takes 32 s: of each job the second set is lost after 33 s and the third after 65,
// and the line is free after 70.
func plansBeside() *seasons.Plan {
	p := plansOf()
	l := modeltest.CalmLine()
	l.Stations[0] = &model.Channel{
		Place: model.Place{Name: "channel"}, Sheets: 7200, Pages: sim.Always(3), Buffer: 1,
		Jam: 1, Stream: model.Stream{Name: "documents", Tries: 1}, Clear: sim.Constant(20.25),
	}
	p.Lines, p.Crew = []*model.Line{l}, model.Crew{Operators: 1, Walk: sim.Constant(10.25)}
	p.Products[0].Documents = &setup.Documents{Pages: sim.Always(3)}
	p.Closing = model.Job{Closing: model.Beside, PerHour: 60}
	p.Jobs = []seasons.PlanJob{
		{Name: "first", Sets: 3, Due: 8*3600 + 130, Priority: 1, InHand: -1},
		{Name: "second", Sets: 3, Due: 12 * 3600, Priority: 1, InHand: -1},
	}
	return p
}

// By hand: the bench makes the remakes of the first job from 33 to 153 s, those of the second on to 273. It
// has 240 s of work, the line 140: so the last job is finished no sooner than after 240 s on paper too, and
// no plan is. The first is due after 130 s: its line was free after 70.
func TestPlansNameTheBench(t *testing.T) {
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansBeside()}}})
	x := &a.Plans[0]
	require.NotNil(t, x.Hand)
	assert.True(t, x.Hand.Beside)
	assert.InDelta(t, 240.0/3600, float64(x.Hand.Hours.Mean), 1e-9)
	assert.InDelta(t, 140.0/3600, float64(x.Lines[0].Busy.Mean), 1e-9)
	assert.InDelta(t, 133.0/3600, float64(x.Hand.After), 1e-9)
	assert.Equal(t, Number(1), x.Hand.Last)
	assert.InDelta(t, 273.0/3600, float64(x.Hours), 1e-9)
	assert.InDelta(t, 240.0/3600, float64(x.Paper.Hours), 1e-9)
	assert.InDelta(t, 240.0/3600, float64(x.Paper.HoursBound), 1e-9)
	assert.InDelta(t, 23.0/3600, float64(x.Paper.Late), 1e-9, "on paper the first job is finished after 153 s")
	assert.InDelta(t, 23.0/3600, float64(x.Paper.LateBound), 1e-9)
	first := x.Jobs()[0]
	assert.InDelta(t, 1, float64(first.AtBench), 1e-9)
	assert.Zero(t, float64(x.Jobs()[1].AtBench))
}

// By hand: two remakes lie there from the start, of a job that is done but for them and was due after a
// minute. They are made after 120 s, and what comes later by 240 and 360 s.
func TestPlansGoOnAtTheBench(t *testing.T) {
	p := plansBeside()
	p.Jobs = append(p.Jobs, seasons.PlanJob{Name: "before", Sets: 3, Due: 8*3600 + 60, Priority: 2, InHand: -1})
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Now: 8 * 3600, Done: []seasons.Progress{{Job: "before", Sets: 3, Remakes: 2}}}
	x := &askPlans(t, q).Plans[0]
	require.Len(t, x.Jobs(), 2)
	assert.Equal(t, sim.Seconds(8*3600+240), x.Jobs()[0].Finished.P50.At)
	assert.Equal(t, sim.Seconds(8*3600+360), x.Jobs()[1].Finished.P50.At)
	assert.InDelta(t, 360.0/3600, float64(x.Hand.Hours.Mean), 1e-9)
	require.Len(t, x.Hand.OnBench, 1)
	assert.Equal(t, Number(0), *x.became(&PlansJob{Name: "before"}).Kept)
	assert.Equal(t, sim.Seconds(8*3600+120), x.Hand.OnBench[0].Made.At)
	assert.InDelta(t, 60.0/3600, float64(x.Hand.OnBench[0].Late), 1e-9)
	assert.InDelta(t, (110.0+2*60.0)/3600, float64(x.Late.Mean), 1e-9, "the first job is 110 s late")
	assert.Zero(t, float64(x.AllInTime.Share))

	q.Done = []seasons.Progress{{Job: "before", Sets: 3}, {Job: "first", Sets: 1, Remakes: 1}, {Job: "second", Sets: 3}}
	x = &askPlans(t, q).Plans[0]
	require.Len(t, x.Jobs(), 1)
	assert.Nil(t, x.Hand.OnBench[0].Due, "it is in the plan")
	said := q.Done
	for text, wrong := range map[string]func(p *seasons.Plan, done []seasons.Progress){
		"nothing of remakes":         func(p *seasons.Plan, _ []seasons.Progress) { p.Closing = model.Job{} },
		"there is none: remakes are": func(p *seasons.Plan, _ []seasons.Progress) { p.Closing = model.Job{Closing: model.ByHand, PerHour: 60} },
		"is not personalised":        func(p *seasons.Plan, _ []seasons.Progress) { p.Products[0].Documents = nil },
		"the 0 sets that are done":   func(_ *seasons.Plan, done []seasons.Progress) { done[1].Sets = 0 },
	} {
		own, product, done := *p, *p.Products[0], slices.Clone(said)
		own.Products = []*setup.Product{&product}
		wrong(&own, done)
		q.Configurations[0].Plan, q.Done = &own, done
		assert.ErrorContains(t, q.Check(), text)
	}
}

// A job without a stream has no remakes: that is said of it.
func TestPlansWithoutRemakes(t *testing.T) {
	p := plansBeside()
	p.Products = append(p.Products, &setup.Product{Name: "plain", Envelope: p.Products[0].Envelope, Inserts: p.Products[0].Inserts})
	p.Jobs[1].Product = 1
	x := &askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0]
	assert.Equal(t, []string{"second"}, x.NotRemade)
	p.Closing = model.Job{}
	x = &askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0]
	assert.Empty(t, x.NotRemade)
	assert.Nil(t, x.Hand)
}

// An order that is given is set against the same choice without it. By hand, as in TestPlansInAGivenOrder:
// in that order the short job, due at 11:00 of the second day, ends then; it is in time where it may be
// worked at from 06:00, which planned anew is of no use. So 23 h sooner: not 24 h, as against what is not
// chosen.
func TestPlansCompareLikeWithLike(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Order = [][]int{{0, 1}, {}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 15},
	}
	p.Jobs[1].Due = 24*3600 + 8*3600
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9})
	require.Len(t, a.Plans, 4)
	assert.Equal(t, []string{"base", "planned anew", "with early", "planned anew with early"}, []string{a.Plans[0].Name, a.Plans[1].Name, a.Plans[2].Name, a.Plans[3].Name})
	require.Equal(t, Index(2), a.Chosen)
	assert.Equal(t, Index(1), a.ChosenAnew, "planned anew it needs nothing")
	assert.Equal(t, []string{"early"}, a.Plans[3].Chosen)
	// 06:00 to 10:00 the long job, to 12:00 and from 06:00 to 07:00 the short one; anew it ends at 09:00, the long one at 10:00.
	assert.InDelta(t, 21, float64(a.Change.Hours.Mean), 1e-6)
}

// What is over is not tried; where nothing else is left there is nothing to choose.
func TestPlansDoNotTryWhatIsOver(t *testing.T) {
	p := plansOf()
	p.Staffed = []seasons.Staffed{
		{Name: "on Monday", Weeks: []int{1}, Days: []int{1}, Operators: 3, Optional: true, Cost: 9},
		{Name: "on Friday", Weeks: []int{1}, Days: []int{5}, Operators: 3, Optional: true, Cost: 9},
	}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9, Now: 24 * 3600, Done: []seasons.Progress{}}
	a := askPlans(t, q)
	assert.Len(t, a.Plans, 3, "the base, the order as it was, and Friday")
	assert.Equal(t, []string{"on Monday"}, a.Over)
	p.Staffed = p.Staffed[:1]
	require.ErrorContains(t, q.Check(), "is over by now")
}

// What a line is at goes first, whatever the order says, and that is told.
func TestPlansOverruleAnOrder(t *testing.T) {
	for text, c := range map[string]struct {
		order [][]int
		line  string
		want  []string
	}{
		"elsewhere": {[][]int{{0}, {1}}, "a", []string{"short"}},
		"later":     {[][]int{{0, 1}, {}}, "a", []string{"short"}},
		"as it is":  {[][]int{{1, 0}, {}}, "a", nil},
	} {
		p := plansOf()
		p.Order = c.order
		q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Now: 8.5 * 3600, Done: []seasons.Progress{{Job: "short", Sets: 600, Line: c.line}}}
		assert.Equal(t, c.want, askPlans(t, q).Plans[0].Overruled, text)
	}
}

// promiseOf returns a plan as it is promised: what is read of its document.
func promiseOf(t *testing.T, a *PlansAnswer) *PlansPromise {
	t.Helper()
	x := &a.Plans[a.Shown()]
	text, err := json.Marshal(x.Lines)
	require.NoError(t, err)
	p := &PlansPromise{Bought: x.Prices, Revision: a.Revision}
	require.NoError(t, json.Unmarshal(text, &p.Lines))
	return p
}

// On Monday early hours are chosen. At 08:00, when they are over, an hour is lost on each job: what was bought
// stays, at no cost, and both jobs are finished an hour later than was promised. A job that is new has no
// order as it was.
func TestPlansKeepWhatWasPromised(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Days: []int{1, 2}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 15},
	}
	configurations := []PlansConfiguration{{Name: "base", Plan: p}}
	monday := askPlans(t, &Plans{Configurations: configurations, Service: 0.9})
	require.Equal(t, Index(1), monday.Chosen)
	q := &Plans{
		Configurations: configurations, Promised: promiseOf(t, monday),
		Now: 8 * 3600, Done: []seasons.Progress{{Job: "long", Sets: 3600, Line: monday.Plans[1].Lines[0].Name}, {Job: "short", Sets: 3600, Line: monday.Plans[1].Lines[1].Name}},
	}
	if monday.Plans[1].Lines[0].Jobs[0].Name != "long" {
		q.Done[0].Line, q.Done[1].Line = q.Done[1].Line, q.Done[0].Line
	}
	a := askPlans(t, q)
	require.Len(t, a.Plans, 2)
	assert.Equal(t, 1, a.Revision)
	assert.Equal(t, []PlansPrice{{Name: "early", Each: 15, Times: 1}}, a.Bought)
	assert.Zero(t, a.Plans[0].Cost)
	q.Service = 0.9
	assert.Equal(t, Index(0), askPlans(t, q).Chosen, "nothing is left to choose, and whether that is enough is said")
	q.Service = 0
	require.Len(t, a.Promised.Jobs, 2)
	for _, j := range a.Promised.Jobs {
		assert.Equal(t, PlansLeft, j.State)
		assert.InDelta(t, 1, float64(j.Later), 0.02, j.Name)
	}
	assert.InDelta(t, 0, float64(a.Change.Hours.Mean), 1e-6, "it goes on as it was")

	own := *p
	own.Jobs = append(own.Jobs[:2:2], seasons.PlanJob{Name: "rush", Sets: 600, Due: 12 * 3600, Priority: 1, InHand: -1})
	q.Configurations = []PlansConfiguration{{Name: "base", Plan: &own}}
	q.Done[1] = seasons.Progress{Job: "short", Sets: own.Jobs[1].Sets}
	a = askPlans(t, q)
	assert.Len(t, a.Plans, 1)
	assert.Nil(t, a.Change)
	assert.Equal(t, []string{"rush"}, a.Promised.New)
	for _, j := range a.Promised.Jobs {
		assert.Equal(t, map[string]string{"long": PlansLeft, "short": PlansDone}[j.Name], j.State)
	}
	q.Promised.Lines[0].Jobs = append(q.Promised.Lines[0].Jobs, PlansJob{Name: "cancelled"})
	for _, j := range askPlans(t, q).Promised.Jobs {
		assert.Equal(t, j.Name == "cancelled", j.State == PlansGone, j.Name)
	}
	own.Staffed = own.Staffed[:1]
	require.ErrorContains(t, q.Check(), "is no item of staff any more")
}

// Each week of a season of several lines has an answer: by hand, on one calm line of a set a second, the
// first week's job takes 4 h of its 5, the second's 6 h: an hour beyond its end.
func TestPlansWeeks(t *testing.T) {
	p := plansOf()
	season := &seasons.Season{
		Calendar: &seasons.Calendar{Days: 1, Shifts: []seasons.ShiftTime{{Start: 8 * 3600, Length: 5 * 3600}}}, Products: p.Products,
		Weeks: []seasons.Week{{Name: "one", Sets: []int64{4*3600 - 5}}, {Name: "none", Sets: []int64{0}}, {Name: "three", Sets: []int64{6*3600 - 5}}},
	}
	planned := season.Planned(p.Lines[:1], p.Crew)
	x := &askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: planned}}}).Plans[0]
	require.Len(t, x.Weeks, 2, "that have work")
	assert.Equal(t, []string{"one", "three"}, []string{x.Weeks[0].Name, x.Weeks[1].Name})
	assert.Equal(t, [2]Number{1, 0}, [2]Number{x.Weeks[0].InTime.Share, x.Weeks[1].InTime.Share})
	assert.InDelta(t, 0, float64(x.Weeks[0].Over), 1e-9)
	assert.InDelta(t, 1, float64(x.Weeks[1].Over), 1e-6)
	assert.Equal(t, sim.Seconds(21*24*3600+9*3600), x.Weeks[1].Finished.P50.At)
}
