package study

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
)

// DesignTurn is the design that is advised, with one choice taken otherwise and all else as it is.
type DesignTurn struct {
	Option  string        `json:"option"`
	Taken   string        `json:"taken"`
	Instead string        `json:"instead"`
	Without []string      `json:"without,omitempty"` // choices that had to go with it, since they need what was taken
	Why     string        `json:"cannot_be,omitempty"`
	Price   Number        `json:"price"`             // of what is then chosen, against that of the advice
	Change  *Mean         `json:"change,omitempty"`  // of the goal's figure, against the advice; all intervals right at once. nil if it cannot be, and with DesignOperators
	Verdict DesignVerdict `json:"verdict,omitempty"` // on the choice that was taken

	Operators int         `json:"operators,omitempty"`      // with DesignOperators: of what is then chosen
	Reaches   *Proportion `json:"reaches_target,omitempty"` // likewise, the share of its shifts; all intervals right at once
}

// DesignVerdict is how sure a choice of the advice is.
type DesignVerdict string

// The verdicts.
const (
	DesignCertain DesignVerdict = "certain" // the other is shown to be worse, and not shown to be so by less than matters
	DesignSmall   DesignVerdict = "small"   // what lies between them is shown to be less than matters, whichever is better
	DesignTossUp  DesignVerdict = "toss-up" // neither
	DesignBetter  DesignVerdict = "better"  // the other is shown to be better, likewise
)

// designVerdict returns how sure it is that a choice is better than another, by what lies between them.
func designVerdict(low, high, matters float64) DesignVerdict {
	switch {
	case low >= -matters && high <= matters:
		return DesignSmall
	case low > 0:
		return DesignCertain
	case high < 0:
		return DesignBetter
	default:
		return DesignTossUp
	}
}

// turned is a design that differs from another in one choice, and in those that need it.
type turned struct {
	candidate
	turn DesignTurn
}

// turns simulates the design that is advised with each of its choices taken otherwise, in the shifts of the
// comparison, which did not choose it, and with what is uncertain at its mean. Where no design has enough shifts
// that reach a target it says nothing: no choice is needed for what is not had.
func (s *designSearch) turns(ctx context.Context, a *DesignAnswer) ([]DesignTurn, error) {
	if !a.Reached {
		return nil, nil
	}
	all := s.turnedOf(s.advice)
	some := []*candidate{s.advice}
	for i := range all {
		if all[i].turn.Why == "" {
			some = append(some, &all[i].candidate)
		}
	}
	level := 1 - (1-Level)/float64(max(1, len(some)-1))
	scores, reached := make([]sim.Sample, len(some)), make([]Proportion, len(some))
	err := s.simulate(ctx, s.Plan, some, 0, max(2, s.Plan.Max), func(i int, study *runs.Study, x sim.Sample) {
		s.tell(i+1, len(some))
		scores[i] = slices.Clone(x)
		reached[i] = reachedWithin(study, s.Target, level)
	})
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	turns := make([]DesignTurn, len(all))
	next := 1
	for i := range all {
		switch turns[i] = all[i].turn; {
		case turns[i].Why != "":
			continue
		case s.Goal == DesignOperators:
			s.judgeEnough(&turns[i], &all[i].candidate, reached[next], a.Promised)
		default:
			s.judge(&turns[i], scores[0], scores[next], level)
		}
		next++
	}
	return turns, nil
}

// judge says what a turn of a design changes. Scores are the larger the better; a change is of the goal's figure,
// of which, in money, less is better.
func (s *designSearch) judge(t *DesignTurn, own, other sim.Sample, level float64) {
	e := scoresAbove(other, own).Interval(level)
	t.Verdict = designVerdict(-e.High(), -e.Low(), s.worth)
	if s.Goal.InMoney() {
		e.Mean = -e.Mean
	}
	t.Change = new(MeanOf(e))
}

// judgeEnough says what a turn of the design with the fewest operators comes to: it is worse if it is shown not to be
// enough, or if it has more operators or is dearer and the design is shown to be enough; it is better if it is shown to
// be enough and has fewer, or as many and is cheaper.
func (s *designSearch) judgeEnough(t *DesignTurn, other *candidate, reached Proportion, promised bool) {
	t.Operators, t.Reaches = other.operators, &reached
	more := cmp.Or(cmp.Compare(other.operators, s.advice.operators), cmp.Compare(other.price, s.advice.price))
	switch share := Number(s.Share); {
	case reached.High < share || more > 0 && promised:
		t.Verdict = DesignCertain
	case reached.Low >= share && more < 0:
		t.Verdict = DesignBetter
	case reached.Low >= share && more == 0:
		t.Verdict = DesignSmall
	default:
		t.Verdict = DesignTossUp
	}
}

// turnedOf returns a design with each of its choices taken otherwise.
func (s *designSearch) turnedOf(d *candidate) (all []turned) {
	for o := range s.Options {
		for k := range s.Options[o].Choices {
			if uint8(k) == d.choices[o] {
				continue
			}
			one := turned{candidate: candidate{choices: slices.Clone(d.choices)}}
			one.choices[o] = uint8(k)
			one.turn = DesignTurn{Option: s.Options[o].Name, Taken: s.Options[o].Choices[d.choices[o]].Name, Instead: s.Options[o].Choices[k].Name}
			one.turn.Without = s.drop(one.choices, o)
			for i, x := range one.choices {
				one.price += float64(s.Options[i].Choices[x].Price)
			}
			one.turn.Price = Number(one.price - d.price)
			one.turn.Why = s.whyNot(&one.candidate)
			all = append(all, one)
		}
	}
	return all
}

