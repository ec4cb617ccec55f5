package seasons

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// By hand, as TestSeasonByHand: she puts two inserts in, 10 min each, and the line then does a set a second for 7,200 s
// with the pitches. If her break is from 5 to 25 min, she finishes the first and begins the second when she is back: the
// line begins at 35 min, 15 later. The hopper of the first feeder holds 3,600 pieces and is filled by him, who walks 15 s
// and works 10, and the line restarts in 4. It is used up 3,600 s after the line has begun, at 80 min: if his break is
// from 75 to 105 min the line runs on to 80 and stands until he is back.
func TestOwnBreaksByHand(t *testing.T) {
	for name, c := range map[string]struct {
		breaks   []Break
		first    float64
		finished float64
		hours    float64
	}{
		"without": {nil, 1200, 1200 + 7200 + 29, 16},
		"hers":    {[]Break{{After: 5 * minute, Length: 20 * minute, Who: []string{"Anna"}}}, 2100, 2100 + 7200 + 29, 16 - 2.0/3},
		"his":     {[]Break{{After: 75 * minute, Length: 30 * minute, Who: []string{"Ben"}}}, 1200, 1200 + 7200 + (105-80)*60 + 29, 15},
		"his, when nothing calls for him": {
			[]Break{{After: 30 * minute, Length: 30 * minute, Who: []string{"Ben"}}}, 1200, 1200 + 7200 + 29, 15,
		},
		"both, one after the other, and hers twice": {
			[]Break{
				{After: 5 * minute, Length: 15 * minute, Who: []string{"Anna"}},
				{After: 10 * minute, Length: 15 * minute, Who: []string{"Anna"}},
				{After: 75 * minute, Length: 30 * minute, Who: []string{"Ben"}},
			}, 2100, 2100 + 7200 + (105-95)*60 + 29, 15 - 2.0/3,
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := modeltest.CalmLine()
			l.Crew = annaAndBen()
			modeltest.StationsOf[*model.Feeder](l)[0].Hopper.Capacity = 3600
			s := fortnight(l)
			s.Calendar.Breaks = c.breaks
			study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
			require.NoError(t, err)
			j := study.Jobs[0]
			assert.InDelta(t, c.first, 3600*(j.Begun[1]+j.Change[1]), 1e-6)
			assert.InDelta(t, c.finished, 3600*j.Finished[1], 1e-6)
			assert.InDelta(t, c.hours, s.OperatorHours(), 1e-9, "nobody is paid for his break")
			assert.InDelta(t, c.hours/2, s.OperatorHoursOf()[1], 1e-9)
			assert.Equal(t, 4.0, study.Hours, "the line runs on")
		})
	}
}

// minutely is who is there in each minute of the first week by the words of the manual alone: nil where nobody works.
func minutely(p *Plan) (all [7 * 24 * 60][]int) {
	minutes := func(s sim.Seconds) int { return int(s / minute) }
	for d := range p.Calendar.Days {
		for i, shift := range p.Calendar.Shifts {
			for m := range minutes(shift.Length) {
				breaks := shift.Breaks
				if breaks == nil {
					breaks = p.Calendar.Breaks
				}
				resting, everybody := []string{}, false
				for _, b := range breaks {
					switch {
					case b.After+b.Length > shift.Length || b.Relief:
					case minutes(b.After) > m || m >= minutes(b.After+b.Length):
					case b.Who == nil:
						everybody = true
					default:
						resting = append(resting, b.Who...)
					}
				}
				operators := p.Crew.Operators
				for _, s := range p.Staffed {
					if (s.Days == nil || slices.Contains(s.Days, d+1)) && (s.Shifts == nil || slices.Contains(s.Shifts, i+1)) {
						if s.Operators != AsElse {
							operators = s.Operators
						}
						resting = append(resting, s.Absent...)
					}
				}
				at := d*24*60 + minutes(shift.Start) + m
				for _, x := range p.Calendar.Maintenance {
					from := (x.Day-1)*24*60 + minutes(x.Start)
					everybody = everybody || from <= at && at < from+minutes(x.Length)
				}
				for n, person := range p.Crew.People {
					if n < operators && !everybody && !slices.Contains(resting, person.Name) {
						all[at] = append(all[at], n)
					}
				}
			}
		}
	}
	return all
}

