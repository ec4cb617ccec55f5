package worth

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/sim"
)

// steady returns a study of four shifts of 8 h that are all alike.
func steady(good, defective, diverted, spoiled, remakes int64, pieces ...model.Pieces) *runs.Study {
	letter, card := &model.Feeder{Place: model.Place{Name: "letter"}}, &model.Feeder{Place: model.Place{Name: "card"}}
	s := &runs.Study{Line: &model.Line{
		Name: "steady", Shift: 8 * 3600, Restart: sim.Constant(0), Crew: model.Crew{Operators: 2},
		Stations: []model.Station{letter, card, &model.TrackGate{}, &model.Inserter{Place: model.Place{Name: "inserter"}}, &model.Delivery{}},
	}}
	one := model.Outcome{
		Sets:     model.Sets{Good: good, Defective: defective, Diverted: diverted, Spoiled: spoiled, Started: good + defective + diverted + spoiled},
		Time:     model.Time{Shift: 8 * 3600},
		Stations: make([]model.StationOutcome, 5),
	}
	for i, at := range []int{0, 1, 3} {
		one.Stations[at].Pieces = pieces[i]
	}
	one.Stations[0].Remakes[model.Jam] = remakes
	for range 4 {
		s.Fold(&one)
	}
	return s
}

// slow is a line of 10 000 an hour, fast one of 12 500 with a gate.
func slow() *runs.Study {
	return steady(80_000, 8, 0, 40, 48,
		model.Pieces{Good: 80_000, Defective: 8, Spoiled: 60}, model.Pieces{Good: 40_000, Defective: 4, Spoiled: 20}, model.Pieces{Good: 80_000, Defective: 8, Spoiled: 30})
}

func fast() *runs.Study {
	return steady(100_000, 10, 100, 50, 160,
		model.Pieces{Good: 100_000, Defective: 10, Diverted: 100, Spoiled: 75}, model.Pieces{Good: 50_000, Defective: 5, Diverted: 50, Spoiled: 25},
		model.Pieces{Good: 100_000, Defective: 10, Spoiled: 40})
}

// gateCosts returns the costs of the fast line.
func gateCosts() *Costs {
	c := prices()
	c.Price, c.Residual, c.Upkeep = money.Fixed(30_000), money.Fixed(5000), money.Fixed(3500)
	return c
}

// steadily returns the one value that a sample has.
func steadily(t *testing.T, s sim.Sample) float64 {
	t.Helper()
	require.NotEmpty(t, s)
	for _, x := range s {
		require.InDelta(t, s[0], x, 1e-6*math.Abs(s[0]))
	}
	return s[0]
}

// All by hand: 8 000 000 envelopes are 100 shifts of the slow line, 800 h, of which 100 h
// are overtime, and 80 shifts of the fast one, 640 h. The factors for 10 % and 5 years are
// P/A 3.790786769, P/F 0.620921323, A/P 0.263797481 and A/F 0.163797481: tables of any text
// of engineering economy (from memory, recomputed).
func TestWorthByHand(t *testing.T) {
	w, err := Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), gateCosts()}, 20, 1)
	require.NoError(t, err)
	for i, line := range []struct {
		hours, cost, thousand, annual float64
		parts                         [costParts]float64
	}{
		{800, 556_764, 69.5955, 556_764, [...]float64{
			40_000, 48_000, 3000, 0, // 800 h · 50; 800 h · 2 · 30; 100 h · 2 · 30 · ½
			80_068 + 200_120, 160_076, // 100 · (80 068 · 0.01 + 40 024 · 0.05); 100 · 80 038 · 0.02
			6000, 2000, 16_000, 1500, // 4800 · 1.25; 4000 · 0.5; 800 · 20
		}},
		{640, 548_448, 68.556, 548_448 + 30_000*0.263797481 - 5000*0.163797481, [...]float64{
			32_000, 38_400, 0, 0,
			80_148 + 200_320, 160_080,
			16_000, 2000, 16_000, 3500,
		}},
	} {
		year := w.Lines[i]
		assert.InDelta(t, line.hours, steadily(t, year.Hours), 1e-6)
		assert.InDelta(t, line.cost, steadily(t, year.Cost), 0.005)
		assert.InDelta(t, line.thousand, steadily(t, year.PerThousand), 0.00005)
		assert.InDelta(t, line.annual, steadily(t, year.Annual), 0.005)
		for _, p := range CostParts() {
			assert.InDelta(t, line.parts[p], steadily(t, year.Parts[p]), 0.005, "%s", p)
		}
	}

	g := w.Gains[1]
	assert.InDelta(t, 8316, steadily(t, g.Saving), 0.005)
	assert.InDelta(t, 8316*3.790786769-30_000+5000*0.620921323, steadily(t, g.NPV), 0.005)
	assert.InDelta(t, 3+(30_000-3*8316)/8316.0, steadily(t, g.Payback), 1e-6)
	// The savings of four years are worth 26 360.60 now, that of the fifth with what is got
	// for the gate 8268.19.
	assert.InDelta(t, 4+(30_000-26_360.601)/8268.188, steadily(t, g.Discounted), 1e-5)
	// An envelope saves 0.0009145, from 7 000 000 on, where the slow line needs overtime,
	// 0.0039145. The gate costs 7094.937 a year and 2000 more upkeep.
	assert.InDelta(t, 7_000_000+(9094.937025-6401.5)/0.0039145, steadily(t, g.BreakEven), 1)
	assert.Equal(t, 1.0, g.Chance.Share)
	assert.Empty(t, w.Gains[0].NPV)

	assert.InDelta(t, -30_000-2000*3.790786769+5000*0.620921323, steadily(t, w.NPVs(1, 0)), 0.005)
	assert.InDelta(t, 0, steadily(t, w.NPVs(1, g.BreakEven[0])), 0.005)
}

