package worth

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/sim"
)

// cards returns the study of a job of 5000 an hour, or a number of times that.
func cards(times int64) *runs.Study {
	s := steady(40_000*times, 4*times, 0, 20*times, 10*times,
		model.Pieces{Good: 40_000 * times, Defective: 4 * times, Spoiled: 30 * times},
		model.Pieces{Good: 40_000 * times, Defective: 4 * times, Spoiled: 16 * times},
		model.Pieces{Good: 40_000 * times, Defective: 4 * times, Spoiled: 6 * times})
	s.Line.Name = "cards"
	return s
}

// lettersAndCards returns the study of a line that makes 4 letters for each card.
func lettersAndCards(timesCards int64) *runs.Study {
	letters := slow()
	letters.Line.Name = "letters"
	return runs.Mixed(&model.Line{Name: "both", Shift: 8 * 3600, Crew: model.Crew{Operators: 2}}, []*runs.Study{cards(timesCards), letters}, []float64{0.2, 0.8})
}

// pricesOfBoth are those of the tests of one volume, with overtime from 500 h on.
func pricesOfBoth() *Costs {
	c := prices()
	c.Overtime.Beyond = 500
	c.Volume = money.Value{}
	c.Volumes = map[string]money.Value{"letters": money.Fixed(4_000_000), "cards": money.Fixed(1_000_000)}
	return c
}

// All by hand. A year is 50 shifts of letters, 400 h, and 25 of cards, 200 h: of 600 h in all
// 100 h are overtime, although neither job has any by itself. The other line makes cards twice
// as fast, in 100 h, and needs none.
func TestWorthOfJobsByHand(t *testing.T) {
	dear := pricesOfBoth()
	dear.Price = money.Fixed(20_000)
	w, err := Weigh([]*runs.Study{lettersAndCards(1), lettersAndCards(2)}, []*Costs{pricesOfBoth(), dear}, 20, 1)
	require.NoError(t, err)
	assert.InDelta(t, 5_000_000, steadily(t, w.Volume), 1e-6)
	y := w.Lines[0]
	assert.InDelta(t, 600, steadily(t, y.Hours), 1e-9)
	assert.InDelta(t, 200, steadily(t, y.JobHours[0]), 1e-9)
	assert.InDelta(t, 400, steadily(t, y.JobHours[1]), 1e-9)
	for p, want := range map[CostPart]float64{
		LineHours:     30_000,             // 600 · 50
		OperatorHours: 36_000,             // 600 · 2 · 30
		OvertimePay:   3000,               // 100 · 2 · 30 · ½
		InsertCost:    140_094 + 60_033.5, // 50 · (80 068 · 0.01 + 40 024 · 0.05) + 25 · (40 034 · 0.01 + 40 020 · 0.05)
		EnvelopeCost:  80_038 + 20_005,    // 50 · 80 038 · 0.02 + 25 · 40 010 · 0.02
		RemakeCost:    3000 + 312.5,       // (50 · 48 + 25 · 10) · 1.25
		SpoiledCost:   1000 + 250,         // (50 · 40 + 25 · 20) · 0.5
		DefectiveCost: 8000 + 2000,        // (50 · 8 + 25 · 4) · 20
		UpkeepCost:    1500,
	} {
		assert.InDelta(t, want, steadily(t, y.Parts[p]), 0.001, "%s", p)
	}
	assert.InDelta(t, 385_233, steadily(t, y.Cost), 0.001) // their sum
	assert.InDelta(t, 77.0466, steadily(t, y.PerThousand), 1e-6)

	// 100 h at 50 + 2 · 30 are saved, and the overtime. The factors are those of
	// TestWorthByHand.
	g := w.Gains[1]
	assert.InDelta(t, 500, steadily(t, w.Lines[1].Hours), 1e-9)
	assert.InDelta(t, 14_000, steadily(t, g.Saving), 0.001)
	assert.InDelta(t, 14_000*3.790786769-20_000, steadily(t, g.NPV), 0.01)
	// The price is 5275.95 a year. Of an envelope of the mix 0.2 · (1/5000 − 1/10 000) h are
	// saved at 110 an hour, 0.0022, up to 4 166 667 envelopes, where overtime begins.
	assert.InDelta(t, 20_000*0.263797481/0.0022, steadily(t, g.BreakEven), 1)
	assert.InDelta(t, 0, steadily(t, w.NPVs(1, g.BreakEven[0])), 0.01)
}