// anyOwnBreaks is a plan with breaks of everybody and of some at random times, and some who are absent.
func anyOwnBreaks(t *rapid.T) *Plan {
	p := skilled()
	p.Crew = model.Crew{Operators: 3, Walk: sim.Constant(15), People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Cleo", Operators: 1}}}
	minutes := func(from, to int, of string) sim.Seconds {
		return sim.Seconds(rapid.IntRange(from, to).Draw(t, of)) * minute
	}
	breaks := func() (all []Break) {
		for range rapid.IntRange(0, 5).Draw(t, "breaks") {
			b := Break{After: minutes(0, 120, "after"), Length: minutes(1, 60, "length")}
			if who := rapid.IntRange(0, 7).Draw(t, "who"); who > 0 {
				for n, person := range p.Crew.People {
					if who&(1<<n) > 0 {
						b.Who = append(b.Who, person.Name)
					}
				}
			}
			all = append(all, b)
		}
		return all
	}
	p.Calendar = &Calendar{
		Days:        rapid.IntRange(1, 2).Draw(t, "days"),
		Shifts:      []ShiftTime{{Start: 8 * hour, Length: 3 * hour}, {Start: 12 * hour, Length: 2 * hour}},
		Maintenance: []Planned{{Day: 1, Start: 9 * hour, Length: 20 * minute}},
	}
	p.Calendar.Breaks = breaks()
	if rapid.Bool().Draw(t, "own of a shift") {
		p.Calendar.Shifts[1].Breaks = slices.DeleteFunc(append([]Break{}, breaks()...), func(b Break) bool { return !b.within(p.Calendar.Shifts[1]) })
	}
	for range rapid.IntRange(0, 2).Draw(t, "items") {
		s := Staffed{Name: "s", Operators: rapid.SampledFrom([]int{AsElse, 0, 1, 2, 3}).Draw(t, "there")}
		if rapid.Bool().Draw(t, "of a shift") {
			s.Shifts = []int{rapid.IntRange(1, 2).Draw(t, "shift")}
		}
		if rapid.Bool().Draw(t, "absent") {
			s.Absent = []string{rapid.SampledFrom([]string{"Anna", "Ben", "Cleo"}).Draw(t, "away")}
		}
		p.Staffed = append(p.Staffed, s)
	}
	return p
}

// Whatever breaks there are, of whom, and whoever is absent, in every minute those are there who should be: in the working time of
// the plan, in what lines are simulated with, in who is there shift by shift, and in the hours that are paid.
func TestOwnBreaksMinuteByMinute(t *testing.T) {
	apart := 0 // cases in which a break of one alone is told
	rapid.Check(t, func(t *rapid.T) {
		p := anyOwnBreaks(t)
		want, whole := minutely(p), *p
		own := *p.Calendar
		own.Breaks = slices.DeleteFunc(slices.Clone(own.Breaks), Break.alone)
		whole.Calendar = &own
		h := p.Horizon()
		if len(h.windows) == 0 {
			return
		}
		if h.OperatorHours(week) != whole.Horizon().OperatorHours(week) {
			apart++
		}
		staff, worked, hours, stage := h.staffing(), sim.Seconds(0), 0, 0
		var shown [7 * 24 * 60][]int
		for _, a := range p.Attendance(week) {
			for _, w := range a.Windows {
				for m := int(w.From / minute); m < int(w.To/minute); m++ {
					for n := range 3 {
						at := sim.Seconds(m) * minute
						if a.Has(n) && !slices.ContainsFunc(a.Rests, func(r Rest) bool { return r.Number == n && r.From <= at && at < r.To }) {
							shown[m] = append(shown[m], n)
						}
					}
				}
			}
		}
		for m, there := range want {
			if at := h.Worked(sim.Seconds(m) * minute); !slices.Equal(there, shown[m]) || math.Abs(float64(at-worked)) > 1e-6 {
				t.Fatalf("minute %d: %v are there and %v are shown, after %v s of working time and not %v", m, there, shown[m], worked, at)
			}
			if len(there) == 0 {
				continue
			}
			for stage+1 < len(staff) && staff[stage+1].From <= worked+1e-6 {
				stage++
			}
			x := presence{staff[stage].Operators, staff[stage].Absent}
			for n := range 3 {
				if slices.Contains(there, n) != x.has(n) {
					t.Fatalf("minute %d: lines are simulated with operator %d: %v", m, n, x.has(n))
				}
			}
			worked, hours = worked+minute, hours+len(there)
		}
		paid, _ := p.PaidHours(week, nil)
		assert.InDelta(t, float64(hours)/60, paid, 1e-6)
		assert.InDelta(t, float64(hours)/60, h.OperatorHours(week), 1e-6)
	})
	assert.Greater(t, apart, 10, "a break of one alone is hardly ever told: this test cannot fail")
}

// What is chosen is paid without the breaks of those who come by it. By hand, of four hours: Anna and Ben are there,
// she for all, he without half an hour; Cleo comes by choice, without a quarter.
func TestOwnBreaksOfWhoIsChosen(t *testing.T) {
	p := skilled()
	p.Crew.Operators = 2
	p.Crew.People = append(p.Crew.People, model.Person{Name: "Cleo", Operators: 1})
	p.Calendar = &Calendar{Days: 1, Shifts: []ShiftTime{{Start: 8 * hour, Length: 4 * hour}}, Breaks: []Break{
		{After: hour, Length: 30 * minute, Who: []string{"Ben"}}, {After: 2 * hour, Length: 15 * minute, Who: []string{"Cleo"}},
	}}
	p.Staffed = []Staffed{{Name: "hired", Operators: 3, Optional: true}}
	assert.Empty(t, p.IdleBreaks(), "she may come")
	chosen, prices := p.Chosen([]int{0})
	require.Len(t, prices, 1)
	crew, paid := chosen.PaidHours(week, []string{"hired"})
	assert.InDelta(t, 7.5, crew, 1e-9)
	assert.Equal(t, Paid{Usual: 3.75}, paid)
	crew, paid = p.PaidHours(week, nil)
	assert.InDelta(t, 7.5, crew, 1e-9)
	assert.Zero(t, paid)

	p.Staffed = nil
	assert.Equal(t, []OwnBreak{{Name: "Cleo", After: 2 * hour, Length: 15 * minute}}, p.IdleBreaks())
	p.Calendar.Shifts[0].Breaks = p.Calendar.Breaks
	assert.Equal(t, []OwnBreak{{Name: "Cleo", After: 2 * hour, Length: 15 * minute, Shift: 1}}, p.IdleBreaks())
	p.Calendar.Shifts = append(p.Calendar.Shifts, ShiftTime{Start: 14 * hour, Length: 4 * hour, Breaks: []Break{{After: hour, Length: hour, Who: []string{"Ben"}}}})
	p.Staffed = []Staffed{{Name: "Ben is off", Shifts: []int{2}, Operators: AsElse, Absent: []string{"Ben"}}}
	assert.Contains(t, p.IdleBreaks(), OwnBreak{Name: "Ben", After: hour, Length: hour, Shift: 2})
}

// While all have their break there is no working time, as in a break of everybody: but no season of one line has that.
func TestAllHaveTheirBreakAtOnce(t *testing.T) {
	p := skilled()
	p.Calendar.Breaks = []Break{{After: hour, Length: hour, Who: []string{"Anna"}}, {After: 1.5 * hour, Length: hour, Who: []string{"Ben"}}}
	windows, operators := p.Horizon().Windows(day)
	assert.Equal(t, []Window{{8 * hour, 9 * hour}, {9 * hour, 9.5 * hour}, {10 * hour, 10.5 * hour}, {10.5 * hour, 12.5 * hour}}, windows)
	assert.Equal(t, []int{2, 1, 1, 2}, operators)
	a := p.Attendance(day)[0]
	assert.Equal(t, []Window{{8 * hour, 9.5 * hour}, {10 * hour, 12.5 * hour}}, a.Windows)
	assert.Equal(t, []Rest{{0, Window{9 * hour, 9.5 * hour}}, {1, Window{10 * hour, 10.5 * hour}}}, a.Rests)
	assert.Equal(t, 4.0, a.Hours())
	assert.Equal(t, 0.5, a.Rested(1, 2))

	p.Calendar.Breaks[1].After = 2 * hour // one after the other: as many are there
	windows, operators = p.Horizon().Windows(day)
	assert.Equal(t, []Window{{8 * hour, 9 * hour}, {9 * hour, 11 * hour}, {11 * hour, 12.5 * hour}}, windows)
	assert.Equal(t, []int{2, 1, 2}, operators)
}

// On paper a changeover stands still while she has her break who alone may do it.
func TestOwnBreaksOnPaper(t *testing.T) {
	p := skilled()
	p.Calendar.Breaks = []Break{{After: 5 * minute, Length: 20 * minute, Who: []string{"Anna"}}}
	barred := barredAt(&p.Crew, p.Horizon().staffing(), "a", []string{""})
	want := []model.Stretch{{From: 5 * minute, To: 25 * minute}, {From: 4.5*hour + 5*minute, To: 4.5*hour + 25*minute}}
	assert.Equal(t, Barred{want, want}, Barred{barred.Some[:2], barred.All[:2]})
	times, err := p.Paper(context.Background(), 1)
	require.NoError(t, err)
	_, ends := p.shop(p.Horizon(), times).Dates(0, []int{0})
	p.Calendar.Breaks = nil
	_, plain := p.shop(p.Horizon(), times).Dates(0, []int{0})
	assert.Equal(t, plain[0]+20*minute, ends[0])
}

func TestOwnBreaksRefused(t *testing.T) {
	for text, spoil := range map[string]func(s *Season){
		"Cleo has a break, and is nobody of the people": func(s *Season) { s.Calendar.Breaks[0].Who[0] = "Cleo" },
		"Anna has a break, and is nobody of the people": func(s *Season) { s.Line.Crew.People = nil },
		"break 1 is one of nobody":                      func(s *Season) { s.Calendar.Breaks[0].Who = []string{} },
		"break 1 is one of somebody who is named twice": func(s *Season) { s.Calendar.Breaks[0].Who = []string{"Anna", "Anna"} },
		"break 1 is one of some people with relief":     func(s *Season) { s.Calendar.Breaks[0].Relief = true },
		"break 1 is in no shift":                        func(s *Season) { s.Calendar.Breaks[0].After = 4 * hour },
		"shift 1 ends before its break 1 is over": func(s *Season) {
			s.Calendar.Shifts[0].Breaks = []Break{{After: 3.9 * hour, Length: hour, Who: []string{"Anna"}}}
		},
		"shift 1 has a break, its number 1, of somebody who is named twice": func(s *Season) {
			s.Calendar.Shifts[0].Breaks = []Break{{After: hour, Length: hour, Who: []string{"Ben", "Ben"}}}
		},
		"week 1, day 1, shift 1 have a break at once":    func(s *Season) { s.Calendar.Breaks[0].Who = []string{"Anna", "Ben"} },
		"who has a break alone, which is for at most 10": func(s *Season) { s.Weeks = make([]Week, 105) },
		"nobody who is ever there may change over":       func(s *Season) { s.Calendar.Breaks[0] = Break{Length: 4 * hour, Who: []string{"Anna"}} },
	} {
		l := modeltest.CalmLine()
		l.Crew = annaAndBen()
		s := fortnight(l)
		s.Calendar.Breaks = []Break{{After: hour, Length: hour, Who: []string{"Anna"}}}
		spoil(s)
		_, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		assert.ErrorContains(t, err, text)
	}
	p := skilled()
	p.Calendar.Breaks[0].Who = []string{"Cleo"}
	assert.ErrorContains(t, p.Check(), "Cleo has a break, and is nobody of the people")
}
