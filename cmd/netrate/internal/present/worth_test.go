package present

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/plots"
	"netrate/sim"
)

// valued returns what is known of two lines, with what the second gains in the draws, the volumes
// at which it breaks even and the hours a year that they take.
func valued(npv, even sim.Sample, hours ...float64) *study.WorthAnswer {
	one := slices.Repeat(sim.Sample{1}, len(npv))
	gain := worth.Gain{
		Saving: one, Payback: one, Discounted: one, NPV: npv, BreakEven: even, Chance: money.ChanceOfGain(npv, study.Level),
	}
	w := &worth.Worth{
		Currency: "EUR", Life: 8, Rate: 0.08, Draws: len(npv), Gains: []worth.Gain{{}, gain}, Volume: slices.Repeat(sim.Sample{1_000_000}, len(npv)),
	}
	for _, h := range hours {
		year := worth.YearOf{Price: make(sim.Sample, len(npv)), Hours: slices.Repeat(sim.Sample{h}, len(npv)), Cost: one, PerThousand: one, Annual: one}
		for p := range year.Parts {
			year.Parts[p] = one
		}
		w.Lines = append(w.Lines, year)
	}
	return study.WorthOf([]study.LineAnswer{
		{Name: "base", Of: study.Alternative{Name: "base", Called: "the base"}}, {Name: "B", Of: study.Alternative{Name: "B"}},
	}, w)
}

// A year has 8,760 hours: the base makes 8,760,000 in it, and B twice as many.
func TestWorthWithinTheYear(t *testing.T) {
	says := func(even, hours float64) string {
		return WorthFinding(valued(sim.Sample{1, -2, -3, -4}, sim.Sample{even}, hours, 500))
	}
	assert.Contains(t, says(17_600_000, 1000), "and in all draws it pays for itself at no volume that it can make in a year.")
	assert.Contains(t, says(17_400_000, 1000), "and it pays for itself only from 17,000,000 good envelopes a year on, in the median.")
	assert.NotContains(t, says(17_400_000, 1000), "NOT POSSIBLE")
	assert.Contains(t, says(17_400_000, 14_932), " NOT POSSIBLE on one line: a year has 8,760 hours, and it would take the base 15,000.")
}

// turned returns a sample whose signs are turned round.
func turned(s sim.Sample) sim.Sample {
	other := make(sim.Sample, len(s))
	for i, x := range s {
		other[i] = -x
	}
	return other
}

func TestWorthFinding(t *testing.T) {
	never := math.Inf(1)
	mixed, up, down := make(sim.Sample, 100), make(sim.Sample, 100), make(sim.Sample, 100)
	for i := range mixed {
		mixed[i], up[i], down[i] = float64(i-40), 10, -10
	}
	for _, c := range []struct {
		npv  sim.Sample
		even float64
		says []string
	}{
		{mixed, 4_321_000, []string{"“B” may pay for itself", "over 8 years at 8 %", "above 0 with a probability of 60 % (50 % to 70 %), and it pays for itself only from 4,300,000 good envelopes a year on, in the median."}},
		{turned(mixed), 4_321_000, []string{"“B” is more likely not to pay for itself than to", "probability of 40 %"}},
		{up, 0, []string{"“B” pays for itself", "a probability of over 96.3 %, and in all draws it pays for itself at any volume."}},
		{down, never, []string{"“B” does not pay for itself", "a probability of under 3.7 %, and in all draws no volume is large enough for it."}},
	} {
		got := WorthFinding(valued(c.npv, sim.Sample{c.even}, 1000, 500))
		for _, says := range c.says {
			assert.Contains(t, got, says)
		}
	}
}

// What is so of most draws is no certainty: “no volume is large enough” was said of an offer that pays in two
// draws of five, and nothing of one that no volume pays for in two of five.
func TestWorthIsNotAbsolute(t *testing.T) {
	never := math.Inf(1)
	draws := func(finite int) *study.WorthAnswer {
		npv, even := make(sim.Sample, 5), make(sim.Sample, 5)
		for i := range even {
			if npv[i], even[i] = -10, never; i < finite {
				npv[i], even[i] = 10, 500_000
			}
		}
		return valued(npv, even, 1000, 500)
	}
	assert.Contains(t, WorthFinding(draws(2)), "and in 60 % of the draws no volume is large enough for it.")
	assert.Contains(t, WorthFinding(draws(3)), "from 500,000 good envelopes a year on, in the median; in 40 % of the draws no volume is large enough.")
	assert.Contains(t, WorthFinding(draws(0)), "and in all draws no volume is large enough for it.")
	assert.NotContains(t, WorthFinding(draws(5)), "no volume")
}

