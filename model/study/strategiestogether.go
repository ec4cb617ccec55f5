package study

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// StrategiesTogether asks what each of several lines that share a crew should answer to which fault.
//
// Their strategies together are too many to look at each, so the lines are asked one after the other,
// each as [Strategies] does while the others have the best found so far: what it may have is chosen
// on paper, and simulated with the crew that all share. A line is asked again when another has changed
// since. All turns run the same shifts. The search ends where no change at one line helps: that is no
// proof over all combinations, and changes at two lines at once may deliver more. What was found and
// what the lines have are then set side by side in other shifts: those that made the choice would
// flatter it.
type StrategiesTogether struct {
	Group        *model.LineGroup
	MaxDefective *float64 // as in [Strategies], of the envelopes of each line; nil for what each line's own delivers
	AllowUnread  bool
	Never        []model.Forbidden  // at no line
	Volumes      map[string]float64 // good envelopes a year, by the name of the line; 0 if it is not known
	Plan         sim.Plan
}

// StrategiesTogetherAnswer is what the lines are to answer, and what that earns.
type StrategiesTogetherAnswer struct {
	Settings Settings `json:"settings"` // of the search
	Basis    Basis    `json:"rests_on"`

	Lines []StrategiesTogetherLine `json:"lines"` // each as it was asked last, with all others as they were found
	Turns []StrategiesTogetherTurn `json:"turns"`

	Combinations Number `json:"combinations"` // of the strategies that the lines can have
	Simulated    int    `json:"combinations_simulated"`

	Judged  Settings    `json:"judged_in"` // the other shifts
	Own     NetRate     `json:"own_net_rate"`
	NetRate NetRate     `json:"net_rate"`       // with what was found
	Gain    *Difference `json:"gain,omitempty"` // nil where the lines are to keep what they have

	Study *runs.Study `json:"-"` // of the lines as they are, in the other shifts
}

// StrategiesTogetherLine is what one of the lines is to answer. Net rates are those of all lines.
type StrategiesTogetherLine struct {
	Name string `json:"line"`
	*StrategiesAnswer
}

// StrategiesTogetherTurn is one line asked once.
type StrategiesTogetherTurn struct {
	Line      string  `json:"line"`
	Simulated int     `json:"strategies"`
	Otherwise string  `json:"otherwise"` // what it answers from then on otherwise than the line's own; "" for that
	Changed   bool    `json:"changed"`   // from what it had so far
	NetRate   NetRate `json:"net_rate"`  // of all lines, in the shifts of the search
}

// strategiesTogether is a search under way.
type strategiesTogether struct {
	*StrategiesTogether
	file    *model.LineGroup    // the lines with their own strategies
	found   []model.Strategy    // of each the best so far
	answers []*StrategiesAnswer // of each the last
	seen    map[string]bool     // the combinations that were simulated
	turns   []StrategiesTogetherTurn
}

// Breach returns why the lines cannot do without what is forbidden, as a sentence; "" if they can.
func (q *StrategiesTogether) Breach() string {
	for _, l := range q.Group.Lines {
		if why := l.Breach(q.Never); why != "" {
			return l.Name + ": " + why
		}
	}
	return ""
}

// Ask searches. After each shift of a turn it calls told, if there is one; there is no answer so far.
//
// When ctx is cancelled there is no answer: of half a search nothing is known to be the best. The
// answer is the same bit for bit for any number of workers.
func (q StrategiesTogether) Ask(ctx context.Context, told func(Sofar[StrategiesTogetherAnswer])) (*StrategiesTogetherAnswer, error) {
	if q.Group == nil || len(q.Group.Lines) == 0 {
		return nil, errors.New("strategies together are of several lines with one crew; those of one line are its own")
	}
	if why := q.Breach(); why != "" {
		return nil, fmt.Errorf("what is forbidden cannot be avoided: %s", why)
	}
	file := works{runs.Work{Group: q.Group}}
	means, err := file.atMeans()
	if err != nil {
		return nil, err
	}
	s := &strategiesTogether{StrategiesTogether: &q, file: means[0].Group, seen: map[string]bool{}}
	if err := s.search(ctx, told); err != nil || ctx.Err() != nil {
		return nil, err
	}
	return s.judge(ctx, s.answer(file.basis()), told)
}