// drop takes the first choice of each option whose choice needs one that is not taken, but for one
// option, and returns the names of those that went.
func (s *designSearch) drop(choices []uint8, but int) (gone []string) {
	for again := true; again; {
		again = false
		taken := s.names(choices)
		for i, k := range choices {
			if i == but || k == 0 {
				continue
			}
			if x := &s.Options[i].Choices[k]; x.lacks(taken) != "" {
				choices[i], again = 0, true
				gone = append(gone, x.Name)
				break
			}
		}
	}
	return gone
}

// names returns the names of choices.
func (s *designSearch) names(choices []uint8) map[string]bool {
	taken := map[string]bool{}
	for i, k := range choices {
		taken[s.Options[i].Choices[k].Name] = true
	}
	return taken
}

// whyNot returns why a design cannot be had, or is outside the limits; "" if it can, and then what it
// is on paper is known.
func (s *designSearch) whyNot(x *candidate) string {
	taken := s.names(x.choices)
	for i, k := range x.choices {
		c := &s.Options[i].Choices[k]
		if n := c.lacks(taken); n != "" {
			return fmt.Sprintf("%s needs %s", c.Name, n)
		}
		for _, n := range c.Excludes {
			if taken[n] {
				return fmt.Sprintf("%s excludes %s", c.Name, n)
			}
		}
	}
	if above(s.Limits.Price, x.price) {
		return "too dear"
	}
	var p designPaper
	switch err := s.look(x.choices, &p); {
	case err != nil:
		return err.Error()
	case p.why != "":
		return p.why
	case p.broken != nil:
		return "it has " + hasTooMany(p.broken)
	}
	*x = x.on(p)
	return ""
}

// DesignVolume is which of the designs that were compared costs least at another yearly volume, and which is to be
// had there: of those that count as equal to it, and are within the limits, that with the fewest choices and, of these,
// the least price.
type DesignVolume struct {
	Times    Number `json:"times"` // the volume of the file
	Cheapest int    `json:"cheapest"`
	Advice   int    `json:"advised"`
	AllIn    Number `json:"all_in_per_1000"`
	OfAdvice Number `json:"all_in_per_1000_of_advice"`
	OfBase   Number `json:"all_in_per_1000_of_base"` // of the line as it is
}

// Pays reports whether the advice costs no more than buying nothing does: there nothing counts as equal.
func (v *DesignVolume) Pays() bool { return v.OfAdvice <= v.OfBase }

// designVolumes are the volumes at which the finalists are weighed again, as multiples of that of the file.
var designVolumes = []float64{0.5, 0.75, 1.5, 2}

// atVolumes weighs the finalists at other volumes. Nothing is simulated for it.
func (a *DesignAnswer) atVolumes() error {
	if a.Comparison.Money == nil || !a.Goal.InMoney() {
		return nil
	}
	for _, times := range designVolumes {
		c := *a.Comparison
		c.Lines, c.asked = slices.Clone(c.Lines), true
		w := Worth{Comparison: &c}
		for i := range c.Lines {
			costs := *c.Lines[i].Of.Costs
			scaleVolumes(&costs, times)
			c.Lines[i].Jobs, w.Costs = nil, append(w.Costs, &costs)
		}
		if w.Costs[0].Envelopes() == 0 || w.Costs[0].Check() != nil { // more than can be
			return nil
		}
		found, err := w.Ask()
		if err != nil || found == nil {
			return err
		}
		cost := func(line int) Number { return found.Lines[line].AllIn.Mean }
		a.Volumes = append(a.Volumes, DesignVolume{Number(times), found.Cheapest, a.advisedAt(found.Cheapest, cost), cost(found.Cheapest), cost(a.Advice), cost(0)})
	}
	return nil
}

// advisedAt returns what is to be had where a thousand envelopes cost otherwise, see [DesignVolume].
func (a *DesignAnswer) advisedAt(cheapest int, cost func(int) Number) int {
	advised := cheapest
	for i := range a.Finalists {
		x, y := &a.Finalists[i], &a.Finalists[advised]
		if x.Within && cost(i)-cost(cheapest) <= a.Indifference && cmp.Or(len(x.Choices)-len(y.Choices), cmp.Compare(x.Price, y.Price)) < 0 {
			advised = i
		}
	}
	return advised
}

// scaleVolumes makes costs those of some times as many envelopes a year, of all jobs alike.
func scaleVolumes(c *worth.Costs, times float64) {
	c.Volume = scaledValue(c.Volume, times)
	c.Volumes = maps.Clone(c.Volumes)
	for job, v := range c.Volumes {
		c.Volumes[job] = scaledValue(v, times)
	}
}

// scaledValue returns a value some times as large.
func scaledValue(v money.Value, times float64) money.Value {
	return money.Value{Low: v.Low * times, Likely: v.Likely * times, High: v.High * times}
}