// The sums of one table are rounded alike: 1,199,400 was 1,200,000 beside 1,202,000, and 2,600 were saved.
func TestSumsAddUp(t *testing.T) {
	a := valued(sim.Sample{1, 2, 3, 4}, sim.Sample{1, 2, 3, 4}, 1000, 500)
	costs := [2]sim.Sample{{1_052_010, 1_352_130, 1_152_050, 1_251_810}, {1_049_430, 1_349_590, 1_149_350, 1_249_230}}
	for i, s := range costs {
		a.Worth.Lines[i].Cost, a.Worth.Lines[i].Annual = s, s
		a.Lines[i].Cost, a.Lines[i].Annual = study.SpreadOf(s), study.SpreadOf(s)
	}
	saving := sim.Sample{2580, 2540, 2700, 2580}
	a.Worth.Gains[1].Saving = saving
	assert.Equal(t, []string{"1,200,000", "1,200,000"}, []string{upToSpread(costs[0].Mean(), costs[0]), upToSpread(costs[1].Mean(), costs[1])}, "by row nothing is seen")
	number := func(e plots.Entry) float64 {
		x, err := strconv.ParseFloat(strings.ReplaceAll(e.Shown, ",", ""), 64)
		require.NoError(t, err)
		return x
	}
	years, gains, pairs := worthYears(a, []int{0, 1}), worthGains(a, []int{0, 1}), worthPairs(a)
	assert.Equal(t, "2,600", gains.Rows[0][1].Shown)
	assert.InDelta(t, number(years.Rows[0][4])-number(years.Rows[1][4]), number(gains.Rows[0][1]), 1e-9)
	assert.InDelta(t, number(years.Rows[0][9])-number(years.Rows[1][9]), number(pairs.Rows[0][2]), 1e-9)
}

// Where no other line is worth its price that comes first, and the volume from which it would be says
// that it is not reached. The old text began with the offer that does not pay.
func TestWorthLeadsWithWhatIsToBeKept(t *testing.T) {
	down := slices.Repeat(sim.Sample{-10}, 100)
	got := WorthFinding(valued(down, sim.Sample{4_321_000}, 1000, 500))
	assert.Regexp(t, `^The base costs least over the life\. “B” does not pay for itself`, got)
	assert.Contains(t, got, "it pays for itself only from 4,300,000 good envelopes a year on")
	assert.Regexp(t, `^“B” pays for itself`, WorthFinding(valued(turned(down), sim.Sample{4_321_000}, 1000, 500)))
}

// What costs less to buy and more to run pays at no volume above some: “at any volume” was said of it
// beside a net present value below 0.
func TestWorthOfWhatIsCheapToBuy(t *testing.T) {
	a := valued(slices.Repeat(sim.Sample{-10}, 100), sim.Sample{0}, 1000, 500)
	assert.Contains(t, WorthFinding(a), "in all draws it pays for itself at no volume, as its price is no lower and its running costs are higher")
	a.Lines[0].Price.Mean = 100
	got := WorthFinding(a)
	assert.NotContains(t, got, "any volume")
	assert.Contains(t, got, "“B” is not cheaper over the life: over 8 years at 8 % its net present value ")
	assert.Contains(t, got, "in all draws it would be cheaper over the life at smaller volumes only, not at that of the file, as its price is lower")
}

// Of what costs less to buy nothing has to be paid back: "“Alder” pays for itself" was said of a line for
// 90,000 less than the base.
func TestCheaperToBuyDoesNotPayForItself(t *testing.T) {
	for npv, want := range map[float64]string{10: "“B” is cheaper over the life: ", -10: "“B” is not cheaper over the life: "} {
		a := valued(slices.Repeat(sim.Sample{npv}, 100), sim.Sample{4_321_000}, 1000, 500)
		a.Lines[0].Price.Mean = 100
		got := WorthFinding(a)
		assert.Contains(t, got, want)
		assert.NotContains(t, got, "pays for itself")
		assert.NotContains(t, got, "pay for itself")
	}
}

