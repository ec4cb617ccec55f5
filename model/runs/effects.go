package runs

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// Sensitivity is what each rate and duration of a line does to its net rate, each moved by
// itself and all on common random numbers.
type Sensitivity struct {
	Factor  float64  // by which each was divided, and multiplied
	Base    *Study   // the line as it is
	Effects []Effect // of each parameter, first the one that gains most when it is divided
	Kinds   []Effect // of all parameters of a kind at once, if there are several; in the same order
}

// Effect is what moving a parameter does, or all parameters of a kind.
type Effect struct {
	Kind       string // such as "jams"; "" for a single parameter
	Parameters []model.Parameter
	Lower      Move // divided by the factor
	Higher     Move // multiplied by it
	Rival      bool // of a parameter: not shown to gain less than the first, when it is divided
}

// Move is what one move does.
type Move struct {
	Value      string            // of a single parameter, once moved
	Impossible error             // why the line cannot be so; it is nil if it was simulated
	NetRate    output.Comparison // with the line as it is, good envelopes an hour

	line  *model.Line
	rates sim.Sample
}

// kinds are the parameters that are also moved at once, by their names.
var kinds = []struct {
	name       string
	parameters []string
}{
	{"misfeeds", []string{"misfeed", "envelope_misfeed"}},
	{"doubles", []string{"double"}},
	{"jams", []string{"jam"}},
	{"clearing times", []string{"clear"}},
	{"refilling and emptying times", []string{"hopper.refill", "bin.empty", "belt.sweep"}},
}

// Sensitivities divides and multiplies every parameter of a line by a factor above 1, one at a
// time, and runs the plan of all these lines together. All intervals are right at once with
// a probability of at least level. After each replication, in order, it calls watch, if
// there is one, with what returns the effects so far; that is to be called before watch returns.
//
// A parameter of which the shifts saw nothing has an effect of 0 ± 0: that is all they can say.
func Sensitivities(
	ctx context.Context, l *model.Line, plan sim.Plan, factor, level float64,
	watch func(replication int, soFar func() *Sensitivity),
) (*Sensitivity, error) {
	s := moves(l, factor)
	lines := []*model.Line{l}
	for _, m := range s.possible() {
		lines = append(lines, m.line)
	}
	all := &beside{base: &Study{Line: l, Plan: plan}, lines: lines, rates: make([]sim.Sample, len(lines))}
	var each func(int)
	if watch != nil {
		each = func(replication int) {
			watch(replication, func() *Sensitivity { return s.judged(all.base.Kept(), all.rates, level) })
		}
	}
	if err := all.run(ctx, each); err != nil {
		return nil, err
	}
	return s.judged(all.base, all.rates, level), nil
}

// moves prepares all effects of a line.
func moves(l *model.Line, factor float64) *Sensitivity {
	s := &Sensitivity{Factor: factor}
	parameters := l.Parameters()
	for _, v := range parameters {
		s.Effects = append(s.Effects, effect(l, "", []model.Parameter{v}, factor))
	}
	for _, k := range kinds {
		others := func(v model.Parameter) bool { return !slices.Contains(k.parameters, kindOf(v)) }
		if own := slices.DeleteFunc(slices.Clone(parameters), others); len(own) > 1 {
			s.Kinds = append(s.Kinds, effect(l, k.name, own, factor))
		}
	}
	return s
}

// kindOf returns the name of a parameter; of the clearing time of one fault that of the usual one.
func kindOf(v model.Parameter) string {
	if model.IsClearing(v.Name) {
		return "clear"
	}
	return v.Name
}

// judged returns what the effects come to: the first net rates are those of the line as it is, the
// others are those of the possible moves, in order.
func (s *Sensitivity) judged(base *Study, rates []sim.Sample, level float64) *Sensitivity {
	found := &Sensitivity{Factor: s.Factor, Base: base, Effects: slices.Clone(s.Effects), Kinds: slices.Clone(s.Kinds)}
	compare(rates, found.possible(), level)
	for _, effects := range [][]Effect{found.Effects, found.Kinds} {
		slices.SortStableFunc(effects, func(a, b Effect) int {
			return cmp.Compare(b.Lower.NetRate.Difference.Mean, a.Lower.NetRate.Difference.Mean)
		})
	}
	found.compareParameters(level)
	return found
}

// effect prepares the two moves of some parameters.
func effect(l *model.Line, kind string, parameters []model.Parameter, factor float64) Effect {
	return Effect{Kind: kind, Parameters: parameters, Lower: move(l, parameters, 1/factor), Higher: move(l, parameters, factor)}
}

func move(l *model.Line, parameters []model.Parameter, factor float64) Move {
	m := Move{line: l}
	for _, v := range parameters {
		m.line = m.line.Moved(v, factor)
	}
	if len(parameters) == 1 {
		m.Value = parameters[0].In(m.line).Value
	}
	m.Impossible = errors.Join(m.line.Check()...)
	return m
}

// possible returns the moves that can be simulated.
func (s *Sensitivity) possible() []*Move {
	var all []*Move
	for _, effects := range [][]Effect{s.Effects, s.Kinds} {
		for i := range effects {
			for _, m := range []*Move{&effects[i].Lower, &effects[i].Higher} {
				if m.Impossible == nil {
					all = append(all, m)
				}
			}
		}
	}
	return all
}

// compare fills in what the moves do: the first net rates are those of the line as it is, the
// others are those of the moves, in order.
func compare(rates []sim.Sample, moves []*Move, level float64) {
	var pairs [][2]int
	for i := range moves {
		pairs = append(pairs, [2]int{0, i + 1})
	}
	for i, c := range output.Pairwise(rates, pairs, level) {
		moves[i].NetRate, moves[i].rates = c, rates[i+1]
	}
}

// compareParameters sets the first effect against the others. The parameter that truly gains most is
// the first or one of its rivals with a probability of at least level, though it is the
// shifts that say which one is the first: for it to be neither, one of the intervals of the
// others against it would have to be wrong, and there are no more of them than pairs here.
func (s *Sensitivity) compareParameters(level float64) {
	var rates []sim.Sample
	var pairs [][2]int
	var others []*Effect
	for i := range s.Effects {
		x := &s.Effects[i]
		if x.Lower.Impossible != nil {
			continue
		}
		rates = append(rates, x.Lower.rates)
		if len(rates) > 1 {
			pairs = append(pairs, [2]int{len(rates) - 1, 0})
			others = append(others, x)
		}
	}
	for i, c := range output.Pairwise(rates, pairs, level) {
		others[i].Rival = !(c.Difference.Low() > 0)
	}
}
