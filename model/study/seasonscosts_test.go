package study

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/model/worth"
	"netrate/sim"
)

// twoWeeks is two weeks of a calm line, a set a second, at two products: see TestSeasonByHand of seasons.
func twoWeeks() SeasonsConfiguration {
	product := func(name string, inserts ...string) *setup.Product {
		p := &setup.Product{Name: name, Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}}
		for _, i := range inserts {
			p.Inserts = append(p.Inserts, setup.Insert{Name: i, Material: 1, Share: 1})
		}
		return p
	}
	return SeasonsConfiguration{
		Name: "base",
		Season: &seasons.Season{
			Line:     modeltest.CalmLine(),
			Calendar: &seasons.Calendar{Days: 1, Shifts: []seasons.ShiftTime{{Start: 8 * 3600, Length: 4 * 3600}}},
			Products: []*setup.Product{product("bills", "bill", "form"), product("offers", "bill", "offer")},
			Weeks:    []seasons.Week{{Name: "one", Sets: []int64{7195, 10795}}, {Name: "two", Sets: []int64{3595, 0}}},
			Change:   &setup.Changeover{Insert: setup.Change{Time: sim.Constant(600)}},
		},
		Costs: &worth.Costs{
			Currency: "EUR", Life: 1, LineHour: money.Fixed(20), OperatorHour: money.Fixed(30), Overtime: worth.Overtime{Factor: 1.5},
			Insert: money.Fixed(0.01), Envelope: money.Fixed(0.02), Volume: money.Fixed(1),
		},
	}
}

// By hand. The one operator is paid for 4 h in each of the two weeks. The line works 5.5 h for the first,
// 1.5 h of it in overtime, and 7/6 h for the second. Each of the 17,990 sets of the first week and the 3,595
// of the second has two inserts and an envelope.
//
//	week one   5.5 · 20 + 4 · 30 + 1.5 · 45 + 17,990 · 0.04 = 110 + 120 + 67.5 + 719.6  = 1017.10
//	week two   7/6 · 20 + 4 · 30            +  3,595 · 0.04 = 23.33 + 120 + 143.8       =  287.1333
//
// A second operator halves the 20 min of the first changeover: 1/6 h of the line and of overtime, of which
// two are now paid.
//
//	week one   (5.5 − 1/6) · 20 + 8 · 30 + 2 · (1.5 − 1/6) · 45 + 719.6 = 106.6667 + 240 + 120 + 719.6
//	week two   7/6 · 20 + 8 · 30 + 143.8
func TestSeasonsCostsByHand(t *testing.T) {
	two := twoWeeks()
	two.Name, two.Season.Line.Crew.Operators = "two", 2
	q := Seasons{Configurations: []SeasonsConfiguration{twoWeeks(), two}, Plan: sim.Plan{Seed: 1, Min: 3, Max: 3}}
	var rows []SeasonsRow
	a, err := q.Ask(context.Background(), func(s Sofar[SeasonsAnswer]) { rows = append(rows, s.Season()...) })
	require.NoError(t, err)
	one := 1017.1 + 287.0 + 0.4/3
	assert.InDelta(t, one, float64(a.Lines[0].Costs.All.Mean), 1e-6)
	assert.InDelta(t, one, float64(a.Lines[0].Costs.All.P95), 1e-6, "nothing is uncertain")
	assert.InDelta(t, 1017.1, float64(a.Lines[0].Costs.Weeks[0]), 1e-6)
	assert.InDelta(t, 1000*one/(17990+3595), float64(a.Lines[0].Costs.Thousand.Mean), 1e-6)
	more := 106.6667 + 240 + 120 + 719.6 + 23.3333 + 240 + 143.8
	assert.InDelta(t, more-one, float64(a.Lines[1].Costs.Against.Mean), 1e-3)
	assert.Nil(t, a.Lines[0].Costs.Against)
	assert.Zero(t, a.Lines[1].Costs.Less)
	require.NotNil(t, a.Cheapest)
	assert.Equal(t, Index(0), *a.Cheapest)
	parts := map[string]float64{}
	for _, p := range a.Lines[0].Costs.Parts {
		parts[p.Name] = float64(p.Mean)
	}
	assert.InDelta(t, 240, parts["operators"], 1e-9)
	assert.InDelta(t, 67.5, parts["overtime"], 1e-6)
	assert.InDelta(t, 2*(17990+3595)*0.01, parts["inserts, documents"], 1e-6)
	require.Len(t, rows, 12)
	assert.InDelta(t, 1017.1, *rows[0].Cost, 1e-6)
	assert.Equal(t, *rows[0].Cost, *a.Lines[0].Rows(0)[0].Cost)
}

