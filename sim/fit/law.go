package fit

import (
	"netrate/sim"
	"netrate/sim/portable"
)

// law is a distribution on the seconds above 0.
type law interface {
	CDF(x float64) float64
	LogProb(x float64) float64 // logarithm of the density
	Mean() float64
	Quantile(p float64) float64
	Rand(s *sim.Stream) float64
	Survival(x float64) float64
}

type exponential struct{ mean float64 }

func (d exponential) CDF(x float64) float64      { return -portable.Expm1(-max(0, x) / d.mean) }
func (d exponential) Survival(x float64) float64 { return portable.Exp(-max(0, x) / d.mean) }
func (d exponential) LogProb(x float64) float64  { return -portable.Log(d.mean) - x/d.mean }
func (d exponential) Mean() float64              { return d.mean }
func (d exponential) Quantile(p float64) float64 { return float64(-d.mean * portable.Log1p(-p)) }
func (d exponential) Rand(s *sim.Stream) float64 { return float64(d.mean * s.Exponential()) }

type logNormal struct{ mu, sigma float64 } // of the logarithm

func (d logNormal) off(x float64) float64      { return (portable.Log(max(0, x)) - d.mu) / d.sigma }
func (d logNormal) CDF(x float64) float64      { return portable.NormalBelow(d.off(x)) }
func (d logNormal) Survival(x float64) float64 { return portable.NormalBelow(-d.off(x)) }

func (d logNormal) LogProb(x float64) float64 {
	z := d.off(x)
	return -float64(z*z/2) - portable.Log(x) - portable.Log(d.sigma) - logRoot2Pi
}

const logRoot2Pi = 0.918938533204672741780329736406 // ln √(2π)

func (d logNormal) Mean() float64 { return portable.Exp(d.mu + float64(d.sigma*d.sigma/2)) }

func (d logNormal) Quantile(p float64) float64 {
	return portable.Exp(d.mu + float64(d.sigma*portable.NormalQuantile(p)))
}

func (d logNormal) Rand(s *sim.Stream) float64 {
	return portable.Exp(d.mu + float64(d.sigma*s.Normal()))
}

type gamma struct{ shape, scale float64 }

func (d gamma) CDF(x float64) float64      { return portable.GammaBelow(d.shape, x/d.scale) }
func (d gamma) Survival(x float64) float64 { return portable.GammaAbove(d.shape, x/d.scale) }

func (d gamma) LogProb(x float64) float64 {
	return portable.GammaLogDensity(d.shape, x/d.scale) - portable.Log(x)
}

func (d gamma) Mean() float64 { return d.shape * d.scale }

func (d gamma) Quantile(p float64) float64 {
	return float64(portable.GammaQuantile(d.shape, p) * d.scale)
}

func (d gamma) Rand(s *sim.Stream) float64 { return float64(s.Gamma(d.shape) * d.scale) }

type weibull struct{ shape, scale float64 }

// power returns (x/scale)^shape, which is an exponential number of the mean 1.
func (d weibull) power(x float64) float64    { return portable.Pow(max(0, x)/d.scale, d.shape) }
func (d weibull) CDF(x float64) float64      { return -portable.Expm1(-d.power(x)) }
func (d weibull) Survival(x float64) float64 { return portable.Exp(-d.power(x)) }
func (d weibull) root(power float64) float64 { return d.scale * portable.Pow(power, 1/d.shape) }

func (d weibull) LogProb(x float64) float64 {
	log := portable.Log(x / d.scale)
	return portable.Log(d.shape/d.scale) + float64((d.shape-1)*log) - portable.Exp(float64(d.shape*log))
}

func (d weibull) Mean() float64 {
	return float64(d.scale * portable.Exp(portable.Lgamma(1+1/d.shape)))
}

func (d weibull) Quantile(p float64) float64 { return float64(d.root(-portable.Log1p(-p))) }
func (d weibull) Rand(s *sim.Stream) float64 { return float64(d.root(s.Exponential())) }
