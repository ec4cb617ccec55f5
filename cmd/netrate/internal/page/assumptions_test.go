package page

import (
	"os"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/plots"
	"netrate/scenarios"
)

// What a variant is not said to change is shown once, what a file leaves out is shown as such,
// and stations that are alike share a row.
func TestAssumptions(t *testing.T) {
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	sc, err := scenarios.Load(x.Name, x.Data)
	require.NoError(t, err)
	all := AssumedOf(sc)
	for name, want := range map[string]plots.Assumption{
		"a rate and its material": {What: "brochure: jam", Value: "1/15000 at the rated speed × 1.3 for the material", Source: "preset rotary, illustrative"},
		"stations alike":          {What: "coupon and flyer: hopper", Value: "pieces: 5000, warn: 10%, refill: 20 s"},
		"a response":              {What: "inserter: response to a flap", Value: "outsort"},
		"not given":               {What: "crew.attends", Value: "most urgent", Source: notGiven},
		"not given either":        {What: "crew.exhausted", Value: "with the stops", Source: notGiven},
		"a station of a variant": {
			What: "seven feeders, one operator: voucher: rated", Value: "16000/h", Source: "preset, with the speed that a seller might state",
		},
	} {
		t.Run(name, func(t *testing.T) { assert.Contains(t, all, want) })
	}
	for _, a := range all {
		assert.NotEqual(t, "seven feeders, one operator: crew.walk", a.What, "it is as in the base")
	}
}

// A contract shows what enters its test: neither prices, nor offers that are not tested.
func TestAssumedOfTest(t *testing.T) {
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	sc, err := scenarios.Load(x.Name, x.Data)
	require.NoError(t, err)
	rival := regexp.MustCompile(`^(costs|target)|seven feeders, one operator`)
	shows := func(all []plots.Assumption) bool {
		return slices.ContainsFunc(all, func(a plots.Assumption) bool { return rival.MatchString(a.What) })
	}
	require.True(t, shows(AssumedOf(sc)))
	tested := AssumedOfTest(sc)
	assert.False(t, shows(tested))
	assert.Contains(t, tested, plots.Assumption{What: "brochure: jam", Value: "1/15000 at the rated speed × 1.3 for the material", Source: "preset rotary, illustrative"})
	assert.True(t, shows(AssumedOfTest(sc, scenarios.BaseName, "seven feeders, one operator")), "it is what is tested")

	x, err = scenarios.ExampleNamed("gate-worth")
	require.NoError(t, err)
	sc, err = scenarios.Load(x.Name, x.Data)
	require.NoError(t, err)
	require.True(t, shows(AssumedOf(sc)), "it has costs")
	assert.False(t, shows(AssumedOfTest(sc)))
}

// Who says what: the price that a variant sets was once said to be from where the costs of the base
// are, and no response had a source.
func TestAssumptionsHaveSourcesOfTheirOwn(t *testing.T) {
	for example, want := range map[string][]plots.Assumption{
		"gate-worth": {
			{What: "costs.insert", Value: "0.01", Source: "illustrative"},
			{What: "with a track gate: costs.price", Value: "32000 to 50000, most likely 38000", Source: "illustrative offers"},
			{What: "with a track gate: costs.residual", Value: "3000"},
			{What: "letter, leaflet and card: response to a misfeed", Value: "stop", Source: notGiven},
			{What: "with a track gate: letter, leaflet and card: response to a misfeed", Value: "stop → divert"},
		},
		"small-shop": {
			{What: "terms, offer and card: response to a misfeed", Value: "outsort", Source: "illustrative"},
			{What: "invoice: response to a misfeed", Value: "stop"},
			{What: "crew.walk", Value: "6 s", Source: "illustrative"},
		},
		"three-offers": {
			{What: "fewer, faster feeders: line.speed", Value: "16000/h", Source: "illustrative offer"},
			{What: "fewer, faster feeders: line.speed, as it runs", Value: "16,000/h, set by the speed asked for, inserter", Source: "illustrative offer"},
			{What: "more crew: crew.operators", Value: "1 → 2"},
		},
		"statements": {
			{What: "terms and offer: response to a misfeed", Value: "divert"},
			{What: "in line: statements, letter and envelopes: response to a misfeed", Value: "stop → divert"},
		},
	} {
		x, err := scenarios.ExampleNamed(example)
		require.NoError(t, err)
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		all := AssumedOf(sc)
		for _, w := range want {
			assert.Contains(t, all, w, example)
		}
	}
}

// A season tells of its jobs, its calendar and its weeks too.
func TestAssumptionsOfASeason(t *testing.T) {
	text, err := os.ReadFile("../../testdata/jobs.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("jobs.yaml", text)
	require.NoError(t, err)
	said := map[string]string{}
	for _, a := range AssumedOf(sc) {
		said[a.What] = a.Value
	}
	assert.Equal(t, "sets: {bills: 30000}", said["season.weeks.week 3"])
	assert.Equal(t, "start: 08:00, length: 8 h", said["calendar.shifts.1"])
	assert.Equal(t, "10 min", said["changeover.insert"])
	assert.Equal(t, "envelope: C5, inserts: [{name: terms, size: A5, thickness: 3.6 mm}]", said["jobs.terms"])
	assert.Equal(t, "2 → 3", said["three days: calendar.days"])
}

// What is the same as another number is said as that, not as a path.
func TestPriorsInWords(t *testing.T) {
	for text, want := range map[string]string{
		"{low: 5 s, likely: 10 s, high: 30 s}":                               "5 s to 30 s, most likely 10 s",
		"low: 5 s, likely: 10 s, high: 30 s, same as: crew.walk.constant":    "5 s to 30 s, most likely 10 s, as in the base",
		"{constant: {low: 5 s, high: 30 s, same as: crew.walk.constant}}":    "{constant: 5 s to 30 s, as in the base}",
		"flyer.misfeed: 1/2000 → {seen: 4, of: 90, counted: 870}":            "flyer.misfeed: 1/2000 → 4 seen in 90 independent ones (870 counted)",
		"flyer.misfeed: 1/2000 → {seen: 40, of: 90}, as the misfeed of card": "flyer.misfeed: 1/2000 → 40 seen in 90, as the misfeed of card",
		"same as: crew.walk": "same as: crew.walk",
	} {
		assert.Equal(t, want, InWords(text))
	}
}
