package scenarios

import "netrate/sim"

// maxValues is how many observed times an empirical duration may hold.
const maxValues = 100_000

// duration is a time that varies: a plain time, or one family of distributions.
type duration struct {
	Constant    *uncertainTime `yaml:"constant,omitempty" jsonschema_description:"always the same time"`
	Lognormal   *spread        `yaml:"lognormal,omitempty" jsonschema_description:"many short and a few very long: usual for work by hand"`
	Gamma       *spread        `yaml:"gamma,omitempty" jsonschema_description:"from a sharp peak (small cv) to mostly short (cv above 1)"`
	Weibull     *spread        `yaml:"weibull,omitempty" jsonschema_description:"much like gamma, with a lighter tail where cv is below 1"`
	Exponential *mean          `yaml:"exponential,omitempty" jsonschema_description:"gamma with cv 1"`
	Triangular  *triangular    `yaml:"triangular,omitempty" jsonschema_description:"a guess from three numbers"`
	Empirical   []seconds      `yaml:"empirical,omitempty" jsonschema_description:"times observed, drawn with equal chances"`
	sameKey

	drawn sim.Duration // what it comes to, once it is decoded
}

type spread struct {
	Mean *uncertainTime   `yaml:"mean" jsonschema_description:"mean time, such as 60 s"`
	CV   *uncertainFactor `yaml:"cv" jsonschema_description:"coefficient of variation: standard deviation over mean, such as 0.8"`
}

type mean struct {
	Mean *uncertainTime `yaml:"mean" jsonschema_description:"mean time, such as 60 s"`
}

type triangular struct {
	Low  *seconds `yaml:"low" jsonschema_description:"shortest time"`
	Mode *seconds `yaml:"mode" jsonschema_description:"most likely time"`
	High *seconds `yaml:"high" jsonschema_description:"longest time"`
}

func (x *duration) decode(r *reader, n *node, key string) {
	x.drawn = sim.Constant(0)
	if n.Kind == scalarNode {
		var plain seconds
		r.quantity(n, key, &plain)
		x.drawn = sim.Constant(plain)
		return
	}
	if isReference(n) {
		if c := r.standing(n, key); c != nil {
			x.decode(r, c, key)
			r.bad[n] = r.spoilt(c)
		}
		return
	}
	if hasUncertainInput(n) {
		r.note(n, "%s is uncertain, want that within a distribution: {constant: %s} for a time that is always the same, but not known for certain", key, brief(n))
		return
	}
	r.inside(n, key, x)
	if r.spoilt(n) {
		return
	}
	if len(n.Content) != 2 {
		r.note(n, "%s has %d distributions, want one, or a plain time such as 45 s", key, len(n.Content)/2)
		return
	}
	if len(x.Empirical) > maxValues {
		r.note(n, "%s has %d values, want at most %d", key, len(x.Empirical), maxValues)
		return
	}
	drawn, err := x.distribution()
	if err != nil {
		r.note(n, "%s is not possible: %v", key, err)
		return
	}
	x.drawn = drawn
}

func (x *duration) distribution() (sim.Duration, error) {
	switch {
	case x.Constant != nil:
		return sim.Constant(*x.Constant), nil
	case x.Lognormal != nil:
		return sim.NewLognormal(x.Lognormal.both())
	case x.Gamma != nil:
		return sim.NewGamma(x.Gamma.both())
	case x.Weibull != nil:
		return sim.NewWeibull(x.Weibull.both())
	case x.Exponential != nil:
		return sim.NewExponential(sim.Seconds(*x.Exponential.Mean))
	case x.Triangular != nil:
		t := x.Triangular
		return sim.NewTriangular(sim.Seconds(*t.Low), sim.Seconds(*t.Mode), sim.Seconds(*t.High))
	}
	values := make([]sim.Seconds, len(x.Empirical))
	for i, v := range x.Empirical {
		values[i] = sim.Seconds(v)
	}
	return sim.NewEmpirical(values)
}

func (x *spread) both() (sim.Seconds, float64) { return sim.Seconds(*x.Mean), float64(*x.CV) }

// time returns the duration, never nil: a line with a problem is checked all the same.
func (x *duration) time() sim.Duration {
	if x == nil || x.drawn == nil {
		return sim.Constant(0)
	}
	return x.drawn
}