// By hand: in four shifts, 32 h, technicians come four times and are there, on the way or at work, for 4 h:
// in a year of 800 h a hundred times, 100 h.
func TestTechniciansByHand(t *testing.T) {
	s, c := slow(), prices()
	s.Total.Stations[1].Repair = sim.Account{Calls: 4, Done: 4, Waiting: 500, Walking: 4 * 1200, Working: 4 * 2400}
	c.TechnicianCall, c.TechnicianHour = money.Fixed(150), money.Fixed(60)
	w, err := Weigh([]*runs.Study{s}, []*Costs{c}, 5, 1)
	require.NoError(t, err)
	year := w.Lines[0]
	assert.InDelta(t, 100*150+100*60, steadily(t, year.Parts[TechnicianCost]), 1e-6)
	assert.InDelta(t, 556_764+21_000, steadily(t, year.Cost), 0.005)
}

func TestWorthThatNeverPays(t *testing.T) {
	dear := gateCosts()
	dear.LineHour = money.Fixed(100)
	w, err := Weigh([]*runs.Study{slow(), fast(), slow()}, []*Costs{prices(), dear, prices()}, 5, 1)
	require.NoError(t, err)
	g := w.Gains[1]
	assert.Equal(t, math.Inf(1), g.Payback[0])
	assert.Equal(t, math.Inf(1), g.Discounted[0])
	assert.Equal(t, math.Inf(1), g.BreakEven[0])
	assert.Zero(t, g.Chance.Share)

	same := w.Gains[2] // nothing to pay back, nothing gained
	assert.Equal(t, [4]float64{}, [4]float64{same.Payback[0], same.NPV[0], same.Saving[0], same.BreakEven[0]})
	assert.Zero(t, same.Chance.Share)

	dear.Price, dear.Residual = money.Fixed(0), money.Fixed(0)
	w, err = Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), dear}, 5, 1)
	require.NoError(t, err)
	assert.Less(t, w.Gains[1].Saving[0], 0.0)
	assert.Equal(t, math.Inf(1), w.Gains[1].Payback[0], "nothing was paid, and every year loses")
}

// The gate saves 8316 a year, worth 34 628.79 with what is got for it: it pays if its price
// is below that. Of a triangle from 25 000 over 30 000 to 45 000 that is
// 1 − (45 000 − 34 628.79)²/(20 000 · 15 000) = 0.6415. Source: Kotz and van Dorp, Beyond
// Beta (2004), chapter 1 (from memory).
func TestWorthChance(t *testing.T) {
	c := gateCosts()
	c.Price = money.Value{Low: 25_000, Likely: 30_000, High: 45_000}
	w, err := Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), c}, 4000, 1)
	require.NoError(t, err)
	const worth = 8316*3.790786769 + 5000*0.620921323
	want := 1 - (45_000-worth)*(45_000-worth)/(20_000*15_000)
	even := (worth - 25_000) / 20_000
	p := money.ChanceOfGain(w.Gains[1].NPV, 0.999)
	assert.True(t, p.Low <= want && want <= p.High, "%+v, want %v", p, want)
	assert.False(t, p.Low <= even && even <= p.High, "an even spread goes unseen: %+v, %v", p, even)
	assert.Equal(t, money.ChanceOfGain(w.Gains[1].NPV, 0.95), w.Gains[1].Chance)
}

// noisyStudy returns a study with net rates around 10 000 and nothing else.
func noisyStudy(shifts int, purpose string) *runs.Study {
	s := &runs.Study{Line: &model.Line{Name: "noisy", Shift: 8 * 3600, Crew: model.Crew{Operators: 1}}}
	random := sim.NewStream("test", purpose)
	random.Seed(1, 0)
	for range shifts {
		s.Shifts = append(s.Shifts, runs.Shift{NetRate: 9000 + 2000*random.Uniform()})
	}
	return s
}