// search asks line after line until no change at one of them helps.
func (s *strategiesTogether) search(ctx context.Context, told func(Sofar[StrategiesTogetherAnswer])) error {
	for _, l := range s.file.Lines {
		s.found = append(s.found, l.AttendedBy(s.file.Crew).AsItStands().Strategy())
	}
	s.answers = make([]*StrategiesAnswer, len(s.found))
	led := map[string]bool{combination(s.found): true}
	for i, current := 0, 0; current < len(s.found); i = (i + 1) % len(s.found) {
		changed, err := s.turn(ctx, i, told)
		if err != nil || ctx.Err() != nil {
			return err
		}
		current++
		if changed {
			current = 1 // what the others were asked was with another strategy of this line
			if led[combination(s.found)] {
				return errors.New("the search goes in a circle: what a line may deliver defective is so near its limit that the others decide whether it is within; allow a little more or a little less")
			}
			led[combination(s.found)] = true
		}
	}
	return nil
}

// turn asks one line, and reports whether it is to answer otherwise than so far.
func (s *strategiesTogether) turn(ctx context.Context, i int, told func(Sofar[StrategiesTogetherAnswer])) (bool, error) {
	var progress func(Sofar[StrategiesAnswer])
	if told != nil {
		progress = func(so Sofar[StrategiesAnswer]) {
			told(Sofar[StrategiesTogetherAnswer]{Done: so.Done, Most: so.Most, Expected: so.Expected, Lines: so.Lines, Answer: noneSoFar})
		}
	}
	line, group := s.file.Lines[i], s.group()
	group.Lines[i] = line // its own strategy is what others are set beside
	a, err := Strategies{
		Line: line, Group: group, MaxDefective: s.MaxDefective, AllowUnread: s.AllowUnread, Never: s.Never,
		Volume: s.Volumes[line.Name], Plan: s.Plan,
	}.Ask(ctx, progress)
	if err != nil || a == nil {
		return false, err
	}
	tried := slices.Clone(s.found)
	for _, x := range a.Strategies {
		tried[i] = x.Strategy
		s.seen[combination(tried)] = true
	}
	best := a.Leading()
	changed := !slices.Equal(s.found[i], best.Strategy)
	s.found[i], s.answers[i] = best.Strategy, a
	s.turns = append(s.turns, StrategiesTogetherTurn{line.Name, len(a.Strategies), best.Otherwise, changed, best.NetRate})
	return changed, nil
}

// group returns the lines with the best strategies so far.
func (s *strategiesTogether) group() *model.LineGroup {
	group := &model.LineGroup{Crew: s.file.Crew}
	for i, l := range s.file.Lines {
		group.Lines = append(group.Lines, l.AttendedBy(group.Crew).AsItStands().Answering(s.found[i])[0])
	}
	return group
}

// combination returns a key for a strategy of each line.
func combination(of []model.Strategy) string { return fmt.Sprint(of) }

func noneSoFar() *StrategiesTogetherAnswer { return nil }

// answer returns what the search found.
func (s *strategiesTogether) answer(basis Basis) *StrategiesTogetherAnswer {
	a := &StrategiesTogetherAnswer{Settings: s.answers[0].Settings, Basis: basis, Turns: s.turns, Combinations: 1, Simulated: len(s.seen)}
	for i, x := range s.answers {
		x.Basis = basis
		a.Lines = append(a.Lines, StrategiesTogetherLine{s.file.Lines[i].Name, x})
		a.Combinations *= x.OnPaper.Considered
	}
	return a
}

// judge sets what was found beside the lines as they are, in other shifts than those of the search.
func (s *strategiesTogether) judge(ctx context.Context, a *StrategiesTogetherAnswer, told func(Sofar[StrategiesTogetherAnswer])) (*StrategiesTogetherAnswer, error) {
	plan, both := s.Plan, works{{Group: s.file}}
	plan.Seed++
	if a.Changed() != nil {
		both = append(both, runs.Work{Group: s.group()})
	}
	studies, err := together(ctx, both, plan, func([]*runs.Study) *StrategiesTogetherAnswer { return nil }, told)
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	a.Study = studies[0]
	a.Judged = SettingsOf(plan, len(a.Study.Shifts), a.Study.Ending)
	a.Own, a.NetRate = NetRateOf(a.Study), NetRateOf(studies[len(studies)-1])
	if len(studies) == 2 {
		a.Gain = DifferenceOf(Pairwise([]sim.Sample{a.Study.NetRates(), studies[1].NetRates()})[0][1])
	}
	return a, nil
}

// Changed returns the names of the lines that are to answer otherwise than they do.
func (a *StrategiesTogetherAnswer) Changed() (names []string) {
	for _, l := range a.Lines {
		if l.Leader != 0 {
			names = append(names, l.Name)
		}
	}
	return names
}
