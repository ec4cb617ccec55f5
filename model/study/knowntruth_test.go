package study

import (
	"context"
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/worth"
	"netrate/sim"
	"netrate/sim/output"
)

// The tests compare 60 pairs of lines, make validate 500.
var macro = flag.Int("macro", 30, "pairs of lines of which the truth is known")

// guessed returns a line of a file of which all that stops it is guessed, in one of three ways, and
// its true net rate: the truth of each number is one of those that its prior holds possible, as
// likely as that says, and the net rate is that of the closed form.
func guessed(rng *rand.Rand, file string) (a Alternative, truth float64) {
	l := modeltest.TruthLine(1)
	var values []float64
	for i := range 6 {
		p := 0.001 + 0.003*rng.Float64()
		var of output.Prior
		switch rng.IntN(3) {
		case 0:
			of = output.Counted{Seen: 1 + int64(2000*p), Of: 2000}
		case 1:
			of = output.Between{Low: p / 4, Likely: p / 2, High: 3 * p} // skewed
		default:
			of = output.Between{Low: p / 2, Likely: p, High: 2 * p}
		}
		f := l.Stations[i].(*model.Feeder)
		f.Double = of.Nominal()
		l.UncertainInputs = append(l.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "double", Of: of})
		values = append(values, of.Quantile(rng.Float64()))
	}
	return Alternative{Name: file, File: file, Line: l}, modeltest.OnPaper(values)
}

// stated is a probability that was stated, and whether it came true.
type stated struct {
	p  float64
	is bool
}

// calibration returns by how many standard errors outcomes lie off what was stated: in all, and
// how far extreme statements were too bold, which is below 0 then.
func calibration(all []stated) (off, bold float64) {
	var sum, variance, extreme, spread float64
	for _, s := range all {
		is := 0.0
		if s.is {
			is = 1
		}
		chance := max(s.p*(1-s.p), 1e-4)
		sum, variance = sum+is-s.p, variance+chance
		extreme, spread = extreme+(is-s.p)*(s.p-0.5), spread+(s.p-0.5)*(s.p-0.5)*chance
	}
	return sum / math.Sqrt(variance), extreme / math.Sqrt(spread)
}

// outOfBins returns in how many of ten bins of what was stated the outcomes are beyond binomial limits
// of 99.99 %: with ten bins, one round in a thousand has one.
func outOfBins(all []stated) int {
	var n, is [10]int64
	var p [10]float64
	for _, s := range all {
		bin := min(9, int(10*s.p))
		n[bin]++
		p[bin] += s.p
		if s.is {
			is[bin]++
		}
	}
	out := 0
	for bin := range n {
		if n[bin] == 0 {
			continue
		}
		low, high := output.ExactInterval(is[bin], n[bin], 0.9999)
		if mean := p[bin] / float64(n[bin]); mean < low || mean > high {
			out++
		}
	}
	return out
}

// A line that is said to be the best with a probability is the best as often as that: over pairs of
// lines whose numbers are guessed independently, and whose true net rates are known. Drawn as if the
// guesses of both were one, as two variants of one base once were, and taken at nominal values,
// the statements are far too bold.
func TestKnownTruthOfTheBest(t *testing.T) {
	modeltest.Briefly(t)
	rng := rand.New(rand.NewPCG(21, 22))
	var own, shared, nominal []stated
	for range *macro {
		a, truthA := guessed(rng, "a")
		b, truthB := guessed(rng, "b")
		best := func(b Alternative) float64 {
			answer, err := Comparison{Alternatives: []Alternative{a, b}, Plan: sim.Plan{Seed: rng.Uint64(), Min: 4, Max: 4}, Draws: 100}.Ask(context.Background(), nil)
			require.NoError(t, err)
			return float64(answer.Uncertainty.Lines[1].Best)
		}
		is := truthB > truthA
		own = append(own, stated{best(b), is})
		together := b
		together.File = a.File
		shared = append(shared, stated{best(together), is})
		sure := 0.0
		if b.Line.Analytic().NetRate > a.Line.Analytic().NetRate {
			sure = 1
		}
		nominal = append(nominal, stated{sure, is})
	}
	off, bold := calibration(own)
	t.Logf("%d pairs: %+.2f standard errors off, %+.2f bold; %d bins out", *macro, off, bold, outOfBins(own))
	assert.Less(t, math.Abs(off), modeltest.Z999)
	assert.Less(t, math.Abs(bold), modeltest.Z999)
	assert.Zero(t, outOfBins(own))

	for what, all := range map[string][]stated{"drawn as one": shared, "at nominal values": nominal} {
		_, bold := calibration(all)
		t.Logf("%s: %+.2f bold; %d bins out", what, bold, outOfBins(all))
		assert.Less(t, bold, -modeltest.Z999, "%s goes unseen: this test cannot fail", what)
		if *macro >= 300 { // fewer are too few in a bin
			assert.Positive(t, outOfBins(all), what)
		}
	}
}

