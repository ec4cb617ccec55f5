package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/sim"
)

// The answer of a comparison on a screen has a row for at most this many alternatives, and losses.
const (
	shownAlternatives = 9
	shownSteps        = 4
)

// Text returns what the comparison came to, on one screen if it can be.
func (c Comparison) Text() string {
	var b strings.Builder
	b.WriteString(say.Wrapped(c.title(), say.Screen()) + "\n")
	found := ComparisonFinding(c.ComparisonAnswer)
	if c.Money != nil {
		found = strings.TrimSpace(c.headline()+" "+c.targetWords()) + " " + found
	} else if own := c.asked(false); own != "" {
		found = own + " " + found
	}
	b.WriteString(say.Wrapped(found, say.Prose()) + "\n")
	b.WriteString(c.which() + c.uncertaintyBlock() + c.worthBlock())
	rest := "\n" + brief(comparisonSteps(c.ComparisonAnswer, stepsOnScreen(c.ComparisonAnswer))) + "\n" + c.ending()
	if changes := c.changes(); strings.Count(b.String()+changes+rest, "\n") <= say.ScreenLines {
		b.WriteString(changes)
	}
	return b.String() + rest
}

// changes returns what each variant changes, in words.
func (c Comparison) changes() string {
	var b strings.Builder
	for _, x := range c.Lines {
		if len(x.Changes) > 0 {
			b.WriteString("\n" + strings.TrimSuffix(say.Wrapped(x.Name+": "+page.InWords(strings.Join(x.Changes, "; ")), say.Prose()), "\n"))
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return b.String() + "\n"
}

func (c Comparison) title() string {
	partial := ""
	if c.Lines[c.Leader].Nominal.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	each := ": " + say.Plural(len(c.Lines), c.word()) + " compared"
	if c.Selection == nil {
		each += " (" + c.sample() + " each)"
	}
	return partial + c.Origins[0].Scenario.Name + each
}

// sample returns how many shifts of which length were simulated of each line.
func (c Comparison) sample() string {
	base := c.Lines[0]
	for _, x := range c.Lines {
		if page.Extent(x.Study.Line) != page.Extent(base.Study.Line) {
			return say.Plural(len(base.Study.Shifts), c.period())
		}
	}
	return page.Sample(base.Study)
}

// which returns what each of the alternatives delivers that are shown or, of a selection, how far
// each came.
func (c Comparison) which() string {
	if c.Selection != nil {
		return brief(comparisonDropped(c.ComparisonAnswer)) + ComparisonDroppedWords(c.ComparisonAnswer) + "\n"
	}
	text := brief(comparisonRates(c.ComparisonAnswer, c.rows()))
	if more := len(c.Lines) - shownAlternatives; more > 0 {
		text += fmt.Sprintf("and %d that deliver less: --csv, --json and --report have all\n", more)
	}
	return text + c.jobsBlock()
}

// exposed says how often what leads delivers defective envelopes, and of none what that
// assumes.
func (c Comparison) exposed() string {
	text := " " + say.Capital(c.called(c.Leader)) + " delivers " + exposuresBrief(c.Lines[c.Leader].Exposures, c.period()) + "."
	if mixed := forDifferent(c.Lines[c.Leader].Exposures...); mixed != "" {
		text += " " + mixed + "."
	}
	return text
}

// rows returns the alternatives that are shown: all, or the base and those that deliver most.
func (c Comparison) rows() []int {
	var all []int
	for i := range c.Lines {
		all = append(all, i)
	}
	if len(all) <= shownAlternatives {
		return all
	}
	slices.SortStableFunc(all[1:], func(i, k int) int {
		return cmp.Compare(c.Lines[k].Study.NetRates().Mean(), c.Lines[i].Study.NetRates().Mean())
	})
	all = all[:shownAlternatives]
	slices.Sort(all)
	return all
}

// ending returns how much common random numbers was worth, and how to repeat the comparison.
func (c Comparison) ending() string {
	return say.Wrapped(c.random()+c.exposed(), say.Prose()) + "To repeat it:\n  " + c.Command + c.repeat() + "\n" + page.Caution()
}

// baseWords says which the base is, where that has a name of its own.
func (c Comparison) baseWords() string {
	if c.Lines[0].Of.Called != "" {
		return ""
	}
	return "The base is " + c.called(0) + ". "
}

// random numbers returns how much narrower common random numbers made the interval.
func (c Comparison) random() string {
	same := "All " + c.word() + "s had the same random events"
	if c.grouped() {
		same = "Net rates are of all lines of a configuration together. " + same
	}
	same = c.mixWords() + c.baseWords() + same
	if c.Selection != nil || len(c.Lines[0].Study.Shifts) < 2 {
		return same + "."
	}
	p := c.Compared[c.Rival][c.Leader]
	switch {
	case math.IsInf(p.Narrowing, 1):
		return same + "."
	case p.Narrowing < 1:
		return same + ", which made this difference no surer."
	}
	return fmt.Sprintf("%s. Without that, the ± of the gain would be %s times as wide, and it would take %s times as many %ss to be as sure.",
		same, say.TwoDigits(p.Narrowing), say.TwoDigits(p.VarianceRatio), c.period())
}
