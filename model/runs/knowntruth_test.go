package runs

import (
	"context"
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// How often the intervals hold the truth and the selection finds the best, where the truth is
// known: lines without buffers and with one operator, whose net rate is speed × E with
// E = 1 / (1 + Σ pᵢ dᵢ/T) (Buzacott 1967, from memory; see TestZeroBufferLine). The tests
// run 100 whole comparisons; make validate runs 500 and prints what it finds.
var macro = flag.Int("macro", 50, "whole comparisons of which the known truth is counted")

// inBounds asserts that a share counted in all comparisons is what it should be: within
// 3.29 standard errors in the tests, within 2 percentage points for make validate.
func inBounds(t *testing.T, what string, hits int, want float64) {
	t.Helper()
	share := float64(hits) / float64(*macro)
	bound := modeltest.Z999 * math.Sqrt(want*(1-want)/float64(*macro))
	if *macro >= 500 {
		bound = 0.02
	}
	t.Logf("%s: %.1f %% of %d, want %.1f ± %.1f", what, 100*share, *macro, 100*want, 100*bound)
	assert.InDelta(t, want, share, bound, what)
}

// The 95 % interval of a paired difference, and one that is off by a tenth.
func TestKnownTruthOfAPair(t *testing.T) {
	hits, off := 0, 0
	want := modeltest.Truth(0.5) - modeltest.Truth(1)
	for seed := range *macro {
		pair := truthSamples(t, seed, 60, 1, 0.5)
		c := output.Paired(pair[0], pair[1], 0.95)
		if math.Abs(c.Difference.Mean-want) <= c.Difference.Half {
			hits++
		}
		if math.Abs(c.Difference.Mean-1.1*want) <= c.Difference.Half {
			off++
		}
	}
	inBounds(t, "intervals of a difference that hold it", hits, 0.95)
	assert.Less(t, float64(off)/float64(*macro), 0.9, "a difference a tenth off goes unseen: this test cannot fail")
}

// tenFactors are ten lines of which the fourth is the best.
var tenFactors = []float64{1, 0.9, 1.2, 0.3, 0.8, 1.1, 1.4, 0.7, 1, 1.3}

// Of ten lines, all intervals against the base hold the truth at once at least as often as
// they say, and those of the leads too.
func TestKnownTruthOfTen(t *testing.T) {
	modeltest.Briefly(t)
	all, leads := 0, 0
	for seed := range *macro {
		samples := truthSamples(t, seed, 60, tenFactors...)
		pairs := make([][2]int, 0, 9)
		for i := 1; i < 10; i++ {
			pairs = append(pairs, [2]int{0, i})
		}
		ok := true
		for i, c := range output.Pairwise(samples, pairs, 0.95) {
			want := modeltest.Truth(tenFactors[i+1]) - modeltest.Truth(tenFactors[0])
			ok = ok && math.Abs(c.Difference.Mean-want) <= c.Difference.Half
		}
		if ok {
			all++
		}
		if leadsHold(output.Leads(samples, 0.95)) {
			leads++
		}
	}
	atLeast(t, "all nine intervals against the base hold", all, 0.95)
	atLeast(t, "all ten leads hold", leads, 0.95)
}

func leadsHold(leads []output.Lead) bool {
	for i, l := range leads {
		others := math.Inf(-1)
		for k, f := range tenFactors {
			if k != i {
				others = max(others, modeltest.Truth(f))
			}
		}
		if lead := modeltest.Truth(tenFactors[i]) - others; lead < l.Low || lead > l.High {
			return false
		}
	}
	return true
}

// atLeast asserts a share that is promised at least, less 3.29 standard errors.
func atLeast(t *testing.T, what string, hits int, want float64) {
	t.Helper()
	share := float64(hits) / float64(*macro)
	bound := want - modeltest.Z999*math.Sqrt(want*(1-want)/float64(*macro))
	if *macro >= 500 {
		bound = want - 0.02
	}
	t.Logf("%s: %.1f %% of %d, want at least %.1f", what, 100*share, *macro, 100*want)
	assert.GreaterOrEqual(t, share, bound, what)
}

// The selection finds the best of ten lines, of which nine are alike and the best is ahead by
// just as much as matters: the hardest case that the promise covers.
func TestKnownTruthOfTheSelection(t *testing.T) {
	modeltest.Briefly(t)
	factors := []float64{1, 1, 1, 0.8, 1, 1, 1, 1, 1, 1}
	worth := modeltest.Truth(0.8) - modeltest.Truth(1)
	right, replications := 0, 0
	for seed := range *macro {
		selection, err := output.NewSelection(10, 10, worth, 0.95)
		require.NoError(t, err)
		lines := make([]*model.Line, 10)
		for i, f := range factors {
			lines[i] = modeltest.TruthLine(f)
			lines[i].Stations[0].(*model.Feeder).Name = string(rune('a' + i)) // random streams of its own: else nine would be one
		}
		studies, err := Together(context.Background(), lines, sim.Plan{Seed: uint64(seed), Min: 1e5, Max: 1e5}, selection, nil)
		require.NoError(t, err)
		if best, promised := selection.Best(); promised && best == 3 {
			right++
		}
		for _, s := range studies {
			replications += len(s.Shifts)
		}
	}
	atLeast(t, "selections that find the best of ten", right, 0.95)
	t.Logf("replications of a selection, all lines: %d", replications/(*macro))
}

// truthSamples returns the net rates of the lines with the given factors, on shared random numbers.
func truthSamples(t *testing.T, seed, replications int, factors ...float64) []sim.Sample {
	t.Helper()
	lines := make([]*model.Line, len(factors))
	for i, f := range factors {
		lines[i] = modeltest.TruthLine(f)
	}
	plan := sim.Plan{Seed: uint64(seed), Min: replications, Max: replications}
	studies, err := Together(context.Background(), lines, plan, nil, nil)
	require.NoError(t, err)
	samples := make([]sim.Sample, len(lines))
	for i, s := range studies {
		samples[i] = s.NetRates()
	}
	return samples
}
