package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// annaAndBen are a crew of two: she changes lines over, and he does all else.
func annaAndBen() model.Crew {
	return model.Crew{Operators: 2, Walk: sim.Constant(15), People: []model.Person{
		{Name: "Anna", Operators: 1, Only: model.Changing}, {Name: "Ben", Operators: 1, Only: model.Clearing | model.Filling},
	}}
}

// By hand, as TestSeasonByHand: she puts the two inserts in one after the other, though there are two
// operators. If she is absent in the first week, of 4 h, all of it waits for the second.
func TestSeasonSkillsByHand(t *testing.T) {
	for _, c := range []struct {
		staff    []Staffed
		begun    float64
		until    float64 // somebody is there who may begin it
		first    float64
		finished float64
		waits    []Unattended
	}{
		{nil, 0, 0, 1.0 / 3, 2 + 1.0/3, nil},
		{[]Staffed{{Name: "sick", Weeks: []int{1}, Operators: AsElse, Absent: []string{"Anna"}}}, 4, 4, 4 + 1.0/3, 6 + 1.0/3, []Unattended{
			{Week: 1, Day: 1, Shift: 1, Window: Window{8 * hour, 12 * hour}, Does: model.Changing},
		}},
	} {
		l := modeltest.CalmLine()
		l.Crew = annaAndBen()
		s := fortnight(l)
		s.Staff = c.staff
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		require.NoError(t, err)
		j := study.Jobs[0]
		assert.InDelta(t, c.begun, j.Begun[1], 1e-9)
		assert.InDelta(t, c.until, j.Waits[1], 1e-9)
		assert.InDelta(t, c.first, j.Begun[1]+j.Change[1], 1e-9)
		assert.InDelta(t, c.finished, j.Finished[1], 1e-9)
		assert.InDelta(t, 2*2*4-4*float64(len(c.staff)), s.OperatorHours(), 1e-9, "who is absent is not there")
		waits, err := s.Unattended()
		require.NoError(t, err)
		assert.Equal(t, c.waits, waits)
	}
}

// By hand, of two weeks with a shift of 4 h each for two: who is absent by two items is absent once, and so is who
// would not be there anyway; some weeks may have fewer without a name.
func TestSeasonOfAbsencesByHand(t *testing.T) {
	absent := func(name, who string) Staffed {
		return Staffed{Name: name, Weeks: []int{1}, Operators: AsElse, Absent: []string{who}}
	}
	one := Staffed{Name: "one", Weeks: []int{1}, Operators: 1}
	for name, c := range map[string]struct {
		staff   []Staffed
		unnamed bool
	}{
		"twice absent":       {[]Staffed{absent("sick", "Anna"), absent("away", "Anna")}, false},
		"not there, absent":  {[]Staffed{one, absent("sick", "Ben")}, false},
		"fewer without name": {[]Staffed{one}, true},
	} {
		s := fortnight(modeltest.CalmLine())
		if s.Line.Crew = annaAndBen(); c.unnamed {
			s.Line.Crew.People = nil
		}
		s.Staff = c.staff
		require.NoError(t, s.Check(), name)
		assert.InDelta(t, 2*4+2*4-4, s.OperatorHours(), 1e-9, name)
		assert.InDelta(t, 4, s.OperatorHoursOf()[0], 1e-9, name)
	}
}

// By hand: of five days of 4 h for two, that on which both are absent, each by an item, is as one without a shift:
// nobody is paid for it, and the working time goes on with the day after.
func TestPlanShiftEmptiedByAbsences(t *testing.T) {
	p := skilled()
	for _, who := range []string{"Anna", "Ben"} {
		p.Staffed = append(p.Staffed, Staffed{Name: who + " is sick", Weeks: []int{1}, Days: []int{2}, Operators: AsElse, Absent: []string{who}})
	}
	require.NoError(t, p.Check())
	crew, chosen := p.PaidHours(week, nil)
	assert.InDelta(t, 4*2*4, crew, 1e-9)
	assert.Equal(t, Paid{}, chosen)
	assert.Len(t, p.Attendance(week), 4)
	assert.InDelta(t, float64(2*day+8.5*hour), float64(p.Horizon().At(4.5*hour)), 1e-6, "4 h on the first day, the next on the third")
}

