package fit

import (
	"fmt"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Goodness says how well a fit describes the observations. KS and AD are distances
// between the two: 0 where they agree in all. P comes from a parametric bootstrap that
// fits anew each time.
type Goodness struct {
	KS     float64 // Kolmogorov–Smirnov: the largest gap between the two curves, a share
	AD     float64 // Anderson–Darling: all gaps, those in the tails weighted more
	P      float64 // how often so large an AD comes about, were the kind right
	Tested bool    // false: some observations were cut short or rounded, no test was made, all else is 0
}

// A test of many observations draws no larger records than likeMany, and ends when farEnough of
// them are as far off.
const (
	likeMany  = 500
	farEnough = 20
)

// goodness returns the distances, and P by a parametric bootstrap: as many observations
// are drawn from the fit, the kind is fitted to them anew and their distance taken, so
// many times. Fitting anew is what makes P right: the distance to a fit is always smaller
// than that to the truth. For the exponential, lognormal and Weibull the distances do not
// depend on the parameters, and P is exact but for the number of draws; for the gamma it
// is near.
//
// Of more than 100 observations the draws end when 20 of them are as far off, and P is then 20
// over their number. Of more than 500 the records that are drawn have 500: from there on the
// distribution of AD is the same to two parts in a thousand.
//
// Draw i uses the numbers of replication i under the seed. Durations recorded in coarse
// steps have ties, which a long record shows to be unlikely under every kind.
//
// Sources: Stute, González Manteiga and Presedo Quindimil, Metrika 40 (1993) 243–256; the end of
// the draws, Besag and Clifford, Biometrika 78 (1991) 301–304; AD for n, Stephens, J. Amer.
// Statist. Assoc. 69 (1974) 730–737, whose factors are 1 + 0.75/n and less (all from memory).
func (r records) goodness(f Fitted, draws int, seed uint64) (Goodness, error) {
	if len(r.cut)+len(r.ranges) > 0 || draws < 1 {
		return Goodness{}, nil
	}
	stream := sim.NewStream("fit", "goodness of "+f.Kind.String())
	source := f.law()
	drawn := records{events: make([]float64, min(len(r.events), likeMany))}
	asFar := 1 // the observations themselves
	ks, ad := distances(r.events, f.law())
	for i := range draws {
		stream.Seed(seed, i)
		for j := range drawn.events {
			drawn.events[j] = source.Rand(stream)
		}
		p, err := drawn.likeliest(f.Kind)
		if err != nil {
			return Goodness{}, fmt.Errorf("%v: the test of the fit: %w", f.Kind, err)
		}
		if _, again := distances(drawn.events, f.Kind.law(p)); again >= ad {
			asFar++
		}
		if asFar > farEnough && len(r.events) > fewStops {
			return Goodness{KS: ks, AD: ad, P: float64(farEnough) / float64(i+1), Tested: true}, nil
		}
	}
	return Goodness{KS: ks, AD: ad, P: float64(asFar) / float64(draws+1), Tested: true}, nil
}

// distances returns the distances of Kolmogorov and Smirnov and of Anderson and Darling
// (A²) between values and a distribution. A probability too small for a number counts as
// 10⁻³⁰⁰.
//
// Source: Stephens, J. Amer. Statist. Assoc. 69 (1974) 730–737 (from memory).
func distances(values []float64, law law) (ks, ad float64) {
	x := slices.Sorted(slices.Values(values))
	n := float64(len(x))
	ad = -n
	for i, v := range x {
		below, above := law.CDF(v), law.Survival(v)
		ks = max(ks, below-float64(i)/n, float64(i+1)/n-below)
		rank := float64(2*i + 1)
		ad -= (float64(rank*logOf(below)) + float64((float64(2*n)-rank)*logOf(above))) / n
	}
	return ks, ad
}

func logOf(p float64) float64 { return portable.Log(max(p, 1e-300)) }
