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

	lines []*model.Line // at each job; one if there is one kind of work
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
	{"refilling and emptying times", []string{"hopper.refill"}}, // and what else is work at a stock
}

// Sensitivities divides and multiplies every parameter of a line by a factor above 1, one at a
// time, and runs the plan of all these lines together. Of a mix, which is nil otherwise, the line is
// set up for each job before the parameter is moved in all of them, and the net rate is that of the
// jobs together: see [Mixed]. All intervals are right at once with a probability of at least
// level. After each replication, in order, it calls watch, if there is one, with what returns the
// effects so far; that is to be called before watch returns.
//
// A parameter of which the shifts saw nothing has an effect of 0 ± 0: that is all they can say.
func Sensitivities(
	ctx context.Context, l *model.Line, mix *Mix, plan sim.Plan, factor, level float64,
	watch func(replication int, soFar func() *Sensitivity),
) (*Sensitivity, error) {
	own := []*model.Line{l}
	if mix != nil {
		own = mix.Lines()
	}
	s := moves(own, factor)
	lines := [][]*model.Line{own}
	for _, m := range s.possible() {
		lines = append(lines, m.lines)
	}
	all := besides(mix, lines, plan)
	var each func(int)
	if watch != nil {
		each = func(replication int) {
			watch(replication, func() *Sensitivity { return s.judged(all.kept(), all.rates, level) })
		}
	}
	if err := all.run(ctx, each); err != nil {
		return nil, err
	}
	return s.judged(all.study(), all.rates, level), nil
}

// moves prepares all effects of a line, which is given at each of its jobs.
func moves(lines []*model.Line, factor float64) *Sensitivity {
	s := &Sensitivity{Factor: factor}
	parameters := parametersOf(lines)
	for _, v := range parameters {
		s.Effects = append(s.Effects, effect(lines, "", []model.Parameter{v}, factor))
	}
	for _, k := range kinds {
		others := func(v model.Parameter) bool { return !slices.Contains(k.parameters, kindOf(v)) }
		if own := slices.DeleteFunc(slices.Clone(parameters), others); len(own) > 1 {
			s.Kinds = append(s.Kinds, effect(lines, k.name, own, factor))
		}
	}
	return s
}

// kindOf returns the name that a parameter has in the lists of kinds: of a fault or a stock, whatever
// its station calls it, and of the clearing time of one fault that of the usual one.
func kindOf(v model.Parameter) string {
	fault, is := v.Fault()
	switch {
	case model.IsClearing(v.Name):
		return "clear"
	case v.Stock():
		return "hopper.refill"
	case is && fault == model.InsertionJam:
		return "jam"
	case is && fault != model.EnvelopeMisfeed:
		return fault.String()
	}
	return v.Name
}

// parametersOf returns the parameters that a line has at any of its jobs, each once.
func parametersOf(lines []*model.Line) (all []model.Parameter) {
	for _, l := range lines {
		for _, v := range l.Parameters() {
			if !slices.ContainsFunc(all, func(x model.Parameter) bool { return x.Path() == v.Path() }) {
				v.Value = valueIn(lines, v)
				all = append(all, v)
			}
		}
	}
	return all
}

// valueByJob stands for a value that differs from job to job.
const valueByJob = "by job"

// valueIn returns the value of a parameter of a line, at all jobs that have it.
func valueIn(lines []*model.Line, v model.Parameter) string {
	value := ""
	for _, l := range lines {
		if own, has := l.Parameter(v.Path()); has {
			if value != "" && value != own.Value {
				return valueByJob
			}
			value = own.Value
		}
	}
	return value
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
func effect(lines []*model.Line, kind string, parameters []model.Parameter, factor float64) Effect {
	return Effect{Kind: kind, Parameters: parameters, Lower: move(lines, parameters, 1/factor), Higher: move(lines, parameters, factor)}
}

// move moves some parameters at all jobs that have them.
func move(lines []*model.Line, parameters []model.Parameter, factor float64) Move {
	var m Move
	var wrong []error
	for _, l := range lines {
		for _, v := range parameters {
			if own, has := l.Parameter(v.Path()); has {
				l = l.Moved(own, factor)
			}
		}
		m.lines, wrong = append(m.lines, l), append(wrong, l.Check()...)
	}
	if len(parameters) == 1 {
		m.Value = valueIn(m.lines, parameters[0])
	}
	m.Impossible = errors.Join(wrong...)
	return m
}

// Lines returns how many lines are run in each replication, the line as it is among them, each at each
// of its jobs.
func (s *Sensitivity) Lines() (n int) {
	for _, m := range s.possible() {
		n += len(m.lines)
	}
	if len(s.Effects) > 0 {
		n += len(s.Effects[0].Lower.lines)
	}
	return n
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
