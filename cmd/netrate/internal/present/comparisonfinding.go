package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// ComparisonFinding returns what a comparison came to, in words. What qualifies it is a
// paragraph of its own.
func ComparisonFinding(a *study.ComparisonAnswer) string {
	return comparisonFound(a) + comparisonPlanned(a)
}

// comparisonPlanned names the variants that change nothing of a line, but when it works; after an empty line, nothing
// if there are none.
func comparisonPlanned(a *study.ComparisonAnswer) string {
	var names []string
	for i, x := range a.Lines {
		elsewhere := func(change string) bool {
			return !strings.HasPrefix(change, "plan.") && !strings.HasPrefix(change, "season.")
		}
		if len(x.Changes) > 0 && !slices.ContainsFunc(x.Changes, elsewhere) {
			names = append(names, ComparisonCalled(a, i))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return "\n\n" + say.Capital(names[0]) + " changes the plan alone, which plays no part here: it is as the base."
	}
	return "\n\n" + say.Capital(say.List(names)) + " change the plan alone, which plays no part here: they are as the base."
}

func comparisonFound(a *study.ComparisonAnswer) string {
	switch {
	case a.Selection != nil:
		return comparisonSelected(a)
	case a.Uncertainty != nil:
		return comparisonDrawn(a)
	case len(a.Lines[0].Study.Shifts) < 2:
		return "One " + ComparisonPeriod(a) + " alone shows no difference."
	case a.Best.Shown:
		return comparisonBest(a)
	}
	return comparisonOpen(a)
}

// comparisonBest names the best.
func comparisonBest(a *study.ComparisonAnswer) string {
	p := a.Compared[a.Rival][a.Leader]
	more := "more than " + ComparisonCalled(a, a.Rival)
	if a.Leader == 0 && len(a.Lines) > 2 {
		more += ", the next"
	}
	return fmt.Sprintf("%s delivers most: %s, %s %s (95 %%%s), better in %s %ss.",
		say.Capital(ComparisonCalled(a, a.Leader)), NetRateWords(a.Lines[a.Leader].NetRate), say.Size(p.Difference), more,
		ComparisonAtOnce(a), winsOf(p.Wins), ComparisonPeriod(a))
}

// winsOf returns in which share of the shifts one is better, before their name.
func winsOf(share float64) string {
	switch share {
	case 0:
		return "no"
	case 1:
		return "all"
	}
	return wins(share) + " of"
}

// wins returns likewise what a table has: what was counted in some shifts is no certainty.
func wins(share float64) string {
	switch {
	case share == 0:
		return "none"
	case share == 1:
		return "all"
	case share < 0.005:
		return "under 1 %"
	case share > 0.995:
		return "over 99 %"
	}
	return say.Percent(share, 0.01)
}

// comparisonDrawn says which leads in the long run, by how much, and how probable it is that each is
// the best, where draws of what is uncertain lead.
func comparisonDrawn(a *study.ComparisonAnswer) string {
	leader, u := say.Capital(ComparisonCalled(a, a.Leader)), a.Uncertainty
	verb := "leads, but is not sure to deliver most"
	if a.Best.Shown {
		verb = "delivers most"
	}
	known, ahead := UncertaintyIn(u.Lines[a.Leader].NetRate), UncertaintyIn(u.Rival.Uncertainty)
	text := fmt.Sprintf("%s %s: %s good envelopes an hour in the long run (95 %%: %s), %s more than %s (95 %%: %s).",
		leader, verb, known.mean(), fromTo(UncertaintyEnds(known.longRun())), ahead.mean(), ComparisonCalled(a, a.Rival), say.WithMinus(fromTo(signedEnds(ahead.longRun()))))
	return text + " " + comparisonChances(a)
}

// comparisonChances says how probable it is that each is the best of all.
func comparisonChances(a *study.ComparisonAnswer) string {
	u := a.Uncertainty
	var chances []string
	for n, i := range append([]int{a.Leader}, comparisonOthers(a)...) {
		if n > mostChances || n > 1 && u.Lines[i].Best < leastSource {
			break
		}
		chances = append(chances, chance(u.Lines[i].Best, u.Rival.Draws)+" for "+ComparisonCalled(a, i))
	}
	return fmt.Sprintf("The probability of delivering most is %s, allowing for %s.", strings.Join(chances, ", "), say.Plural(a.Basis.Inputs, "uncertain input"))
}

// mostChances is the most alternatives, besides the leader, of which a sentence tells the probability.
const mostChances = 4

// comparisonOthers returns all but the leader, those that are likeliest to be the best first.
func comparisonOthers(a *study.ComparisonAnswer) []int {
	others := slices.Delete(page.All(len(a.Lines)), a.Leader, a.Leader+1)
	slices.SortStableFunc(others, func(i, k int) int {
		return cmp.Compare(a.Uncertainty.Lines[k].Best, a.Uncertainty.Lines[i].Best)
	})
	return others
}

// chance returns a probability that was counted in draws, which cannot show a certainty.
func chance(p study.Number, draws int) string {
	least := 3 / float64(draws) // of none among them, with 95 %: see [noneDefective]
	switch {
	case float64(p) < least:
		return "under " + say.Percent(max(least, 0.01), 0.01)
	case float64(p) > 1-least:
		return "over " + say.Percent(min(1-least, 0.99), 0.01)
	}
	return uncertainShare(p)
}

// comparisonOpen says which may be the best.
func comparisonOpen(a *study.ComparisonAnswer) string {
	var others []string
	for _, i := range a.Candidates {
		if i != a.Leader {
			others = append(others, ComparisonCalled(a, i))
		}
	}
	if n := len(others); n > 4 {
		others = append(others[:3], fmt.Sprintf("%d others", n-3))
	}
	text := fmt.Sprintf("No %s is shown to deliver most (95 %%%s): %s leads with %s, and %s may deliver as much.",
		ComparisonWord(a), ComparisonAtOnce(a), ComparisonCalled(a, a.Leader), NetRateWords(a.Lines[a.Leader].NetRate), say.List(others))
	if p := a.Compared[0][a.Leader]; a.Leader != 0 && p.Difference.Low() > 0 {
		text += fmt.Sprintf("\n\n%s is %s behind.", say.Capital(ComparisonCalled(a, 0)), say.Size(p.Difference))
	}
	return text
}

// comparisonSelected says what a selection came to, and what that is worth.
func comparisonSelected(a *study.ComparisonAnswer) string {
	s := a.Selection
	best, rate := ComparisonCalled(a, s.Best), NetRateWords(a.Lines[s.Best].NetRate)
	worth, sure := say.Exact(float64(s.Indifference))+" an hour or more", say.Exact(100*float64(s.Confidence))+" %"
	if s.Usual {
		worth += " (1 % of the base on paper)"
	}
	if s.Promised {
		return fmt.Sprintf("%s is chosen as the best, with %s.\n\nThe choice is right with a probability of %s or more "+
			"if the best line is ahead of every other by %s; smaller differences are ignored.",
			say.Capital(best), rate, sure, worth)
	}
	var left []string
	for _, i := range s.Left {
		if i != s.Best {
			left = append(left, ComparisonCalled(a, i))
		}
	}
	are := " are"
	if len(left) == 1 {
		are = " is"
	}
	text := fmt.Sprintf("NOT DECIDED after %s: %s leads with %s, and %s still in the selection for %s.\n\nNothing is promised.",
		say.Plural(s.Done, ComparisonPeriod(a)), best, rate, say.List(left)+are, worth)
	if s.Done < s.First {
		text += fmt.Sprintf(" The first %s of each show how much they vary; before that none is dropped.", say.Plural(s.First, ComparisonPeriod(a)))
	}
	return text
}

// ComparisonHeadline returns what it came to in few words.
func ComparisonHeadline(a *study.ComparisonAnswer) string {
	leader := say.Capital(ComparisonCalled(a, a.Leader))
	switch {
	case a.Selection != nil && a.Best.Shown:
		return fmt.Sprintf("%s is chosen as the best", leader)
	case a.Uncertainty != nil:
		return fmt.Sprintf("%s delivers most with a probability of %s", leader, chance(*a.Best.Probability, a.Uncertainty.Rival.Draws))
	case a.Best.Shown:
		return fmt.Sprintf("%s delivers most, %s an hour more than %s", leader,
			say.Size(a.Compared[a.Rival][a.Leader].Difference), ComparisonCalled(a, a.Rival))
	}
	if a.Selection == nil { // there are no pairs of a selection
		if d := a.Compared[a.Rival][a.Leader].Difference; d.Mean == 0 && d.Half == 0 {
			return fmt.Sprintf("No difference: %s delivers what %s delivers, %[3]s by %[3]s", ComparisonCalled(a, a.Leader), ComparisonCalled(a, a.Rival), ComparisonPeriod(a))
		}
	}
	return fmt.Sprintf("%s leads, but is not shown to deliver most", leader)
}

// ComparisonWhy says what makes most of the difference between the leader and its rival.
func ComparisonWhy(a *study.ComparisonAnswer) string {
	change, more := gainOf(a).Shown, "more"
	if less, behind := strings.CutPrefix(change, "−"); behind {
		change, more = less, "less"
	}
	text := fmt.Sprintf("%s delivers %s an hour %s than %s", say.Capital(ComparisonCalled(a, a.To)), strings.TrimPrefix(change, "+"), more, ComparisonCalled(a, a.From))
	text += comparisonUnsure(a)
	var reasons []string
	for _, s := range a.Ranked()[:2] {
		if math.Abs(s.Change) >= 0.5 {
			reasons = append(reasons, comparisonStep(s))
		}
	}
	if len(reasons) > 0 {
		text += ": " + strings.Join(reasons, "; ")
	}
	return text + "."
}

// comparisonUnsure says of a gain that is not shown that it is not; "" of one that is.
func comparisonUnsure(a *study.ComparisonAnswer) string {
	if a.Selection != nil || a.Compared[a.From][a.To].Difference.Shown() {
		return ""
	}
	return ", which is not shown to be a difference (95 %)"
}

// comparisonStep says what a step gains.
func comparisonStep(s study.ComparisonStep) string {
	amount := say.Rounded(math.Abs(s.Change), 0)
	switch {
	case s.Name == study.MeanSpeed:
		return "over the time of its jobs it runs on average at " + say.Signed(s.Change) + " an hour"
	case s.Name == study.OwnSpeed && s.Change > 0:
		return "it runs " + amount + " an hour faster"
	case s.Name == study.OwnSpeed:
		return "it runs " + amount + " an hour slower"
	case s.Change > 0:
		return "it loses " + amount + " an hour less (" + s.Name + ")"
	}
	return "it loses " + amount + " an hour more (" + s.Name + ")"
}

// ComparisonCalled returns what an alternative is called in a sentence.
func ComparisonCalled(a *study.ComparisonAnswer, i int) string { return a.Lines[i].Of.InWords() }

// ComparisonWord returns what an alternative is: a line, or a configuration of several with one
// crew.
func ComparisonWord(a *study.ComparisonAnswer) string {
	if a.Lines[0].Of.Group != nil {
		return "configuration"
	}
	return "line"
}

// ComparisonPeriod returns what one replication is: a shift, or a job; a replication where that
// differs between the lines.
func ComparisonPeriod(a *study.ComparisonAnswer) string {
	base := page.Period(a.Lines[0].Study.Line)
	for i := range a.Lines {
		if page.Period(a.Lines[i].Study.Line) != base {
			return "replication"
		}
	}
	return base
}

// ComparisonAtOnce says that intervals are right together, where there are several.
func ComparisonAtOnce(a *study.ComparisonAnswer) string {
	if len(a.Lines) == 2 {
		return ""
	}
	if a.Uncertainty != nil {
		return ", of each by itself"
	}
	return ", all comparisons at once"
}

// ComparisonLeader returns what the one with the largest mean is called in a table: the best is another where
// there are costs.
func ComparisonLeader(a *study.ComparisonAnswer) string {
	switch {
	case !a.Best.Shown:
		return "leader"
	case a.Money != nil:
		return "fastest"
	}
	return "best"
}

// NetRateWords returns a net rate in words.
func NetRateWords(r study.NetRate) string {
	return netRate(r) + " good envelopes an hour"
}
