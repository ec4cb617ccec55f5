package fit

import (
	"fmt"

	"netrate/sim/portable"
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

// moved returns the place moved up by a number of spreads, and exp(wider) times as wide.
func (p place) moved(up, wider float64) place {
	return place{p.at + float64(up*p.spread), p.spread * portable.Exp(wider)}
}

// law returns the distribution of this kind at a place.
func (k Kind) law(p place) law {
	switch k {
	case Exponential:
		return exponential{portable.Exp(p.at)}
	case Lognormal:
		return logNormal{p.at, p.spread}
	case Gamma:
		variance := float64(p.spread * p.spread)
		return gamma{1 / variance, portable.Exp(p.at) * variance}
	case Weibull:
		return weibull{1 / p.spread, portable.Exp(p.at)}
	}
	panic(fmt.Sprintf("fit: there is no kind %d", int(k)))
}

// parameters returns the usual parameters of the kind at a place, without their errors.
func (k Kind) parameters(p place) []Parameter {
	switch k {
	case Exponential:
		return []Parameter{{Name: "mean", Value: portable.Exp(p.at)}}
	case Lognormal:
		return []Parameter{{Name: "mu", Value: p.at}, {Name: "sigma", Value: p.spread}}
	case Gamma:
		variance := p.spread * p.spread
		return []Parameter{{Name: "shape", Value: 1 / variance}, {Name: "scale", Value: portable.Exp(p.at) * variance}}
	case Weibull:
		return []Parameter{{Name: "shape", Value: 1 / p.spread}, {Name: "scale", Value: portable.Exp(p.at)}}
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
