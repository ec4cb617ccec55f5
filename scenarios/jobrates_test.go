package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim/output"
)

const ratedJobs = `name: Rated
line:
  restart: 4 s
  stations:
    - {kind: feeder, name: letter, at: 0, rated: 9000/h, hopper: {pieces: 900, warn: 90, refill: 9 s}, misfeed: {seen: 40, of: 90000}, double: 1/8000, jam: 1/9000, clear: 40 s, material: 2}
    - {kind: inserter, name: press, at: 4, rated: 9000/h, hopper: {pieces: 900, warn: 90, refill: 9 s}, envelope_misfeed: 1/3000, flap: 1/700, jam: 1/800, clear: 9 s}
    - {kind: delivery, name: belt, at: 6, belt: {envelopes: 100, warn: 10, sweep: 30 s}}
crew: {operators: 1, walk: 12 s}
policy: {misfeed: stop, double: stop, flap: stop}
jobs:
  - name: plain
    envelope: C5
    inserts: [{name: page, size: A4, fold: half, paper: 80 g/m2, material: 3}]
  - name: coated
    envelope: C5
    inserts: [{name: page, size: A4, fold: half, paper: 80 g/m2, material: 3}]
    rates: {letter: {misfeed: {seen: 30, of: 9000}, jam: 1/500}, press: {flap: 1/70}}
`

// A job's own rates hold for its inserts, and are numbers of their own, as uncertain as it says.
func TestRatesOfAJob(t *testing.T) {
	sc, err := Load("rated.yaml", []byte(ratedJobs))
	require.NoError(t, err)
	plain, fit := setup.Fitted(sc.Line, sc.Products[0])
	require.NotNil(t, plain, fit.Reasons)
	letter := plain.Stations[0].(*model.Feeder)
	assert.InDelta(t, 40./90000, letter.Misfeed, 1e-12)
	assert.InDelta(t, 3, letter.Material, 0)
	require.Len(t, plain.UncertainInputs, 1)

	coated, fit := setup.Fitted(sc.Line, sc.Products[1])
	require.NotNil(t, coated, fit.Reasons)
	letter = coated.Stations[0].(*model.Feeder)
	assert.InDelta(t, 30./9000, letter.Misfeed, 1e-12)
	assert.InDelta(t, 1./500, letter.Jam, 1e-12)
	assert.InDelta(t, 1./8000, letter.Double, 1e-12)
	assert.InDelta(t, 1, letter.Material, 0)
	assert.InDelta(t, 1./70, coated.Stations[1].(*model.Inserter).Flap, 1e-12)
	require.Len(t, coated.UncertainInputs, 1)
	d := coated.UncertainInputs[0]
	assert.Equal(t, output.Counted{Seen: 30, Of: 9000}, d.Of)
	assert.Equal(t, model.Unknown{Path: "jobs.coated.rates.letter.misfeed"}, d.Unknown())
	assert.NotEqual(t, plain.UncertainInputs[0].Unknown(), d.Unknown())
}

func TestRatesOfAJobThatCannotBe(t *testing.T) {
	for change, want := range map[[2]string]string{
		{"{letter: {misfeed:", "{leter: {misfeed:"}:             `no station with rates is named "leter": did you mean letter?`,
		{"press: {flap:", "press: {double:"}:                    `press has no rate "double": want envelope_misfeed, flap or jam`,
		{"{flap: 1/70}", "{flap: 70}"}:                          "did you mean 70%?",
		{"rates: {letter:", "rates: [letter]\n    x: {letter:"}: "rates is a list, want rates of faults by station",
	} {
		_, err := Load("rated.yaml", []byte(strings.Replace(ratedJobs, change[0], change[1], 1)))
		assert.ErrorContains(t, err, want)
	}
}

// What is learnt of a job is written into it, whether or not it has rates.
func TestRatesAreWrittenIntoAJob(t *testing.T) {
	text, err := Edited("rated.yaml", []byte(ratedJobs), []Edit{
		{Path: "jobs.plain.rates.letter.misfeed", Value: "{seen: 3, of: 9000}"},
		{Path: "jobs.plain.rates.letter.jam", Value: "{seen: 1, of: 9000}"},
		{Path: "jobs.plain.rates.press.flap", Value: "1/900"},
		{Path: "jobs.coated.rates.press.flap", Value: "1/800"},
	})
	require.NoError(t, err)
	assert.Contains(t, string(text), "    rates: {letter: {misfeed: {seen: 3, of: 9000}, jam: {seen: 1, of: 9000}}, press: {flap: 1/900}}\n")
	sc, err := Load("rated.yaml", text)
	require.NoError(t, err)
	assert.Len(t, sc.Products[0].Rates, 3)
	assert.InDelta(t, 1./800, sc.Products[1].Rates[2].P, 1e-12)
}
