package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Distances of the ball bearings from their fits, computed apart from this package, no
// print found.
func TestDistances(t *testing.T) {
	obs := observed(t, "testdata/ball_bearings.txt")
	for kind, want := range map[Kind][2]float64{
		Exponential: {0.306790224595, 2.81144448220},
		Lognormal:   {0.0897869544090, 0.188815035654},
		Gamma:       {0.122971771361, 0.215365234357},
		Weibull:     {0.151087562586, 0.328609752921},
	} {
		r, err := look(obs)
		require.NoError(t, err)
		ks, ad := distances(r.events, fitted(t, kind, obs).law())
		assert.InDelta(t, want[0], ks, 1e-9, kind)
		assert.InDelta(t, want[1], ad, 1e-8, kind)
	}
}

// One sample in twenty lies further from its own fit than the 5 % points of the tables
// say, at fifty observations. Taking the distance from the truth instead, or from a fit
// without fitting anew, is the mistake to be seen.
//
// Sources of the points: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), for
// the normal of the logarithms 0.752 and the exponential 1.321; Stephens, Biometrika 64
// (1977) 583–588, for the extreme value of the logarithms 0.757; all as in SciPy's
// stats.anderson, with its corrections for the number of observations.
func TestDistancesAgainstTables(t *testing.T) {
	const samples, n = 3000, 50
	for kind, point := range map[Kind]float64{
		Exponential: 1.321 / (1 + 0.6/n),
		Lognormal:   0.752 / (1 + 0.75/n + 2.25/(n*n)),
		Weibull:     0.757 / (1 + 0.2/math.Sqrt(n)),
	} {
		far, farFromTruth := 0, 0
		for i := range samples {
			r, err := look(drawn(kind, n, i, false))
			require.NoError(t, err)
			p, err := r.likeliest(kind)
			require.NoError(t, err)
			if _, ad := distances(r.events, kind.law(p)); ad > point {
				far++
			}
			if _, ad := distances(r.events, kind.law(truths[kind])); ad > point {
				farFromTruth++
			}
		}
		assert.True(t, shared(far, samples, 0.05, 3), "%v: %d of %d beyond %v", kind, far, samples, point)
		assert.False(t, shared(farFromTruth, samples, 0.05, 3), "%v: the distance from the truth goes unseen", kind)
	}
}

// The P of a lognormal fit against the formula for the normal distribution of
// D'Agostino and Stephens (1986), table 4.9, as in R's nortest: it holds for the standard
// deviation with divisor n − 1. Its own error is taken as 0.01.
func TestGoodnessOfLognormal(t *testing.T) {
	const many = 4999
	for _, file := range []string{"transceiver_repair_hours.txt", "ball_bearings.txt", "aircondit_hours.txt"} {
		obs := observed(t, "testdata/"+file)
		r, err := look(obs)
		require.NoError(t, err)
		f := fitted(t, Lognormal, obs)
		g, err := r.goodness(f, many, 7)
		require.NoError(t, err)

		n := float64(len(r.events))
		_, a := distances(r.events, Lognormal.law(place{f.place.at, f.place.spread * math.Sqrt(n/(n-1))}))
		want := normalP(a * (1 + 0.75/n + 2.25/(n*n)))
		margin := z999*math.Sqrt(want*(1-want)/many) + 0.01
		assert.InDelta(t, want, g.P, margin, file)
		assert.True(t, g.Tested)
		assert.Greater(t, math.Abs(normalP(2*a*(1+0.75/n+2.25/(n*n)))-g.P), margin, "%s: a distance counted twice goes unseen", file)
	}
}

func normalP(a float64) float64 {
	switch {
	case a < 0.2:
		return -math.Expm1(-13.436 + 101.14*a - 223.73*a*a)
	case a < 0.34:
		return -math.Expm1(-8.318 + 42.796*a - 59.938*a*a)
	case a < 0.6:
		return math.Exp(0.9177 - 4.279*a - 1.38*a*a)
	}
	return math.Exp(1.2937 - 5.709*a + 0.0186*a*a)
}

