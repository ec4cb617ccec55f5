package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/sim/portable"
)

// Count is a number of faults in a number of feeds: those of one day, or of one lot.
type Count struct{ Faults, Feeds int64 }

// Dispersion is how counts vary about one rate: by chance alone, or as if each had a factor of its
// own, gamma with mean 1, so that they are negative binomial of shape 1/CV².
type Dispersion struct {
	Rate    float64 // faults per feed, where the counts are likeliest
	CV      float64 // of the factors; 0 where no factor makes the counts likelier than chance alone
	SE      float64 // of CV, from the curvature of the likelihood; 0 where CV is
	Low     float64 // of the interval of CV with the confidence asked for, by the likelihood ratio
	High    float64 // +Inf if it has no end
	Log     float64 // the log-likelihood there
	Poisson float64 // and that of chance alone, with what is known beside
	P       float64 // how often counts of chance alone look as much as if they had factors
}

// Disperse fits factors to counts, by maximum likelihood, and tests them against chance alone. The
// likelihood ratio lies on the edge of what a CV can be, so that half of its chi-square probability
// counts. It wants two counts or more with feeds, a fault among them, and a level above ½ and
// below 1; counts without feeds have no part in it.
//
// Sources: Bliss and Fisher, Biometrics 9 (1953) 176–200; Self and Liang, J. American Statistical
// Association 82 (1987) 605–610 (both from memory).
func Disperse(counts []Count, level float64) (Dispersion, error) {
	return DisperseBeside(counts, make([]float64, len(counts)), level)
}

// DisperseBeside is Disperse of counts of which each has another gamma factor already, with mean 1 and
// a squared CV that is known: the answer is of the factors beside these. A count then has a squared
// CV of (1 + CV²)(1 + known) − 1 in all, and is taken for negative binomial with that.
func DisperseBeside(counts []Count, known []float64, level float64) (Dispersion, error) {
	d, err := newDispersed(counts, known)
	if err = errors.Join(err, checkLevel(level)); err != nil {
		return Dispersion{}, err
	}
	top := d.top()
	x := Dispersion{CV: math.Sqrt(top), Poisson: d.at(0)}
	x.Log, x.Rate = d.at(top), d.rate
	ratio := 2 * max(0, x.Log-x.Poisson)
	if x.P = 1; top > 0 {
		x.P = portable.GammaAbove(0.5, ratio/2) / 2
		x.SE = d.error(x.CV)
	}
	drop := portable.GammaQuantile(0.5, level) // half of the chi-square of one degree
	x.Low, x.High = d.ends(top, x.Log-drop)
	return x, nil
}

// dispersed are counts that factors are fitted to.
type dispersed struct {
	counts []Count
	known  []float64 // squared CVs of other factors, one for each count
	rate   float64   // of the last place that was looked at
}

func newDispersed(counts []Count, known []float64) (*dispersed, error) {
	if len(known) != len(counts) {
		return nil, fmt.Errorf("there are %d counts and %d known factors, want as many", len(counts), len(known))
	}
	d, faults := &dispersed{}, int64(0)
	for i, c := range counts {
		if !(known[i] >= 0 && known[i] <= widest) {
			return nil, fmt.Errorf("count %d has a factor with a squared cv of %v, want from 0 to %d", i+1, known[i], widest)
		}
		if c.Faults < 0 || c.Feeds < 0 || c.Feeds == 0 && c.Faults > 0 {
			return nil, fmt.Errorf("count %d is %d faults in %d feeds, want 0 or more of both, and feeds where there are faults", i+1, c.Faults, c.Feeds)
		}
		if c.Feeds > 0 {
			d.counts, d.known, faults = append(d.counts, c), append(d.known, known[i]), faults+c.Faults
		}
	}
	if len(d.counts) < 2 || faults == 0 {
		return nil, fmt.Errorf("there are %d counts with %d faults, want two or more with a fault", len(d.counts), faults)
	}
	return d, nil
}

// widest is the largest squared CV that is looked at.
const widest = 100