// The curve goes on beyond the volume from which the line pays, which the figure names.
func TestBreakEvenIsOnTheCurve(t *testing.T) {
	for _, even := range []float64{500_000, 4_321_000} {
		a := valued(slices.Repeat(sim.Sample{-10}, 100), sim.Sample{even}, 1000, 500)
		curve := a.Curve(1)
		assert.Greater(t, curve[len(curve)-1].Volume, even)
		assert.GreaterOrEqual(t, curve[len(curve)-1].Volume, 2e6)
	}
}

// Where the cost of a defective envelope is most of what two lines differ by, that is said.
func TestWorthOfDefectiveIsSaid(t *testing.T) {
	npv := slices.Repeat(sim.Sample{10}, 100)
	a := valued(npv, sim.Sample{1}, 1000, 500)
	assert.NotContains(t, WorthFinding(a), "defective")
	parts := &a.Worth.Lines[1].Parts
	parts[worth.DefectiveCost] = slices.Repeat(sim.Sample{31}, 100)
	parts[worth.LineHours] = slices.Repeat(sim.Sample{-9}, 100)
	assert.InEpsilon(t, 30.0/40, a.Share(1, worth.DefectiveCost), 1e-12, "30 of what is 30 more and 10 less")
	assert.Contains(t, WorthFinding(a), "75 % of all by which their yearly costs differ is what the file says a defective envelope costs")
}

func TestWorthSays(t *testing.T) {
	never := math.Inf(1)
	paid := func(years ...float64) plots.Entry {
		return paidBack(valued(sim.Sample{1, 2, 3}, years, 1000, 500).Lines[1].Against.BreakEven.P50, years)
	}
	assert.Equal(t, plots.Entry{Text: "never in 67 %"}, paid(3, never, never))
	assert.Equal(t, plots.Entry{Text: "never"}, paid(never, never, never))
	assert.Equal(t, plots.Entry{Number: 3.24, Shown: "3.2 years"}, paid(3.24, 1, never))
	assert.Equal(t, plots.Entry{Shown: "no outlay"}, paid(0, 0, 0))
	assert.Equal(t, plots.Entry{Text: "never in 67 %"}, reached(study.Number(never), sim.Sample{never, never, 2}))
	assert.Equal(t, plots.Entry{Number: 2}, reached(2, sim.Sample{never, 1, 2}))

	assert.Equal(t, "1,234.57", Averaged(sim.Sample{1234.5678, 1234.5679}))
	assert.Equal(t, "1,235", Averaged(sim.Sample{1235, 1235}))
	assert.Equal(t, "−5,300", Averaged(sim.Sample{-4321, -6234}))
	assert.Equal(t, "0", Averaged(sim.Sample{-3, 2.9999}))

	assert.Equal(t, "0.005", rangeWords(money.Fixed(0.005)))
}

// The figures of one page are rounded alike: hours of two lines, and a lead of which the other end of
// the interval is 0.
func TestRoundedAlike(t *testing.T) {
	a := &study.WorthAnswer{Worth: &worth.Worth{Lines: []worth.YearOf{{Hours: sim.Sample{635.3, 1035.3}}, {Hours: sim.Sample{620, 664}}}}}
	assert.Equal(t, []string{"835", "642"}, []string{hoursOf(a, 0).Shown, hoursOf(a, 1).Shown})
	assert.Equal(t, "8,790", hourRate(&study.WorthLine{HourRate: 8787.4}).Shown)
	c := &study.ComparisonAnswer{Leads: &study.ComparisonLeads{Leads: []study.ComparisonLead{{Name: "best", Mean: 2062, Low: 0, High: 2119}}}}
	row := comparisonLeads(c).Rows[0]
	assert.Equal(t, []string{"2,060", "0", "2,120"}, []string{row[1].Shown, row[2].Shown, row[3].Shown})
}

// Draws are said to be of what was drawn alone.
func TestDrawnOf(t *testing.T) {
	for _, c := range []struct {
		uncertain, ranges bool
		has, not          string
	}{
		{false, false, "of the shifts alone", "of the ranges"},
		{true, false, "no cost in the file is a range", "of the ranges"},
		{false, true, "of the ranges in the file", "uncertain inputs"},
		{true, true, "of the uncertain inputs of the lines and of the ranges in the file", "alone"},
	} {
		text := drawnOf(&study.WorthAnswer{Uncertain: c.uncertain, Ranges: c.ranges})
		assert.Contains(t, text, c.has)
		assert.NotContains(t, text, c.not)
	}
}
