package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// What the choice did not drop is said to be as good only if other shifts do not show it to be less
// than the zone ahead.
func TestUnsettledDesigns(t *testing.T) {
	ahead := func(low, high study.Number) *study.DesignAhead {
		return &study.DesignAhead{Mean: (low + high) / 2, Interval: study.Interval{Level: 0.95, Low: low, High: high}}
	}
	d := Design{DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignNetRate, Best: 2, Advice: 2, Left: 2, Indifference: 48,
		Finalists: []study.DesignOne{{Name: "base", Rival: true, Better: ahead(-900, -800)}, {Name: "A", Rival: true, Better: ahead(-5, 50)}, {Name: "B"}},
	}}
	assert.Equal(t, "That is not settled: after all the shifts that were allowed A may still be better by 48 or more.", d.unsettled("48"))
	d.Left = 4
	assert.Contains(t, d.unsettled("48"), "A and 2 designs not in the table may still be better by 48 or more")
	d.Finalists[1].Better, d.Left = ahead(-5, 40), 2
	assert.Equal(t, "The choice was not settled in the shifts that were allowed. In those of the table, which are others, nothing that was left of it is better by 48 or more (95 %).", d.unsettled("48"))
}

// What is drawn is the frontier; the line as it is stays drawn where it is beaten for nothing, and what is advised
// is told where it is not drawn. What the table has no room for is counted.
func TestDesignFrontierIsDrawn(t *testing.T) {
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{}}, DesignAnswer: &study.DesignAnswer{Best: 3, Advice: 2, Comparison: &study.ComparisonAnswer{}}}
	d.Goal = study.DesignNetRate
	for i, x := range []struct{ price, rate float64 }{{0, 5000}, {0, 6000}, {200, 5500}, {300, 6600}} {
		d.Finalists = append(d.Finalists, study.DesignOne{Name: string(rune('A' + i)), Price: study.Number(x.price), Frontier: i%2 == 1})
		d.Comparison.Lines = append(d.Comparison.Lines, study.LineAnswer{NetRate: study.NetRate{Mean: study.Number(x.rate), Half: 10, Level: 0.95, N: 100}})
	}
	assert.Equal(t, []int{1, 3}, d.leading())
	f, err := DesignFrontier(d)
	require.NoError(t, err)
	assert.Contains(t, f.Subtitle, "Not among them: C, which is advised")
	drawn := func() string {
		svg, err := f.SVG()
		require.NoError(t, err)
		return string(svg)
	}
	assert.Contains(t, drawn(), "the line as it is")
	d.Finalists[0].Frontier = true
	f, err = DesignFrontier(d)
	require.NoError(t, err)
	assert.NotContains(t, drawn(), "the line as it is")

	d.Frontier = []study.DesignForMoney{{Finalist: new(0)}, {}, {}}
	assert.Contains(t, d.noRoom(), "no room for 2 more designs")
	d.Frontier = d.Frontier[:1]
	assert.Empty(t, d.noRoom())
}

// What money buys in other measures than what is looked for is said and drawn, where it buys anything there.
func TestDesignBuysBesides(t *testing.T) {
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{}}, DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignNetRate, Comparison: &study.ComparisonAnswer{},
		ForPrices: []study.DesignForPrice{{Measure: study.DesignByRate, Finalists: []int{0, 1}}, {Measure: study.DesignByDefects, Finalists: []int{0, 1}}},
	}}
	for i, bad := range []int64{90_000, 0} {
		s := &runs.Study{Line: modeltest.ReferenceLine(), Shifts: make([]runs.Shift, 2)}
		s.Total.Sets.Good, s.Total.Sets.Defective = 910_000, bad
		d.Comparison.Lines = append(d.Comparison.Lines, study.LineAnswer{Study: s})
		d.Finalists = append(d.Finalists, study.DesignOne{Name: []string{"base", "A"}[i], Price: study.Number(100 * i)})
	}
	assert.Equal(t, []string{"What money buys besides, of the designs compared, each shown to be better than all that are no dearer: in defective mail 90,000 in a million (base) and 0 (A)."}, d.otherwiseBought())
	m := d.otherMeasures()[0]
	f, err := d.frontier(m, d.bestIn(m))
	require.NoError(t, err)
	assert.Contains(t, f.Title, "What money buys in defective mail: 90,000 in a million for nothing, down to 0 in a million for 100")
	d.ForPrices[1].Finalists = []int{0}
	assert.Empty(t, d.otherwiseBought())
}

