package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
)

// A file may say what it asks, in a sentence. Of some questions it is known what answers them; all
// others have what was found, and no more.

// inItsWords answers the question of a file with yes or no, or with a number, where it is one that
// is known; nothing else. It wants a comparison that is done, and is no selection.
func (c Comparison) inItsWords() string {
	if c.Selection != nil || len(c.Lines[0].Study.Shifts) < 2 {
		return ""
	}
	asked := strings.ToLower(c.Origins[0].Scenario.Question)
	var says []string
	for _, known := range []struct {
		words  []string // that all stand in the question
		answer func() string
	}{
		{[]string{"fastest line", "best"}, c.fastestIsBest},
		{[]string{"win", "back"}, c.winsBack},
		{[]string{"pay"}, c.pays},
		{[]string{"can ", "instead of"}, c.canInstead},
	} {
		holds := true
		for _, word := range known.words {
			holds = holds && strings.Contains(asked, word)
		}
		if holds {
			if text := known.answer(); text != "" {
				says = append(says, text)
			}
		}
	}
	return strings.Join(says, " ")
}

// asked returns what answers the question and the target of the file, in their own words; what the
// table beside it says is said on a page alone.
func (c Comparison) asked(page bool) string {
	text := c.inItsWords() + " " + c.targetWords()
	if page && strings.Contains(strings.ToLower(c.Origins[0].Scenario.Question), "cost in good envelopes") {
		text = c.costsInRate() + " " + text
	}
	return strings.TrimSpace(text)
}

// moneyFirst returns what a page begins with where there is money: what answers the question of the file,
// what the lines cost and are worth, and whether the target is reached.
func (c Comparison) moneyFirst() string {
	reached, help, _ := strings.Cut(c.targetWords(), ". ")
	if help != "" {
		reached += "."
	}
	text := strings.TrimSpace(c.inItsWords() + " " + worthHeadline(c.Money) + " " + reached)
	if help != "" {
		text += "\n\n" + help
	}
	return text
}

// against returns the difference of an alternative from the base, in words.
func (c Comparison) against(i int) string {
	verb := " delivers "
	if !c.Compared[0][i].Difference.Shown() {
		verb = " is "
	}
	return c.called(i) + verb + moreOrLess(c.Compared[0][i].Difference) + " than " + c.called(0)
}

// nearly is from where on a probability is taken for yes, and down to one less that for no.
const nearly = 0.95

// The answers to a question.
const (
	isYes  = "Yes"
	isNo   = "No"
	isOpen = "That is open"
)

// verdict answers a question by the probability that it is so.
func verdict(p float64) string {
	switch {
	case p >= nearly:
		return isYes
	case p <= 1-nearly:
		return isNo
	}
	return isOpen
}

// leftOpen says that a question has no answer yet, and, where draws of what is uncertain tell it, with which
// probability an alternative delivers more than the base.
func (c Comparison) leftOpen(i int) string {
	if c.Uncertainty == nil {
		return isOpen + ": " + c.against(i)
	}
	return fmt.Sprintf("%s: %s delivers more than %s with a probability of %s", isOpen, c.called(i), c.called(0), chance(*c.Uncertainty.Lines[i].Sure, c.Uncertainty.Rival.Draws))
}

// fastestIsBest says whether the line that runs fastest delivers most.
func (c Comparison) fastestIsBest() string {
	fastest := 0
	for i := range c.Lines {
		if c.Lines[i].Of.Line == nil || c.mixed() {
			return ""
		}
		if c.Lines[i].Of.Line.RunSpeed() > c.Lines[fastest].Of.Line.RunSpeed() {
			fastest = i
		}
	}
	speed := say.Exact(c.Lines[fastest].Of.Line.RunSpeed())
	switch {
	case !c.Best.Shown:
		return fmt.Sprintf("Whether the fastest line is the best is not shown: %s runs fastest, at %s an hour.", c.called(fastest), speed)
	case fastest == c.Leader:
		return fmt.Sprintf("Yes, the fastest line is the best: %s runs fastest, at %s cycles an hour, and delivers most.", c.called(fastest), speed)
	}
	return fmt.Sprintf("No, the fastest line is not the best: %s runs fastest, at %s cycles an hour, and %s delivers more.", c.called(fastest), speed, c.called(c.Leader))
}

// bestOther returns the alternative that delivers most of all but the base.
func (c Comparison) bestOther() int {
	best := 1
	for i := 2; i < len(c.Lines); i++ {
		if c.Lines[i].NetRate.Mean > c.Lines[best].NetRate.Mean {
			best = i
		}
	}
	return best
}

// costsInRate says what each alternative delivers more or less than the base. A selection does not know.
func (c Comparison) costsInRate() string {
	if c.Selection != nil || c.Uncertainty != nil || len(c.Lines) > 4 {
		return ""
	}
	var all []string
	for i := 1; i < len(c.Lines); i++ {
		all = append(all, c.against(i))
	}
	return say.Capital(strings.Join(all, "; ")) + "."
}

// winsBack says whether any alternative delivers at least what the base does.
func (c Comparison) winsBack() string {
	best := c.bestOther()
	switch d := c.Compared[0][best].Difference; {
	case d.Low() >= 0:
		return fmt.Sprintf("Yes, %s wins it back.", c.called(best))
	case d.High() < 0:
		return fmt.Sprintf("No, not even %s wins it back.", c.called(best))
	}
	return c.leftOpen(best) + "."
}

// pays says whether an alternative pays: in money where the file has costs, and else in good
// envelopes.
func (c Comparison) pays() string {
	if c.Money != nil {
		return c.paysInMoney()
	}
	best := c.bestOther()
	switch d := c.Compared[0][best].Difference; {
	case d.Low() > 0:
		return fmt.Sprintf("Yes, in good envelopes: %s. The file has no costs.", c.against(best))
	case d.High() < 0:
		return "No: nothing delivers as much as " + c.called(0) + "."
	}
	return c.leftOpen(best) + ". The file has no costs."
}

// paysInMoney says yes, no or that it is open, by the probability that what is worth most pays.
func (c Comparison) paysInMoney() string {
	chance := c.Money.Worth.Gains[c.Money.Favourite].Chance
	is := verdict(chance.Share)
	if is == isOpen {
		is = "Whether it pays is open"
	}
	return fmt.Sprintf("%s: the probability that %s pays for itself is %s.", is, c.called(c.Money.Favourite), worthChance(chance))
}

// canInstead says what it costs to do with less.
func (c Comparison) canInstead() string {
	best := c.bestOther()
	d := c.Compared[0][best].Difference
	switch {
	case d.Low() >= 0:
		return fmt.Sprintf("Yes: %s delivers no less than %s.", c.called(best), c.called(0))
	case d.High() >= 0:
		return c.leftOpen(best) + "."
	}
	part := -d.Mean / float64(c.Lines[0].NetRate.Mean)
	return fmt.Sprintf("They can, but %s delivers %s than %s, %s of it.", c.called(best), moreOrLess(d), c.called(0), say.Percent(part, d.Half/float64(c.Lines[0].NetRate.Mean)))
}
