package seasons

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// early and late shifts of 4 h on six days; on Saturday, the sixth, nobody is there but in week 2.
func sixDays() (*Calendar, []Staffed) {
	c := &Calendar{Days: 6, Shifts: []ShiftTime{{Start: 8 * hour, Length: 4 * hour}, {Start: 14 * hour, Length: 4 * hour}}, Breaks: []Break{{After: 2 * hour, Length: 1800}}}
	return c, []Staffed{
		{Name: "no Saturdays", Days: []int{6}},
		{Name: "Saturday", Weeks: []int{2}, Days: []int{6}, Shifts: []int{1}, Operators: 2},
		{Name: "one is sick", Weeks: []int{1}, Days: []int{2}, Operators: 1},
	}
}

// By hand: 3.5 h a shift, 7 h a day, 35 h a week, 38.5 h in the second.
func TestHorizonByHand(t *testing.T) {
	c, staffed := sixDays()
	h := NewHorizon(c, &model.Crew{Operators: 3}, staffed, 0)
	for _, x := range []struct{ worked, at, from float64 }{
		{0, 8, 8},
		{2, 10, 10.5},
		{3, 11.5, 11.5},
		{3.5, 12, 14},
		{7, 18, 24 + 8},
		{35, 4*24 + 18, 7*24 + 8},
		{70, 11*24 + 18, 12*24 + 8},
		{73.5, 12*24 + 12, 14*24 + 8},
	} {
		worked := sim.Seconds(x.worked) * hour
		assert.InDelta(t, x.at, float64(h.At(worked))/3600, 1e-9, "after %v h", x.worked)
		assert.InDelta(t, x.from, float64(h.From(worked))/3600, 1e-9, "from %v h", x.worked)
		assert.InDelta(t, x.worked, float64(h.Worked(h.At(worked)))/3600, 1e-9)
	}
	assert.InDelta(t, 3.5, float64(h.Worked(13*hour))/3600, 1e-9, "in the night, as in the pause, nothing is worked")
	assert.Equal(t, []model.Staffing{{From: 0, Operators: 3}, {From: 7 * hour, Operators: 1}, {From: 14 * hour, Operators: 3}, {From: 70 * hour, Operators: 2}, {From: 73.5 * hour, Operators: 3}}, h.staffing())
	late := NewHorizon(c, &model.Crew{Operators: 3}, staffed, 9*hour)
	assert.InDelta(t, 9, float64(late.At(0))/3600, 1e-9)
	assert.InDelta(t, 18, float64(late.At(6*hour))/3600, 1e-9)
	assert.Equal(t, []model.Stretch{{From: 2.5 * hour, To: 4 * hour}}, h.stretches([]Window{{14 * hour, 14.5 * hour}, {11 * hour, 13 * hour}, {13 * hour, 14.25 * hour}}))
	assert.False(t, h.Ends(), "only the plan looks no further")
	for i := range staffed {
		staffed[i].Weeks = []int{1}
	}
	ends := NewHorizon(c, &model.Crew{}, staffed, 0)
	assert.True(t, ends.Ends())
	assert.Equal(t, ends.End(), ends.At(ends.Length()), "what takes all there is ends with the last shift")
	for _, never := range []sim.Seconds{ends.At(ends.Length() + 1), ends.From(ends.Length() + 1), h.At(1e12)} {
		assert.True(t, math.IsInf(float64(never), 1), "there is an end")
	}
}

// planned is the fortnight's jobs on two calm lines with two operators, in four hours of each day.
func planned() *Plan {
	w := together(nil, nil)
	return &Plan{
		Lines: w.Lines, Crew: model.Crew{Operators: 4, Walk: sim.Constant(0)}, Products: w.Products, Change: w.Change,
		Calendar: &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 8 * hour, Length: 4 * hour}}},
		Jobs: []PlanJob{
			{Name: "first", Product: 0, Sets: 7195, Due: sim.Seconds(math.Inf(1)), Priority: 1, InHand: -1},
			{Name: "second", Product: 1, Sets: 10795, Due: day + 9*hour, Priority: 2, InHand: -1},
			{Name: "third", Product: 0, Sets: 3595, Due: 10 * hour, Priority: 1, InHand: -1},
		},
	}
}

// By hand: 2, 3 and 1 h, each a set-up of 10 min for its two inserts with two operators at hand. The
// third goes first, or it is late; the second alone takes 3 h 10, until 11:10; the first then comes
// after the third, which it needs no change from.
func TestPlanByHand(t *testing.T) {
	p := planned()
	m, err := p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
	require.NoError(t, err)
	assert.True(t, m.Exact)
	assert.Zero(t, m.Cost)
	assert.InDelta(t, 3+1.0/6, float64(m.Last)/3600, 1e-6)
	for _, jobs := range m.Order {
		if len(jobs) == 2 {
			assert.Equal(t, []int{2, 0}, jobs)
		}
	}
	study := runTogether(t, m.Together(), 1)
	assert.InDelta(t, float64(m.Last), study.Finished[0], 1e-3, "nothing is uncertain, and there are people enough")
	assert.LessOrEqual(t, m.Bounds.Last, m.Last)

	p.Down = []LineDown{{0, Window{8 * hour, 20 * hour}}}
	m, err = p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
	require.NoError(t, err)
	assert.InDelta(t, float64(m.Last), runTogether(t, m.Together(), 1).Finished[0], 36)

	p.Down, p.Jobs[1].InHand, p.Change.Always = nil, 1, setup.Change{Time: sim.Constant(300)}
	m, err = p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
	require.NoError(t, err)
	assert.Equal(t, 1, m.Order[1][0])
	assert.Equal(t, []int{-1, 1}, m.Together().InHand)
	assert.InDelta(t, 3.25, float64(m.Last)/3600, 1e-6, "no set-up for what is in hand; the other line needs one, and 5 min between its jobs")
	study = runTogether(t, m.Together(), 1)
	assert.InDelta(t, 3*3600, study.Jobs[1].Finished[0], 1e-3)
	assert.InDelta(t, 3.25*3600, study.Finished[0], 1e-3, "as on paper")
}