// What a step of the price does is said as what it is: an addition, a choice in the place of another, or
// something left out; and its price as the difference of all these.
func TestDesignStepsInWords(t *testing.T) {
	assert.Equal(t, "adds “gate” and “belt”", stepWords(&study.DesignStep{Added: []string{"gate", "belt"}}))
	assert.Equal(t, "adds “gate”, takes “rotary” instead of “friction”, leaves out “belt”",
		stepWords(&study.DesignStep{Added: []string{"gate"}, Replaced: []study.DesignReplaced{{By: "rotary", Was: "friction"}}, Away: []string{"belt"}}))
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{Shop: scenarios.Shop{Costs: &worth.Costs{Currency: "EUR"}}}}, DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignValue, Advice: 1, Finalists: []study.DesignOne{{Name: "base"}, {Name: "A"}, {Name: "B"}, {Name: "C"}},
		Steps: []study.DesignStep{
			{From: 1, To: 2, Added: []string{"belt"}, Price: 3000, Gain: 600, Between: study.Interval{Level: 0.95, Low: 300, High: 900}, PerGrand: 200, Verdict: study.DesignSmall},
			{To: 1, Replaced: []study.DesignReplaced{{By: "fast", Was: "slow"}}, Price: 5000, Gain: 360_000, Between: study.Interval{Level: 0.95, Low: 330_000, High: 390_000}, PerGrand: 72_000},
		},
	}}
	to := "The last step of the price up to what is advised is from base to A: it takes “fast” instead of “slow”, for 5,000 EUR more in all, and its net present value is higher by 360,000 ± 30,000 EUR (±: what 95 draws in a hundred lie between): 72,000 for each 1,000."
	next := "The next step, from A to B, adds “belt”, for 3,000 EUR more in all, and its net present value is higher by 600 ± 300 EUR (±: what 95 draws in a hundred lie between): 200 for each 1,000. That counts as equal."
	assert.Equal(t, to+" "+next, d.lastMoney())
	d.Advice = 2
	assert.Contains(t, d.lastMoney(), "The last step of the price up to what is advised is from A to B: it adds")
	d.Limits.Price = new(9000.0)
	assert.Contains(t, d.lastMoney(), "That counts as equal. What money beyond the limit of 9,000 EUR would buy was not looked for.")
	d.Advice = 3
	assert.Contains(t, d.lastMoney(), "The last step of the price is from A to B: it adds", "what is advised is no step of it")
	d.Goal, d.Advice, d.Finalists[0].Operators = study.DesignNetRate, 1, 2
	d.Finalists[1].Operators, d.Finalists[2].Operators = 1, 3
	assert.Contains(t, d.lastMoney(), "for 5,000 EUR more in all and 1 operator fewer, and buys")
	assert.Contains(t, d.lastMoney(), "for 3,000 EUR and 2 operators more in all, and buys")

	d.Options = []study.DesignOption{{Name: "belt", Optional: true, Choices: []study.DesignChoice{{Name: "without belt"}, {Name: "belt"}}}, {Name: "feeder"}}
	assert.Equal(t, "leaving “belt” out", d.insteadWords(&study.DesignTurn{Option: "belt", Taken: "belt", Instead: "without belt"}))
	assert.Equal(t, "adding “belt”", d.insteadWords(&study.DesignTurn{Option: "belt", Taken: "without belt", Instead: "belt"}))
	assert.Equal(t, "“b” instead of “a”", d.insteadWords(&study.DesignTurn{Option: "feeder", Taken: "a", Instead: "b"}))
}

// Designs that were simulated besides are of those that were left out, and said to be.
func TestDesignCountsAddUp(t *testing.T) {
	d := Design{DesignAnswer: &study.DesignAnswer{Counts: study.DesignCounts{Combinations: 16, Simulated: 16}}}
	assert.Empty(t, d.near(), "all were simulated, and none besides")
	d.Counts.Near = 4
	assert.Equal(t, ", and of those left out 4 besides, to find what is best for less money or as good", d.near())
}