// Where the kind is right, one P in ten is at most 0.1; where it is wrong, most are. The
// gamma is the kind for which the bootstrap is only near.
func TestGoodnessOfGamma(t *testing.T) {
	const samples, n = 300, 40
	refused := map[Kind]int{}
	for i := range samples {
		for _, from := range []Kind{Gamma, Lognormal} {
			obs := drawn(from, n, i, false)
			r, err := look(obs)
			require.NoError(t, err)
			g, err := r.goodness(fitted(t, Gamma, obs), 99, uint64(i))
			require.NoError(t, err)
			if g.P <= 0.1 {
				refused[from]++
			}
		}
	}
	assert.True(t, shared(refused[Gamma], samples, 0.1, 1), "%d of %d refused", refused[Gamma], samples)
	assert.False(t, shared(refused[Lognormal], samples, 0.1, 1), "a wrong kind goes unseen: %d of %d", refused[Lognormal], samples)
}

func TestCompare(t *testing.T) {
	c, err := Compare(observed(t, "testdata/transceiver_repair_hours.txt"), 199, 1)
	require.NoError(t, err)
	var order []Kind
	for _, candidate := range c.Candidates {
		order = append(order, candidate.Kind)
		assert.InDelta(t, candidate.AIC()-c.Candidates[0].AIC(), candidate.Behind, 1e-12)
		assert.True(t, candidate.Goodness.Tested)
	}
	assert.Equal(t, []Kind{Lognormal, Exponential, Weibull, Gamma}, order)
	assert.InDelta(t, 4+2*100.016323918, c.Candidates[0].AIC(), 1e-7)

	again, err := Compare(observed(t, "testdata/transceiver_repair_hours.txt"), 199, 1)
	require.NoError(t, err)
	assert.Equal(t, c, again, "the same seed gives the same")
}

func TestCompareNotes(t *testing.T) {
	units := observed(t, "testdata/nist_weibull_censored.csv")
	for name, c := range map[string]struct {
		obs   []Observation
		draws int
		notes []string
	}{
		"cut short": {units, 99, []string{
			"The gamma describes the records best; as good, as far as can be determined: weibull, lognormal, exponential.",
			"Whether it fits was not tested, for 10 of 20 observations were cut short: look at the curves.",
		}},
		"no draws": {observed(t, "testdata/transceiver_repair_hours.txt"), 0, []string{
			"The lognormal describes the records best.",
			"Whether it fits was not tested.",
		}},
		"all the same": {Complete(60, 60, 60), 0, []string{
			"lognormal: the complete observations are all the same, want two that differ.",
			"gamma: the complete observations are all the same, want two that differ.",
			"weibull: the complete observations are all the same, want two that differ.",
			"The exponential describes the records best.",
			"Whether it fits was not tested.",
		}},
		"two humps": {Complete(1, 1.01, 1.02, 1.03, 1.04, 1.05, 1.06, 50, 51, 52, 53, 54, 55, 56, 57), 199, []string{
			"The gamma describes the records best; as good, as far as can be determined: weibull, lognormal.",
			"Even so it does not fit (P = 0.0050): take the records themselves as the distribution.",
		}},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := Compare(c.obs, c.draws, 1)
			require.NoError(t, err)
			assert.Equal(t, c.notes, got.Notes)
		})
	}
	_, err := Compare(nil, 9, 1)
	assert.Error(t, err)

	near := Comparison{Candidates: []Candidate{
		{Fitted: Fitted{Kind: Gamma}},
		{Fitted: Fitted{Kind: Weibull}, Behind: 1.99},
		{Fitted: Fitted{Kind: Lognormal}, Behind: 2},
	}}
	assert.Equal(t, "The gamma describes the records best; as good, as far as can be determined: weibull.", near.ranking())
}
