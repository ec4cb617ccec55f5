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

	work  Work
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
// time, and runs the plan of all these lines together. Of a mix the line is
// set up for each job before the parameter is moved in all of them, and the net rate is that of the
// jobs together: see [Mixed]. Lines that share a crew have their own parameters and those of the crew,
// and the net rate is that of all of them. All intervals are right at once with a probability of at least
// level. After each replication, in order, it calls watch, if there is one, with what returns the
// effects so far; that is to be called before watch returns.
//
// A parameter of which the shifts saw nothing has an effect of 0 ± 0: that is all they can say.
func Sensitivities(
	ctx context.Context, w Work, plan sim.Plan, factor, level float64,
	watch func(replication int, soFar func() *Sensitivity),
) (*Sensitivity, error) {
	s := moves(w, factor)
	works := []Work{w}
	for _, m := range s.possible() {
		works = append(works, m.work)
	}
	all := besides(works, plan)
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

// moves prepares all effects.
func moves(w Work, factor float64) *Sensitivity {
	s := &Sensitivity{Factor: factor}
	parameters := w.parameters()
	for _, v := range parameters {
		s.Effects = append(s.Effects, effect(w, "", []model.Parameter{v}, factor))
	}
	for _, k := range kinds {
		others := func(v model.Parameter) bool { return !slices.Contains(k.parameters, kindOf(v)) }
		if own := slices.DeleteFunc(slices.Clone(parameters), others); len(own) > 1 {
			s.Kinds = append(s.Kinds, effect(w, k.name, own, factor))
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

// parameters returns the parameters that a line has at any of its jobs, each once; of lines that share
// a crew those of each, and of the crew.
func (w Work) parameters() (all []model.Parameter) {
	lines := w.Lines()
	for _, l := range lines {
		for _, v := range l.Parameters() {
			if w.Group != nil && !model.OfCrew(v.Station, v.Name) {
				v.Line = l.Name
			}
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

// has returns a parameter as a line has it; false if it has none, or if it is another line's.
func has(l *model.Line, v model.Parameter) (model.Parameter, bool) {
	if v.Line != "" && v.Line != l.Name {
		return v, false
	}
	return l.Parameter(v.OnLine().Path())
}

// valueIn returns the value of a parameter of a line, at all jobs that have it.
func valueIn(lines []*model.Line, v model.Parameter) string {
	value := ""
	for _, l := range lines {
		if own, has := has(l, v); has {
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
func effect(w Work, kind string, parameters []model.Parameter, factor float64) Effect {
	return Effect{Kind: kind, Parameters: parameters, Lower: move(w, parameters, 1/factor), Higher: move(w, parameters, factor)}
}

// move moves some parameters at all jobs, or of all lines, that have them.
func move(w Work, parameters []model.Parameter, factor float64) Move {
	lines := w.Lines()
	for i := range lines {
		for _, v := range parameters {
			if own, has := has(lines[i], v); has {
				lines[i] = lines[i].Moved(own, factor)
			}
		}
	}
	m := Move{work: w.With(lines)}
	if len(parameters) == 1 {
		m.Value = valueIn(lines, parameters[0])
	}
	m.Impossible = errors.Join(m.work.Check()...)
	return m
}

// Lines returns how many lines are run in each replication, the line as it is among them, each at each
// of its jobs.
func (s *Sensitivity) Lines() (n int) {
	for _, m := range s.possible() {
		n += len(m.work.Lines())
	}
	if len(s.Effects) > 0 {
		n += len(s.Effects[0].Lower.work.Lines())
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