// What was counted in shifts or draws shows no certainty: 100 % and 0 % are said of neither.
func TestDesignSharesAreNoCertainty(t *testing.T) {
	d := Design{DesignAnswer: &study.DesignAnswer{Goal: study.DesignOperators, Target: 6000, Comparison: &study.ComparisonAnswer{Lines: make([]study.LineAnswer, 1)}}}
	d.Comparison.Lines[0].Study = &runs.Study{Line: modeltest.ReferenceLine(), Shifts: make([]runs.Shift, 200)}
	for share, want := range map[study.Number]string{
		1: "all of its 200 shifts reach 6,000 an hour (95 %: at least 98.2 % in the long run)",
		0: "none of its 200 shifts reaches 6,000 an hour (95 %: at most 98.2 % in the long run)",
	} {
		d.Finalists = []study.DesignOne{{Reaches: &study.Proportion{Share: share, Low: 0.982, High: 0.982}}}
		assert.Equal(t, want, d.reach(0))
	}
	d.Finalists = []study.DesignOne{{Reaches: &study.Proportion{Share: 0.9995, Low: 0.99, High: 0.99999}}}
	assert.Equal(t, "99.95 % of its 200 shifts reach 6,000 an hour (95 %: 99.0 % to 100 %)", d.reach(0))
	shown := d.reaching(0)
	assert.Equal(t, []string{"> 99.9 %", "99.0 %", "100 %"}, []string{shown[0].Shown, shown[1].Shown, shown[2].Shown})
	d.Finalists = []study.DesignOne{{Reaches: &study.Proportion{Share: 1, Low: 0.98, High: 1}}, {Reaches: &study.Proportion{High: 0.02}}}
	all, none := d.reaching(0), d.reaching(1)
	assert.Equal(t, []string{"all", "98.0 %", "–", "none", "–", "2.0 %"}, []string{all[0].Shown, all[1].Shown, all[2].Shown, none[0].Shown, none[1].Shown, none[2].Shown})
	d.Goal, d.Holds = study.DesignNetRate, &study.Proportion{Share: 1}
	d.Finalists = []study.DesignOne{{Name: "base"}}
	d.Comparison.Uncertainty = &study.ComparisonUncertainty{Rival: study.UncertaintyAhead{Uncertainty: &study.Uncertainty{Draws: 500}}}
	assert.Contains(t, d.robust()[0], "with a probability of over 99 %.")
}

// Of designs that count as equal the advice is one, and the best stands beside it with what it has more and
// for what; the bound of both is rounded up.
func TestDesignEqualsInWords(t *testing.T) {
	estimate := func(mean, half float64) *study.Mean {
		return new(study.MeanOf(sim.Estimate{Mean: mean, Half: half, Level: 0.95, N: 100}))
	}
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{Shop: scenarios.Shop{Costs: &worth.Costs{Currency: "EUR"}}}}, DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignCost, Best: 2, Advice: 1, Promised: true, Confidence: 0.95, Indifference: 0.15, Tolerance: 0.2711, Behind: estimate(-0.09, 0.0311),
		Finalists:  []study.DesignOne{{Name: "base"}, {Name: "A", Choices: []string{"gate"}, Price: 500}, {Name: "B", Choices: []string{"gate", "belt", "desk"}, Price: 900}},
		Comparison: &study.ComparisonAnswer{},
	}}
	assert.Equal(t, "The best, B, is ahead of it by 0.09 ± 0.03 EUR a thousand, with 2 changes more: less than 0.15 counts as equal, and of equals that with the fewest changes is advised.", d.equal())
	assert.Equal(t, "With 95 % confidence no other design is better by more than 0.28 EUR a thousand: B by no more than 0.13, and none is ahead of B by more than 0.15.", d.certainty())
	d.Goal, d.Indifference = study.DesignNetRate, 48
	d.Comparison.Compared = [][]output.Comparison{1: {2: {Difference: sim.Estimate{Mean: 41, Half: 6, Level: 0.95, N: 100}}}}
	assert.Equal(t, "The best, B, is ahead of it by 41 ± 6 good envelopes an hour, for 400 EUR more: less than 48 counts as equal, and of equals the cheapest is advised.", d.equal())
	d.Finalists[1].Price = 900
	assert.Contains(t, d.equal(), "at the same price: less than 48 counts as equal, and of equals at one price that with the fewest changes is advised.")
}

// At other volumes buying nothing costs less or it does not: it counts as equal to no purchase, however little
// lies between them. Purchases that lie so near to each other count as equal.
func TestDesignAtVolumesInWords(t *testing.T) {
	gain := &study.WorthGain{Pays: study.WorthPaysFrom, BreakEven: study.WorthMedian{P50: 9_374_000}}
	d := Design{DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignValue, Best: 2, Advice: 1, Indifference: 0.08,
		Finalists:  []study.DesignOne{{Name: "base", Within: true}, {Name: "A", Price: 500}, {Name: "B", Price: 900}},
		Comparison: &study.ComparisonAnswer{Money: &study.WorthAnswer{Lines: []study.WorthLine{{}, {Against: gain}, {}}}},
		Volumes: []study.DesignVolume{
			{Times: 0.5, Cheapest: 0, AllIn: 54.068, OfAdvice: 54.102, OfBase: 54.068},
			{Times: 0.75, Cheapest: 2, Advice: 0, AllIn: 51.95, OfAdvice: 52.01, OfBase: 52},
			{Times: 1.5, Cheapest: 2, Advice: 1, AllIn: 48.95, OfAdvice: 49, OfBase: 49.5},
			{Times: 2, Cheapest: 1, Advice: 1, AllIn: 48, OfAdvice: 48, OfBase: 49},
		},
	}}
	assert.Equal(t, []string{
		"Of these designs A costs least, or counts as equal to the one that does, at 1.5 times and 2 times the yearly volume too.",
		"At 0.5 times and 0.75 times the yearly volume buying nothing costs less: A pays for itself from 9,400,000 good envelopes a year on, in the median.",
	}, d.atVolumes())
	d.Indifference, d.Finalists[0].Within, gain.Pays = 0.04, false, study.WorthPaysAlways
	d.Volumes[1].Advice, d.Volumes[2].Advice = 2, 2
	notes := d.atVolumes()
	require.Len(t, notes, 3)
	assert.Equal(t, "Of these designs A costs least at 2 times the yearly volume too.", notes[0])
	assert.Equal(t, "At 0.5 times and 0.75 times the yearly volume buying nothing, which is outside the limits, costs less.", notes[1])
	assert.Contains(t, notes[2], "counts as equal to the one that does: B at 0.75 times and 1.5 times the volume. ")
	d.Volumes[2] = study.DesignVolume{Times: 1.5, Cheapest: 2, Advice: 0, AllIn: 48.95, OfAdvice: 48.96, OfBase: 48.97}
	assert.Contains(t, d.atVolumes()[1], "At 0.5 times, 0.75 times and 1.5 times the yearly volume buying nothing, which is outside the limits, costs less, or counts as equal.")
	d.Advice, d.Volumes = 0, []study.DesignVolume{{Times: 2, Cheapest: 0, AllIn: 3, OfAdvice: 3, OfBase: 3}}
	assert.Equal(t, []string{"Of these designs base costs least at 2 times the yearly volume too."}, d.atVolumes())
}