// Worked out once more from the shifts themselves, with shifts that differ, ranges of volumes
// and prices, and real pieces.
func TestWorthOfJobsFromTheShifts(t *testing.T) {
	const shifts, draws = 30, 25
	s := mixedRun(t, shifts, modeltest.ReferenceLine())[0]
	c := pricesOfBoth()
	c.Pieces, c.Remake = nil, money.Value{}
	c.Spoiled = money.Value{Low: 1, Likely: 3, High: 4}
	c.Overtime.Beyond = 150
	c.Volumes = map[string]money.Value{"all": money.Fixed(2e6), "few": {Low: 5e5, Likely: 1e6, High: 3e6}}
	w, err := Weigh([]*runs.Study{s}, []*Costs{c}, draws, 7)
	require.NoError(t, err)
	drawn := func(name string, v money.Value, k int) float64 {
		random := sim.NewStream("costs", name)
		random.Seed(7, k)
		return v.Draw(random)
	}
	numbers := sim.NewStream("costs", "shifts")
	for k := range draws {
		hours, spoiled, pieces := 0.0, 0.0, 0.0
		numbers.Seed(7, k)
		var chosen []int
		for range shifts {
			chosen = append(chosen, int(numbers.Uniform()*shifts))
		}
		for _, j := range s.Jobs() {
			good, lost := 0.0, 0.0
			for _, i := range chosen {
				good, lost = good+j.Study.Shifts[i].Good, lost+j.Study.Shifts[i].Spoiled
			}
			name := j.Study.Line.Name
			volume := drawn("volumes."+name, c.Volumes[name], k)
			hours += volume * shifts * 8 / good
			spoiled += volume * lost / good
			pieces += volume * float64(len(modeltest.StationsOf[*model.Feeder](j.Study.Line)))
		}
		assert.InEpsilon(t, hours, w.Lines[0].Hours[k], 1e-9)
		assert.InEpsilon(t, spoiled*drawn("spoiled", c.Spoiled, k), w.Lines[0].Parts[SpoiledCost][k], 1e-9)
		assert.InEpsilon(t, max(0, hours-150)*30*0.5, w.Lines[0].Parts[OvertimePay][k], 1e-9)
		// Nearly all pieces are in good sets: a few in a thousand are not.
		assert.InEpsilon(t, 0.01*pieces, w.Lines[0].Parts[InsertCost][k], 0.01)
		assert.Greater(t, w.Lines[0].Parts[InsertCost][k], 0.01*pieces)
	}
	assert.Greater(t, w.Volume.SD(), 1e5)
	assert.NotZero(t, w.Lines[0].JobHours[0].SD(), "shifts differ")
}

func TestWeighWantsTheJobs(t *testing.T) {
	_, err := Weigh([]*runs.Study{slow()}, []*Costs{pricesOfBoth()}, 5, 1)
	assert.EqualError(t, err, "steady: there are costs of the jobs cards and letters, and the study is of no jobs")
	_, err = Weigh([]*runs.Study{lettersAndCards(1)}, []*Costs{prices()}, 5, 1)
	assert.EqualError(t, err, "both: there are costs of no jobs, and the study is of the jobs cards and letters")
}

// A line at one job costs what it costs without jobs.
func TestWorthOfOneJob(t *testing.T) {
	l := modeltest.ReferenceLine()
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	m, err := runs.NewMix(l, twoProducts(), []string{"all"}, []float64{1})
	require.NoError(t, err)
	mixed, err := runs.TogetherMixed(context.Background(), []*runs.Mix{m}, plan, nil)
	require.NoError(t, err)
	alone, err := runs.Run(context.Background(), l, plan, nil)
	require.NoError(t, err)
	volume, volumes := prices(), prices()
	volumes.Volume, volumes.Volumes = money.Value{}, map[string]money.Value{"all": volume.Volume}
	want, err := Weigh([]*runs.Study{alone}, []*Costs{volume}, 50, 1)
	require.NoError(t, err)
	got, err := Weigh(mixed, []*Costs{volumes}, 50, 1)
	require.NoError(t, err)
	assert.InEpsilonSlice(t, []float64(want.Lines[0].Cost), []float64(got.Lines[0].Cost), 1e-12)
	assert.InEpsilonSlice(t, []float64(want.Lines[0].Annual), []float64(got.Lines[0].Annual), 1e-12)
	assert.Equal(t, want.Volume, got.Volume)
}

// twoProducts have three inserts and six, for the reference line.
func twoProducts() []*setup.Product {
	c5 := setup.Envelope{Name: "C5", Height: 162, Length: 229}
	few, all := &setup.Product{Name: "few", Envelope: c5}, &setup.Product{Name: "all", Envelope: c5}
	for i, name := range []string{"a", "b", "c", "d", "e", "f"} {
		insert := setup.Insert{Name: name, Material: 1, Share: 1}
		if i < 3 {
			few.Inserts = append(few.Inserts, insert)
		}
		all.Inserts = append(all.Inserts, insert)
	}
	return []*setup.Product{few, all}
}

// mixedRun returns the studies of some lines at the two products, few having a third.
func mixedRun(t *testing.T, shifts int, lines ...*model.Line) []*runs.Study {
	t.Helper()
	var mixes []*runs.Mix
	for _, l := range lines {
		m, err := runs.NewMix(l, twoProducts(), []string{"all", "few"}, []float64{2.0 / 3, 1.0 / 3})
		require.NoError(t, err)
		mixes = append(mixes, m)
	}
	studies, err := runs.TogetherMixed(context.Background(), mixes, sim.Plan{Seed: 3, Min: shifts, Max: shifts, Workers: 2}, nil)
	require.NoError(t, err)
	return studies
}