func TestSeasonSkillsRefused(t *testing.T) {
	for text, staff := range map[string][]Staffed{
		"nobody who is ever there may change over": {{Name: "sick", Operators: AsElse, Absent: []string{"Anna"}}},
		"all are absent in week 2, day 1, shift 1": {{Name: "sick", Weeks: []int{2}, Operators: AsElse, Absent: []string{"Anna", "Ben"}}},
	} {
		l := modeltest.CalmLine()
		l.Crew = annaAndBen()
		s := fortnight(l)
		s.Staff = staff
		_, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		assert.ErrorContains(t, err, text)
	}
}

// skilled is a plan of two calm lines, a and b, whose two jobs take 2 h and 3 h each on its own, with days of 4 h.
func skilled() *Plan {
	s := fortnight(modeltest.CalmLine())
	s.Calendar = &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 8 * hour, Length: 4.5 * hour}}, Breaks: []Break{{After: hour, Length: hour / 2}}}
	a, b := modeltest.CalmLine(), modeltest.CalmLine()
	a.Name, b.Name = "a", "b"
	p := &Plan{
		Lines: []*model.Line{a, b}, Crew: annaAndBen(), Calendar: s.Calendar, Products: s.Products, Change: s.Change,
		Jobs: []PlanJob{
			{Name: "one", Product: 0, Sets: 7195, Due: week, Priority: 1, InHand: -1},
			{Name: "two", Product: 1, Sets: 10795, Due: week, Priority: 1, InHand: -1},
		},
		Order: [][]int{{0}, {1}},
	}
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	return p
}

// By hand: she changes a over in 20 min, then b. If she is absent on the first day, both wait for the second: b
// begins after 4 h and 40 min of working time.
func TestPlanSkillsByHand(t *testing.T) {
	for _, c := range []struct {
		staff []Staffed
		later float64
	}{{nil, 0}, {[]Staffed{{Name: "sick", Days: []int{1}, Operators: AsElse, Absent: []string{"Anna"}}}, 4}} {
		p := skilled()
		p.Staffed = c.staff
		made, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
		require.NoError(t, err)
		study := runTogether(t, made.Together(), 2)
		assert.InDelta(t, c.later+1.0/3, study.Jobs[0].First[1]/3600, 1e-9)
		assert.InDelta(t, c.later+2.0/3, study.Jobs[1].First[1]/3600, 1e-9, "one at a time")
		assert.InDelta(t, c.later+2.0/3+3, study.Jobs[1].Finished[1]/3600, 1e-9)
		waits := made.Unattended(day)
		assert.Len(t, waits, 2*len(c.staff))
		for k, u := range waits {
			assert.Equal(t, []any{1, 1, 1, []string{"a", "b"}[k], model.Changing}, []any{u.Week, u.Day, u.Shift, u.Line, u.Does})
			assert.Equal(t, "change over on "+u.Line, u.String())
		}
	}
	p := skilled()
	p.Staffed = []Staffed{{Name: "gone", Operators: AsElse, Absent: []string{"Ben"}}}
	_, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
	require.ErrorContains(t, err, "a: nobody who is ever there may clear faults, as one or two may need, and no other line can do it")
	assert.ErrorContains(t, err, "b: nobody who is ever there may fill hoppers and empty bins and belts, as one or two may need")
}

// Somebody who may work at one station of one line does nothing elsewhere; where a job does not use it he has
// nothing to do, and the plan is none the worse.
func TestPlanSkillsByLineAndStation(t *testing.T) {
	p := skilled()
	p.Crew.Operators = 3
	p.Crew.People = append(p.Crew.People, model.Person{Name: "Cem", Operators: 1, Lines: []string{"b"}, Stations: []string{"second"}})
	p.Crew.People[0].Stations, p.Crew.People[0].Lines = []string{"first"}, nil
	p.Crew.People[1].Only = model.Anything
	p.Staffed = []Staffed{{Name: "one is away", Days: []int{2}, Operators: AsElse, Absent: []string{"Ben"}}}
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	made, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
	require.NoError(t, err)
	var said []string
	for _, u := range made.Unattended(2 * day) {
		said = append(said, u.String())
	}
	assert.Equal(t, []string{
		"clear faults on a", "fill hoppers and empty bins and belts on a", "change over at second on a",
		"clear faults at first, inserter on b", "fill hoppers and empty bins and belts at first, inserter on b",
	}, said)
}