// Where only hours cost money, the yearly cost is volume over the mean rate: its relative
// standard deviation is nearly that of the mean, s/√n. With 2000 draws it is known to some
// 1/√4000, 1.6 %.
func TestWorthResamplesTheShifts(t *testing.T) {
	only := &Costs{Currency: "EUR", Life: 5, LineHour: money.Fixed(50), Volume: money.Fixed(8_000_000)}
	a, b := noisyStudy(200, "a"), noisyStudy(200, "b")
	w, err := Weigh([]*runs.Study{a, a, b}, []*Costs{only, only, only}, 2000, 1)
	require.NoError(t, err)
	rates := a.NetRates()
	want := rates.SD() / math.Sqrt(200) / rates.Mean()
	got := w.Lines[0].Cost.SD() / w.Lines[0].Cost.Mean()
	const off = 3.29 / 63.2
	assert.InEpsilon(t, want, got, off)
	assert.Greater(t, math.Abs(got-1.1*want), off*1.1*want, "a tenth too much goes unseen")

	// The same shifts for all lines: two that are alike never differ.
	assert.Zero(t, w.Gains[1].Saving.SD())
	assert.Greater(t, w.Gains[2].Saving.SD(), w.Lines[0].Cost.SD())
}

// What a line uses up in all its shifts together is what its ledgers say.
func TestWorthOfRealShifts(t *testing.T) {
	for name, change := range map[string]func(*model.Line){
		"shift": func(*model.Line) {},
		"job": func(l *model.Line) {
			l.Shift, l.Job = 0, model.Job{Sets: 20_000}
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := modeltest.ReferenceLine()
			change(l)
			study, err := runs.Run(context.Background(), l, sim.Plan{Seed: 1, Min: 30, Max: 30}, nil)
			require.NoError(t, err)
			c := prices()
			c.Pieces = nil
			p := spenderOf(study, c)
			numbers := make([]int32, len(study.Shifts))
			for i := range numbers {
				numbers[i] = int32(i)
			}
			mean := meanOf(p.jobs[0].shifts, numbers)
			n, total := float64(len(numbers)), &study.Total
			drawn := p.in([]tally{mean}, c.draw(1, 0))
			hours, parts := drawn.year(float64(total.Sets.Good) / n)
			assert.InEpsilon(t, float64(total.Time.Shift)/3600/n, hours, 1e-9)
			inserts, envelopes := int64(0), int64(0)
			for i, s := range l.Stations {
				used := total.Stations[i].Pieces
				sum := used.Loaded - used.Left - used.OnLine
				switch s.(type) {
				case *model.Feeder:
					inserts += sum
				case *model.Inserter:
					envelopes += sum
				}
			}
			assert.InEpsilon(t, 0.01*float64(inserts)/n, parts[InsertCost], 1e-9)
			assert.InEpsilon(t, 0.02*float64(envelopes)/n, parts[EnvelopeCost], 1e-9)
			assert.InEpsilon(t, 0.5*float64(total.Sets.Spoiled)/n, parts[SpoiledCost], 1e-9)
		})
	}
}

func TestWeighRefuses(t *testing.T) {
	one := slow()
	one.Shifts = one.Shifts[:1]
	still := slow()
	still.Shifts[2].NetRate = 0
	wrong := prices()
	wrong.Life = 0
	dear := prices()
	dear.Volume, dear.LineHour = money.Fixed(1e9), money.Fixed(1e9) // 20 000 h, of 10⁹ an hour, are saved
	for want, c := range map[string]struct {
		studies []*runs.Study
		costs   []*Costs
		draws   int
	}{
		"there are 0 studies and the costs of 0, want as many, 1 at least":   {nil, nil, 5},
		"there are 1 studies and the costs of 2, want as many, 1 at least":   {[]*runs.Study{slow()}, []*Costs{prices(), prices()}, 5},
		"the number of draws is 0, want 1 or more":                           {[]*runs.Study{slow()}, []*Costs{prices()}, 0},
		"costs are not evaluated: costs of some lines only, lines [0]":       {[]*runs.Study{slow()}, []*Costs{nil}, 5},
		"costs are not evaluated: fewer than 2 shifts, lines [0]":            {[]*runs.Study{one}, []*Costs{prices()}, 5},
		"costs are not evaluated: fewer than 2 shifts, lines [1]":            {[]*runs.Study{slow(), one}, []*Costs{prices(), prices()}, 5},
		"costs are not evaluated: a shift without good envelopes, lines [0]": {[]*runs.Study{still}, []*Costs{prices()}, 5},
		"steady: costs are not evaluated: sums above 1e13 a year, lines [1]": {[]*runs.Study{slow(), fast()}, []*Costs{dear, dear}, 5},
		"steady: life is 0 years, want from 1 to 100":                        {[]*runs.Study{slow()}, []*Costs{wrong}, 5},
	} {
		_, err := Weigh(c.studies, c.costs, c.draws, 1)
		assert.EqualError(t, err, want)
	}
}
