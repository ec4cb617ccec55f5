package scenarios

import (
	"slices"
	"strings"

	"netrate/model"
	"netrate/sim/output"
)

// Rates and times of a line may be written with their uncertainty, in one of three ways. Each is
// read as the number that it gives; what else may be believed of it is kept by its node.

// way is a way to write a number with its uncertainty.
type way interface {
	keys() []string // all of them needed, and no others
	prior() output.Prior
}

// trials is a probability as it was counted: how often it was seen in a number of trials. Where these
// depend on each other, it is written with as many independent ones as tell as much, and beside them
// how many were counted.
type trials struct {
	Seen    *count    `yaml:"seen,omitempty"`
	Of      *capacity `yaml:"of,omitempty"`
	Counted *capacity `yaml:"counted,omitempty"`
}

func (x *trials) keys() []string {
	if x.Counted == nil {
		return []string{"seen", "of"}
	}
	return []string{"seen", "of", "counted"}
}

func (x *trials) prior() output.Prior {
	c := output.Counted{Seen: int64(*x.Seen), Of: int64(*x.Of)}
	if x.Counted != nil {
		c.Made = int64(*x.Counted)
	}
	return c
}

// estimated is a number with its standard error, in the same unit.
type estimated[T ~float64] struct {
	About *T `yaml:"about,omitempty"`
	Error *T `yaml:"se,omitempty"`
}

func (*estimated[T]) keys() []string { return []string{"about", "se"} }

func (x *estimated[T]) prior() output.Prior {
	return output.About{Mean: float64(*x.About), Error: float64(*x.Error)}
}

// between is the least, the likeliest and the most that somebody takes a number for.
type between[T ~float64] struct {
	Low    *T `yaml:"low,omitempty"`
	Likely *T `yaml:"likely,omitempty"`
	High   *T `yaml:"high,omitempty"`
}

func (*between[T]) keys() []string { return []string{"low", "likely", "high"} }

func (x *between[T]) prior() output.Prior {
	return output.Between{Low: float64(*x.Low), Likely: float64(*x.Likely), High: float64(*x.High)}
}

// Numbers that may be uncertain.
type (
	uncertainProbability float64 // a probability
	uncertainFactor      float64
	uncertainTime        float64 // in seconds, more than 0 if uncertain
	uncertainCount       float64 // pieces or cycles, a whole number if certain
)

func (x *uncertainProbability) decode(r *reader, n *node, key string) {
	var given struct {
		trials
		between[probability]
		sameKey
	}
	r.unsure((*float64)(x), n, key, (*probability)(x), &given, &given.trials, &given.between)
}

func (x *uncertainFactor) decode(r *reader, n *node, key string) {
	var given struct {
		estimated[factor]
		between[factor]
		sameKey
	}
	r.unsure((*float64)(x), n, key, (*factor)(x), &given, &given.estimated, &given.between)
}

func (x *uncertainTime) decode(r *reader, n *node, key string) {
	var given struct {
		estimated[seconds]
		between[seconds]
		sameKey
	}
	r.unsure((*float64)(x), n, key, (*seconds)(x), &given, &given.estimated, &given.between)
	if r.priors[n] != nil && *x == 0 {
		r.note(n, "%s is likely to be 0 s, want more: a time of 0 s is written plainly", key)
	}
}

func (x *uncertainCount) decode(r *reader, n *node, key string) {
	var given struct {
		estimated[factor]
		between[factor]
		sameKey
	}
	r.unsure((*float64)(x), n, key, (*some)(x), &given, &given.estimated, &given.between)
}

// unsure reads a number that is written plainly, or in one of some ways with its uncertainty, which
// are the parts of a struct.
func (r *reader) unsure(x *float64, n *node, key string, plain quantity, given any, ways ...way) {
	if n.Kind != mappingNode {
		r.quantity(n, key, plain)
		return
	}
	if r.inside(n, key, given); r.spoilt(n) {
		return
	}
	if isReference(n) {
		if c := r.standing(n, key); c != nil {
			r.unsure(x, c, key, plain, given, ways...)
			r.bad[n] = r.spoilt(c)
		}
		return
	}
	if sameKeys(n, []string{"low", "high"}) {
		r.note(n, noLikely, key)
		return
	}
	var wanted []string
	for _, w := range ways {
		if sameKeys(n, w.keys()) {
			r.believe(x, n, key, w.prior())
			return
		}
		wanted = append(wanted, model.Listed(w.keys()))
	}
	found := "is an empty mapping"
	if keys := keysOf(n); len(keys) > 0 {
		found = "has " + model.Listed(keys)
	}
	r.note(n, "%s %s, want a plain value, or with its uncertainty %s", key, found, strings.Join(wanted, ", or else "))
}

// noLikely says what a range lacks that has ends alone. It is not taken for a uniform one: how likely what
// lies between the ends is, is for those to say who know the line, and a mean follows from it.
const noLikely = "%s has low and high: add the likeliest value between them, such as {low: 1, likely: 2, high: 3}; where none is likelier than another, write the middle"

// sameKeys reports whether a mapping, which has none twice, has these keys in any order, and
// perhaps what it is the same as.
func sameKeys(n *node, keys []string) bool {
	own := keysOf(without(n, sameAs))
	return len(own) == len(keys) && !slices.ContainsFunc(own, func(k string) bool { return !slices.Contains(keys, k) })
}

// believe takes a number with what is believed of it, or notes why nobody can.
func (r *reader) believe(x *float64, n *node, key string, of output.Prior) {
	if err := of.Check(); err == nil {
		*x, r.priors[n] = of.Nominal(), of
		return
	}
	part := func(key string) string { return shown(child(n, key)) }
	switch of := of.(type) {
	case output.Counted:
		if of.Seen <= of.Of {
			r.note(n, "%s is counted in %s, want at least the %s that these are worth", key, part("counted"), part("of"))
			return
		}
		r.note(n, "%s was seen %s times in %s, want at most %[3]s", key, part("seen"), part("of"))
	case output.About:
		r.note(n, "%s is about %s with a standard error of %s, want one above 0 and at most as large: what is certain is written plainly", key, part("about"), part("se"))
	default:
		r.note(n, "%s is from %s, likely %s, to %s, want them rising: what is certain is written plainly", key, part("low"), part("likely"), part("high"))
	}
}