// at returns the log-likelihood of factors with a squared CV of a, at the rate that is likeliest then,
// which it leaves in d.rate.
func (d *dispersed) at(a float64) float64 {
	faults, feeds := 0.0, 0.0
	for _, c := range d.counts {
		faults, feeds = faults+float64(c.Faults), feeds+float64(c.Feeds)
	}
	d.rate = faults / feeds
	if a > 0 || slices.Max(d.known) > 0 {
		d.rate = d.likeliestRate(a, d.rate)
	}
	sum, own := 0.0, a
	for i, c := range d.counts {
		a := d.all(i, own)
		n, m := float64(c.Faults), float64(d.rate*float64(c.Feeds))
		sum += logRising(c.Faults, a) + float64(n*portable.Log(m)) - portable.Lgamma(n+1)
		if a == 0 {
			sum -= m
		} else {
			sum -= float64((n + 1/a) * portable.Log1p(a*m))
		}
	}
	return sum
}

// all returns the squared CV of all factors that a count has.
func (d *dispersed) all(i int, own float64) float64 {
	return own + d.known[i] + float64(own*d.known[i])
}

// logRising returns the logarithm of (1)(1+a)(1+2a)…(1+(n-1)a): that of Γ(n+1/a)/Γ(1/a)·aⁿ.
func logRising(n int64, a float64) float64 {
	if n > 8 && a > 1e-3 {
		return portable.Lgamma(float64(n)+1/a) - portable.Lgamma(1/a) + float64(float64(n)*portable.Log(a))
	}
	sum := 0.0
	for j := int64(1); j < n; j++ {
		sum += portable.Log1p(a * float64(j))
	}
	return sum
}

// likeliestRate solves Σ (n − m)/(1 + a·m) = 0 for the rate: the left side falls with it.
func (d *dispersed) likeliestRate(own, start float64) float64 {
	low, high := 0.0, 0.0
	for _, c := range d.counts {
		high = max(high, float64(c.Faults)/float64(c.Feeds))
	}
	rate := start
	for range 100 {
		value, slope := 0.0, 0.0
		for i, c := range d.counts {
			a := d.all(i, own)
			n, e := float64(c.Faults), float64(c.Feeds)
			over := 1 + float64(a*rate*e)
			value += (n - float64(rate*e)) / over
			slope -= e * (1 + float64(a*n)) / (over * over)
		}
		if value > 0 {
			low = rate
		} else {
			high = rate
		}
		next := rate - value/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-rate) <= 1e-13*rate {
			return next
		}
		rate = next
	}
	return rate
}

// top returns the squared CV at which the counts are likeliest; 0 where that is chance alone, or no more
// than the first place of the grid. The likelihood is looked at on a grid, and then more closely about
// its highest place.
func (d *dispersed) top() float64 {
	const steps = 28
	square := func(i float64) float64 { return float64(widest * portable.Exp(float64((i-steps)*0.5))) } // from 8·10⁻⁵
	best, most := 0.0, d.at(0)
	for i := range steps + 1 {
		if l := d.at(square(float64(i))); l > most {
			best, most = float64(i), l
		}
	}
	if best == 0 {
		return 0
	}
	low, high := best-1, best+1
	for range 40 { // golden section
		const share = 0.6180339887498949
		left, right := high-float64(share*(high-low)), low+float64(share*(high-low))
		if d.at(square(left)) < d.at(square(right)) {
			low = left
		} else {
			high = right
		}
	}
	return min(widest, square(float64((low+high)/2)))
}

// error returns the standard error of a CV from the curvature of the log-likelihood, at most the CV
// itself; half of the CV where the curve does not bend down.
func (d *dispersed) error(cv float64) float64 {
	h := cv / 50
	at := func(x float64) float64 { return d.at(x * x) }
	bend := (float64(2*at(cv)) - at(cv-h) - at(cv+h)) / (h * h)
	if !(bend > 0) {
		return cv / 2
	}
	return min(cv, 1/math.Sqrt(bend))
}

// ends returns the CV below and above the likeliest at which the log-likelihood has fallen to a value.
func (d *dispersed) ends(top, to float64) (low, high float64) {
	half := func(inside, outside float64) float64 {
		for range 40 {
			middle := (inside + outside) / 2
			if d.at(middle*middle) >= to {
				inside = middle
			} else {
				outside = middle
			}
		}
		return inside
	}
	cv := math.Sqrt(top)
	if d.at(0) < to {
		low = half(cv, 0)
	}
	const most = 10
	if cv >= most || d.at(most*most) >= to {
		return low, math.Inf(1)
	}
	return low, half(cv, most)
}