// A choice that makes less than counts as equal is said to be left out for that or, where leaving it out would be
// preferred and is not advised, to be kept, and why; what is certain of means is told from what is drawn.
func TestDesignWhyWhatGainsLittle(t *testing.T) {
	turn := func(taken, instead string, price study.Number) study.DesignTurn {
		return study.DesignTurn{Option: "belt", Taken: taken, Instead: instead, Price: price, Verdict: study.DesignSmall, Change: &study.Mean{Mean: -10, Half: 5}}
	}
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{}}, DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignNetRate, Indifference: 48, Comparison: &study.ComparisonAnswer{Lines: []study.LineAnswer{{Study: &runs.Study{Line: modeltest.ReferenceLine()}}}},
		Options: []study.DesignOption{{Name: "belt", Optional: true, Choices: []study.DesignChoice{{Name: "without belt"}, {Name: "belt"}}}},
		Turns:   []study.DesignTurn{turn("without belt", "belt", 100)},
	}}
	assert.Equal(t, []string{"Less than the 48 good envelopes an hour that count as equal, and so not advised: adding “belt”, −10 ± 5 good envelopes an hour, for 100 more."}, d.sureties())
	d.Turns[0] = turn("belt", "without belt", -100)
	assert.Equal(t, []string{"Kept, although by itself it makes less than the 48 good envelopes an hour that count as equal, since without it the lead of the best is not shown to be within them: leaving “belt” out, −10 ± 5 good envelopes an hour, for 100 less."}, d.sureties())
	d.Turns[0].Verdict = study.DesignCertain
	assert.Equal(t, []string{"Certain, each by itself with all else as it is: “belt”."}, d.sureties())
	d.Comparison.Uncertainty = &study.ComparisonUncertainty{}
	assert.Contains(t, d.sureties()[0], "“belt”. That is said of means over all shifts (95 %).")
}

// What the search ended with is the best where that is shown, and else the leader, as in a comparison.
func TestDesignLeader(t *testing.T) {
	d := Design{DesignAnswer: &study.DesignAnswer{Goal: study.DesignNetRate, Best: 1, Advice: 1}}
	assert.Equal(t, "leader", d.bestWord())
	d.Promised = true
	assert.Equal(t, "best", d.bestWord())
	d.Advice, d.Comparison = 0, &study.ComparisonAnswer{Uncertainty: &study.ComparisonUncertainty{}}
	d.Behind = &study.Mean{Mean: 3, Half: 10}
	assert.Equal(t, "leader", d.bestWord())
	d.Behind.Half = 2
	assert.Equal(t, "best", d.bestWord())
}

// What is printed of a sum and its parts is compared as it is printed, each rounded by its own ±.
func TestWhatIsPrintedAddsUp(t *testing.T) {
	e := func(mean, half float64) sim.Estimate {
		return sim.Estimate{Mean: mean, Half: half, Level: 0.95, N: 100}
	}
	assert.True(t, addsUp(e(4271, 30), e(5439, 70), e(9710, 40)), "4,270 + 5,440 = 9,710")
	assert.False(t, addsUp(e(5131, 30), e(12_040, 2000), e(17_171, 2000)), "5,130 + 12,000 beside 17,000")
	assert.True(t, addsUp(e(5131, 30), e(-41, 20), e(5091, 30)), "5,130 − 40 = 5,090")
}