// Hours of people are the same however they are counted, and of all of a shift: what is there of each shift that
// begins before a time, whenever in the shift that is, and whoever is absent in it.
func TestOperatorHoursAreOfShifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := skilled()
		p.Crew.Operators = rapid.IntRange(0, 2).Draw(t, "operators")
		for range rapid.IntRange(0, 4).Draw(t, "items") {
			s := Staffed{Name: "s", Days: []int{rapid.IntRange(1, 5).Draw(t, "day")}, Operators: rapid.SampledFrom([]int{AsElse, 0, 1, 2}).Draw(t, "there")}
			if rapid.Bool().Draw(t, "absent") {
				s.Absent = []string{rapid.SampledFrom([]string{"Anna", "Ben"}).Draw(t, "who")}
			}
			p.Staffed = append(p.Staffed, s)
		}
		p.From = sim.Seconds(rapid.Float64Range(0, 2*24*3600).Draw(t, "from"))
		until := sim.Seconds(rapid.Float64Range(0, 14*24*3600).Draw(t, "until"))
		sum, end := 0.0, until
		for _, a := range p.Attendance(until) {
			there := 0
			for n := range 3 {
				if a.Has(n) {
					there++
				}
			}
			if there != a.Present() {
				t.Fatalf("%d are there by name, and %d by number", there, a.Present())
			}
			sum += float64(there) * a.Hours()
			end = max(end, a.Windows[len(a.Windows)-1].To)
		}
		h := p.Horizon()
		assert.InDelta(t, sum, h.OperatorHours(until), 1e-6)
		assert.InDelta(t, sum, h.OperatorHours(end), 1e-6, "to the end of the last shift no more come")
	})
}

// Whatever each may do and whoever is absent when, the ledgers of all jobs balance (else a replication fails), each
// job comes after the one before, and seasons that cannot be are refused before they are run.
func TestSkilledSeasonsAreWhole(t *testing.T) {
	ran := 0
	rapid.Check(t, func(t *rapid.T) {
		l := modeltest.ReferenceLine()
		for _, f := range modeltest.StationsOf[*model.Feeder](l) {
			f.Hopper.Capacity, f.Hopper.Warn = 400, 150
		}
		l.Crew.People = nil
		l.Crew.Operators = rapid.IntRange(1, 3).Draw(t, "operators")
		for range l.Crew.Operators {
			name := string(rune('A' + len(l.Crew.People)))
			l.Crew.People = append(l.Crew.People, model.Person{Name: name, Operators: 1, Only: model.Doing(rapid.IntRange(0, 7).Draw(t, "does"))})
		}
		s := fortnight(l)
		s.Weeks = []Week{{"one", []int64{2_000, 1_000}}, {"two", []int64{0, 1_500}}}
		s.Calendar = &Calendar{Days: 2, Shifts: []ShiftTime{{Start: 8 * hour, Length: hour}, {Start: 14 * hour, Length: hour}}}
		for range rapid.IntRange(0, 3).Draw(t, "items") {
			s.Staff = append(s.Staff, Staffed{
				Name: "s", Days: []int{rapid.IntRange(1, 2).Draw(t, "day")}, Shifts: []int{rapid.IntRange(1, 2).Draw(t, "shift")}, Operators: AsElse,
				Absent: []string{rapid.SampledFrom([]string{"A", "B", "C"}).Draw(t, "who")},
			})
		}
		if _, err := s.plan(); err != nil {
			return
		}
		ran++
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: rapid.Uint64().Draw(t, "seed"), Min: 2, Max: 2, Workers: 1}, nil)
		require.NoError(t, err)
		for r := range study.Done {
			now := 0.0
			for _, j := range study.Jobs {
				assert.GreaterOrEqual(t, j.Begun[r], now-1e-9)
				now = j.Finished[r]
			}
		}
		assert.Equal(t, int64(2*4_500), study.Total.Sets.Started)
	})
	assert.Positive(t, ran, "all were refused")
}