// Of a line whose misfeeds are counted but for a few, and not noticed, it is known how many envelopes
// are defective: each with that probability by itself. The intervals of the incidents of a year, of
// the share of shifts with any, and the bounds where none was delivered, hold the truth as often as
// they say. It is one of those that the prior holds possible, as likely as that says. Those of the
// counts alone, as if all shifts were of one line, do so far less often.
func TestKnownTruthOfExposure(t *testing.T) {
	modeltest.Briefly(t)
	const good = 500_000 // a year
	for _, c := range []struct {
		name string
		of   output.Prior
	}{
		{"3 in a million feeds", output.Counted{Seen: 3, Of: 1_000_000}},
		{"12 in a million feeds", output.Counted{Seen: 12, Of: 1_000_000}},
		{"30 in a hundred thousand", output.Counted{Seen: 30, Of: 100_000}},
		{"a guess, by a factor of ten", output.Between{Low: 1e-6, Likely: 3e-6, High: 3e-5}},
	} {
		var incidents, shifts, old held
		for seed := range uint64(20) {
			e := exposureAsked(t, c.of, seed, good)
			sets := float64(e.Delivered) / float64(e.Of)
			low, high := output.ExactInterval(e.Incidents, e.Delivered, Level)
			for p := 0.005; p < 1; p += 0.01 {
				truth := c.of.Quantile(p)
				incidents.add(good*truth, float64(e.Year.Low), float64(e.Year.High))
				shifts.add(-math.Expm1(sets*math.Log1p(-truth)), float64(e.ShareLow), float64(e.ShareHigh))
				old.add(truth, low, high)
			}
		}
		t.Logf("%s: incidents %.3f, shifts %.3f, from counts alone %.3f", c.name, incidents.share(), shifts.share(), old.share())
		assert.InDelta(t, Level, incidents.share(), 0.03, c.name)
		assert.InDelta(t, Level, shifts.share(), 0.03, c.name)
		assert.Less(t, old.share(), 0.5, "%s: counts alone would do: this test cannot fail", c.name)
	}
}

// held counts how many truths intervals hold.
type held struct{ in, of float64 }

func (h *held) add(truth, low, high float64) {
	if h.of++; low <= truth && truth <= high {
		h.in++
	}
}

func (h *held) share() float64 { return h.in / h.of }

// exposureAsked returns what 200 draws show of a line in which nothing goes wrong but misfeeds at
// one feeder, which nobody notices.
func exposureAsked(t *testing.T, misfeed output.Prior, seed uint64, good float64) *Exposure {
	t.Helper()
	l := modeltest.TruthLine(1)
	for i := range 6 {
		l.Stations[i].(*model.Feeder).Double = 0
	}
	f := l.Stations[0].(*model.Feeder)
	f.Misfeed, f.Noticed, f.Unwatched = misfeed.Nominal(), 0, true
	l.UncertainInputs = []model.UncertainInput{{Station: f.Name, Name: "misfeed", Of: misfeed}}
	require.Empty(t, l.Check())
	costs := &worth.Costs{Volume: money.Fixed(good)}
	a, err := Run{Alternative: Alternative{Name: "a", Line: l, Costs: costs}, Plan: sim.Plan{Seed: seed, Min: 4, Max: 4}, Draws: 200}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a.Exposure
}