// A line that is down at night changes nothing, nor does one on a day on which nobody works; one that is down from
// before a shift into it does, and what is over when the plan begins is nobody's slip.
func TestIdleDowns(t *testing.T) {
	p := planned()
	night, into, sunday := Window{2 * hour, 5 * hour}, Window{2 * hour, 9 * hour}, Window{6*day + 8*hour, 6*day + 11*hour}
	p.Down = []LineDown{{0, night}, {1, into}, {1, sunday}}
	assert.Equal(t, []LineDown{{0, night}, {1, sunday}}, p.IdleDowns())
	p.From = 8 * hour
	assert.Equal(t, []LineDown{{1, sunday}}, p.IdleDowns())
}

// The factor lengthens changeovers as well. By hand: with the whole crew the second job is changed over
// in 10 min and made in 3 h. With one operator its line waits 20 min, until the other has been changed
// over, and is changed over in 20: it is finished after 3 h 40, as it then is on paper.
func TestPlanIsLengthened(t *testing.T) {
	p := planned()
	p.Jobs = p.Jobs[:2]
	p.Staffed = []Staffed{{Name: "alone", Operators: 1}}
	for i := range p.Jobs {
		p.Jobs[i].Due, p.Jobs[i].Lines = sim.Seconds(math.Inf(1)), []int{i}
	}
	m, err := p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
	require.NoError(t, err)
	assert.InDelta(t, (3+2.0/3)/(3+1.0/6), m.Factor, 1e-6)
	assert.InDelta(t, 3+2.0/3, float64(m.Last)/3600, 1e-6)
}

// Times on paper that are handed in are those that are found otherwise, and are left as they are; what is
// cancelled makes no plan.
func TestPlanByTimesAtHand(t *testing.T) {
	p, ctx, how := planned(), context.Background(), sim.Plan{Seed: 1, Workers: 1}
	times, err := p.Paper(ctx, 1)
	require.NoError(t, err)
	p.Staffed = []Staffed{{Name: "alone", Operators: 1}}
	want, err := p.Make(ctx, how, nil)
	require.NoError(t, err)
	require.Greater(t, want.Factor, 1.1, "a factor that does nothing shows nothing")
	for range 2 {
		got, err := p.Make(ctx, how, times)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	cancelled, stop := context.WithCancel(ctx)
	stop()
	for _, known := range []*Paper{nil, times} {
		_, err = p.Make(cancelled, how, known)
		assert.ErrorIs(t, err, context.Canceled)
	}
}

func TestPlanRefuses(t *testing.T) {
	for text, change := range map[string]func(p *Plan){
		"no job":              func(p *Plan) { p.Jobs = nil },
		"nobody is ever":      func(p *Plan) { p.Staffed = []Staffed{{Name: "none"}} },
		"no line that may do": func(p *Plan) { p.Products[0].Inserts = append(p.Products[0].Inserts, make([]setup.Insert, 9)...) },
	} {
		p := planned()
		change(p)
		assert.ErrorContains(t, p.Check(), text)
	}
}

// By hand. Somebody from Wednesday to Friday of one week at 180 a day: three days, whatever the shifts; at 100
// a shift the two of each of them, six. On Thursday at 09:00, in its first shift, Wednesday is over; at 14:00 the first
// shift of Thursday is too. A price for all is one.
func TestPriceOfStaff(t *testing.T) {
	p := &Plan{Calendar: twoShifts(), Staffed: []Staffed{
		{Name: "temp", Weeks: []int{2}, Days: []int{3, 4, 5}, Operators: 3, Optional: true, Cost: 180, Per: PerDay},
		{Name: "by shift", Weeks: []int{2}, Days: []int{3, 4, 5}, Operators: 3, Optional: true, Cost: 100, Per: PerShift},
		{Name: "all", Weeks: []int{2}, Operators: 3, Optional: true, Cost: 100},
	}}
	for from, want := range map[sim.Seconds][3]int{
		0: {3, 6, 1}, week + 3*day + 9*hour: {2, 4, 1}, week + 3*day + 14*hour: {2, 3, 1}, 2 * week: {0, 0, 1},
	} {
		p.From = from
		chosen, prices := p.Chosen([]int{0, 1, 2})
		require.Len(t, prices, 3)
		for k, times := range want {
			assert.Equal(t, times, prices[k].Times, "%s from %v h", prices[k].Name, float64(from/hour))
		}
		assert.False(t, chosen.Staffed[0].Optional)
	}
	p.From = 0
	_, prices := p.Chosen([]int{0})
	require.Len(t, prices, 1)
	assert.InDelta(t, 540, prices[0].All(), 1e-12)
}