// Staff by shift is paid as it is there: by hand, two operators in week one, who are two in its overtime too,
// and one in week two. The first changeover takes 10 min less.
func TestSeasonsCostsOfStaff(t *testing.T) {
	c := twoWeeks()
	c.Season.Staff = []seasons.Staffed{{Name: "two", Weeks: []int{1}, Operators: 2}}
	q := Seasons{Configurations: []SeasonsConfiguration{c}, Plan: sim.Plan{Seed: 1, Min: 2, Max: 2}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	assert.InDelta(t, 106.6667+240+120+719.6, float64(a.Lines[0].Costs.Weeks[0]), 1e-3)
	assert.InDelta(t, 23.3333+120+143.8, float64(a.Lines[0].Costs.Weeks[1]), 1e-3)
}

// What is lost costs too: with faults, every piece fed is paid for, and each set that is made by hand has
// the pieces of a good one.
func TestSeasonsCostsOfWhatIsLost(t *testing.T) {
	l := modeltest.LettersLine(3)
	for _, f := range modeltest.StationsOf[*model.Feeder](l) {
		f.Misfeed, f.Double, f.Jam = 0.002, 0.001, 0.0005
	}
	modeltest.FirstOf[*model.Reader](l).Match = "documents"
	c := SeasonsConfiguration{
		Name: "base",
		Season: &seasons.Season{
			Line:     l,
			Calendar: &seasons.Calendar{Days: 1, Shifts: []seasons.ShiftTime{{Length: 8 * 3600}}},
			Products: []*setup.Product{{
				Name: "letters", Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229},
				Inserts: []setup.Insert{{Name: "document", Material: 1, Share: 1, Stream: "documents"}, {Name: "letter", Material: 1, Share: 1, Stream: "letters"}},
			}},
			Weeks:   []seasons.Week{{Name: "one", Sets: []int64{10_000}}},
			Closing: model.Job{Closing: model.ByHand, PerHour: 30},
		},
		Costs: &worth.Costs{Currency: "EUR", Life: 1, Envelope: money.Fixed(1), Remake: money.Fixed(1), Volume: money.Fixed(1)},
	}
	q := Seasons{Configurations: []SeasonsConfiguration{c}, Plan: sim.Plan{Seed: 1, Min: 1, Max: 1}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	parts, byHand := map[string]float64{}, 30*float64(a.Lines[0].ByHand)
	for _, p := range a.Lines[0].Costs.Parts {
		parts[p.Name] = float64(p.Mean)
	}
	assert.Positive(t, byHand)
	assert.InDelta(t, byHand, parts["remakes"], 1e-9)
	assert.GreaterOrEqual(t, parts["envelopes"], 10_000.0, "one for each good envelope, those made by hand with them")
	assert.Equal(t, int64(10_000), a.Lines[0].Study.Weeks[0].Used[0].Good)
}

// Without costs there are none in the answer.
func TestSeasonsWithoutCosts(t *testing.T) {
	c := twoWeeks()
	c.Costs = nil
	q := Seasons{Configurations: []SeasonsConfiguration{c}, Plan: sim.Plan{Seed: 1, Min: 1, Max: 1}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	assert.Nil(t, a.Lines[0].Costs)
	assert.Nil(t, a.Cheapest)
	assert.Nil(t, a.Lines[0].Study.Weeks[0].Used)
}

// Several lines, by hand: jobs of 2 h, 3 h and 1 h at 20 an hour, whichever line does them; two operators
// for 4 h of each of two weeks at 30; two inserts and an envelope a set.
//
//	6 · 20 + 16 · 30 + (7195 + 10,795 + 3595) · 0.04 = 120 + 480 + 863.4
//
// A job of 6 h in a season of one week of 4 h goes on for 2 h of the next, whose shift of 4 h both are paid for at
// usual pay: 6 · 20 + 16 · 30 + 21,595 · 0.04.
func TestSeasonsCostsOfLines(t *testing.T) {
	cost := func(weeks ...seasons.Week) *SeasonsCosts {
		c := twoWeeks()
		c.Season.Change, c.Season.Weeks = nil, weeks
		a, b := modeltest.CalmLine(), modeltest.CalmLine()
		a.Name, b.Name = "a", "b"
		crew := a.Crew
		crew.Operators = 2
		q := Plans{Plan: sim.Plan{Seed: 1, Max: 3}, Configurations: []PlansConfiguration{{Name: "base", Plan: c.Season.Planned([]*model.Line{a, b}, crew), Costs: c.Costs}}}
		answer, err := q.Ask(context.Background(), nil)
		require.NoError(t, err)
		return answer.Plans[0].Costs
	}
	x := cost(twoWeeks().Season.Weeks...)
	assert.InDelta(t, 120+480+863.4, float64(x.All.Mean), 1e-6)
	assert.InDelta(t, 1000*(120+480+863.4)/21_585, float64(x.Thousand.Mean), 1e-6)
	assert.InDelta(t, 120+480+863.8, float64(cost(seasons.Week{Name: "one", Sets: []int64{21_595, 0}}).All.Mean), 1e-6)
}
