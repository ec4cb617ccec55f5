package fit

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// Kind is a kind of distribution.
type Kind int

// The kinds that can be fitted.
const (
	Exponential Kind = iota + 1 // parameter: mean, s
	Lognormal                   // parameters: mu and sigma, of the natural logarithm of seconds
	Gamma                       // parameters: shape; scale, s
	Weibull                     // parameters: shape; scale, s
)

// Kinds returns all kinds, in their fixed order.
func Kinds() []Kind { return []Kind{Exponential, Lognormal, Gamma, Weibull} }

// String returns the name in lower case.
func (k Kind) String() string {
	switch k {
	case Exponential:
		return "exponential"
	case Lognormal:
		return "lognormal"
	case Gamma:
		return "gamma"
	case Weibull:
		return "weibull"
	}
	return fmt.Sprintf("Kind(%d)", int(k))
}

// place says where a distribution lies and how wide it is, on the scale of log seconds.
// In these two numbers the likelihood of every kind is well rounded at its top, however
// narrow the distribution, so that one step width suits all of them.
//
//	exponential: log mean, 1 (fixed)      lognormal: μ, σ
//	gamma: log mean, 1/√shape             Weibull: log scale, 1/shape
type place struct {
	at, spread float64
}

// moved returns the place so many spreads higher and so many times e wider.
func (p place) moved(up, wider float64) place {
	return place{p.at + up*p.spread, p.spread * math.Exp(wider)}
}

// law is a distribution on the seconds above 0.
type law interface {
	CDF(x float64) float64
	LogProb(x float64) float64
	Mean() float64
	Quantile(p float64) float64
	Rand() float64
	Survival(x float64) float64
}

// law returns the distribution of this kind at a place; draws come from the source.
func (k Kind) law(p place, src rand.Source) law {
	switch k {
	case Exponential:
		return distuv.Exponential{Rate: math.Exp(-p.at), Src: src}
	case Lognormal:
		return distuv.LogNormal{Mu: p.at, Sigma: p.spread, Src: src}
	case Gamma:
		shape := 1 / (p.spread * p.spread)
		return distuv.Gamma{Alpha: shape, Beta: shape * math.Exp(-p.at), Src: src}
	case Weibull:
		return distuv.Weibull{K: 1 / p.spread, Lambda: math.Exp(p.at), Src: src}
	}
	panic(fmt.Sprintf("fit: there is no kind %d", int(k)))
}

// parameters returns the usual parameters of the kind at a place, without their errors.
func (k Kind) parameters(p place) []Parameter {
	switch k {
	case Exponential:
		return []Parameter{{Name: "mean", Value: math.Exp(p.at)}}
	case Lognormal:
		return []Parameter{{Name: "mu", Value: p.at}, {Name: "sigma", Value: p.spread}}
	case Gamma:
		variance := p.spread * p.spread
		return []Parameter{{Name: "shape", Value: 1 / variance}, {Name: "scale", Value: math.Exp(p.at) * variance}}
	case Weibull:
		return []Parameter{{Name: "shape", Value: 1 / p.spread}, {Name: "scale", Value: math.Exp(p.at)}}
	}
	panic(fmt.Sprintf("fit: there is no kind %d", int(k)))
}

// free returns how many parameters are free.
func (k Kind) free() int {
	if k == Exponential {
		return 1
	}
	return 2
}
