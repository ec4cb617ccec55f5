package study

import (
	"cmp"
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// What is said of counting is what comes of counting: a rate that is guessed from 1/2000 to 1/100
// is one of 1,000 trials, say, with as many counted on top; and a range that a day of counting
// would narrow is not said to be one that hardly anything narrows.
func TestMeasurement(t *testing.T) {
	l := modeltest.TruthLine(1)
	first, second := l.Stations[0].Where().Name, l.Stations[1].Where().Name
	l.UncertainInputs = []model.UncertainInput{
		{Station: first, Name: "double", Of: output.Between{Low: 0.0005, Likely: 0.002, High: 0.01}},
		{Station: second, Name: "double", Of: output.Counted{Seen: 20, Of: 10_000}},
	}
	a, err := Run{Alternative: Alternative{Line: l}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Draws: 200}.Ask(context.Background(), nil)
	require.NoError(t, err)
	u := a.Uncertainty
	all := u.Measured(0)
	require.Len(t, all, 2)
	require.Equal(t, first, all[0].Input.Station)

	// The variance of a triangular distribution is (a² + b² + c² − ab − ac − bc)/18 (Kotz and van
	// Dorp, Beyond Beta (2004), chapter 1; from memory).
	mean, variance := 0.0125/3, (0.0005*0.0005+0.002*0.002+0.01*0.01-0.0005*0.002-0.0005*0.01-0.002*0.01)/18
	m := all[0].Measure
	assert.Equal(t, "feeds", m.What)
	assert.InEpsilon(t, 3*mean*(1-mean)/variance, float64(m.Half.Observations), 0.01)
	assert.InEpsilon(t, 99*mean*(1-mean)/variance, float64(m.Tenth.Observations), 0.01)
	// A station of this line handles a set a cycle, 3,600 an hour while it runs.
	assert.InEpsilon(t, float64(m.Half.Observations)/(3600*float64(a.Time.Running.Mean/a.Time.Shift)), float64(m.Half.Hours), 0.02)
	share := float64(all[0].Share)
	assert.InEpsilon(t, u.Half()*math.Sqrt(1-0.75*share), float64(m.Half.LongRun), 1e-9)
	assert.Less(t, float64(m.Half.LongRun), 0.7*u.Half(), "a day of counting would narrow it")

	// Three times the trials on top of those counted are four times as many: half the standard error.
	assert.InEpsilon(t, 30_000, float64(all[1].Measure.Half.Observations), 0.02)
	assert.InEpsilon(t, u.Half()*0.5, u.HalfMeasured(all), 0.1)
}

// Where 300,000 feeds with bursts tell no more than 10,000, three times as many on top of the former
// are to be counted, not of the latter, and they take the line as much longer.
func TestMeasurementWhereFaultsComeInBursts(t *testing.T) {
	measured := func(made int64) *Measurement {
		l := modeltest.TruthLine(1)
		l.UncertainInputs = []model.UncertainInput{
			{Station: l.Stations[0].Where().Name, Name: "double", Of: output.Counted{Seen: 20, Of: 10_000, Made: made}},
		}
		a, err := Run{Alternative: Alternative{Line: l}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Draws: 100}.Ask(t.Context(), nil)
		require.NoError(t, err)
		all := a.Uncertainty.Measured(0)
		require.Len(t, all, 1)
		return all[0].Measure
	}
	alone, bursts := measured(0), measured(300_000)
	assert.InEpsilon(t, 30_000, float64(alone.Half.Observations), 0.02)
	assert.InEpsilon(t, 900_000, float64(bursts.Half.Observations), 0.02)
	assert.InEpsilon(t, 30*float64(alone.Half.Hours), float64(bursts.Half.Hours), 0.001)
	assert.Equal(t, alone.Half.LongRun, bursts.Half.LongRun, "what it buys is the same")
}

// An unknown of one line is counted on that line, though the other, twice as fast and ahead, has an unknown of
// its own at the same place: it takes twice as long as on the other.
func TestMeasurementIsOfItsLine(t *testing.T) {
	guess := output.Between{Low: 0.0005, Likely: 0.002, High: 0.01}
	line := func(owner string, speed float64) Alternative {
		l := modeltest.TruthLine(1)
		l.Speed = speed
		l.UncertainInputs = []model.UncertainInput{{Station: l.Stations[0].Where().Name, Name: "double", Of: guess, Owner: owner}}
		return Alternative{Name: cmp.Or(owner, "base"), Line: l}
	}
	q := Comparison{Alternatives: []Alternative{line("", 1800), line("fast", 3600)}, Plan: sim.Plan{Seed: 1, Min: 20, Max: 20}, Draws: 100}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	hours := map[string]float64{}
	for _, s := range a.Uncertainty.Rival.Sources {
		hours[s.Input.Owner] = float64(s.Measure.Half.Hours)
	}
	assert.Greater(t, hours[""], 1.6*hours["fast"])
}

// Where nothing of the kind ever happens on the line, it is not known how long it takes to see some.
func TestMeasurementOfWhatNeverComes(t *testing.T) {
	l := modeltest.TruthLine(1)
	station := l.Stations[0].Where().Name
	feeder := l.Stations[0].(*model.Feeder)
	feeder.Misfeed, feeder.Double, feeder.Jam = 0, 0, 0
	l.UncertainInputs = []model.UncertainInput{
		{Station: station, Name: "caught", Of: output.Between{Low: 0.9, Likely: 0.95, High: 0.99}},
		{Station: station, Name: "jam", Of: output.Between{Low: 0.001, Likely: 0.002, High: 0.003}},
	}
	a, err := Run{Alternative: Alternative{Line: l}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Draws: 40}.Ask(t.Context(), nil)
	require.NoError(t, err)
	for _, s := range a.Uncertainty.Sources {
		if s.Input.Name == "caught" {
			require.NotNil(t, s.Measure)
			assert.True(t, math.IsNaN(float64(s.Measure.Half.Hours)), "%v", s.Measure.Half.Hours)
			return
		}
	}
	t.Fatal("the share caught is not among the sources")
}
