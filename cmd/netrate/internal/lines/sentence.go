package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
)

// sentence returns the answer in words. What qualifies it is a paragraph of its own.
func (c *contest) sentence() string {
	switch {
	case c.Selection != nil:
		return c.raceSentence()
	case len(c.entrants[0].study.Shifts) < 2:
		return "One " + c.period() + " alone shows no difference."
	case c.certain():
		return c.bestSentence()
	}
	return c.openSentence()
}

// bestSentence names the best.
func (c *contest) bestSentence() string {
	p := c.Compared[c.Rival][c.Leader]
	more := "more than " + c.call(c.Rival)
	if c.Leader == 0 && len(c.entrants) > 2 {
		more += ", the next"
	}
	return fmt.Sprintf("%s delivers most: %s, %s %s (95 %%%s), better in %s of %ss.",
		say.Capital(c.call(c.Leader)), c.rateOf(c.Leader), say.Size(p.Difference), more, c.atOnce(), say.Percent(p.Wins, 0.01), c.period())
}

// openSentence says which may be the best.
func (c *contest) openSentence() string {
	var others []string
	for _, i := range c.Candidates {
		if i != c.Leader {
			others = append(others, c.call(i))
		}
	}
	if n := len(others); n > 4 {
		others = append(others[:3], fmt.Sprintf("%d others", n-3))
	}
	text := fmt.Sprintf("No %s is shown to be best (95 %%%s): %s leads with %s, and %s may be as good.",
		c.word(), c.atOnce(), c.call(c.Leader), c.rateOf(c.Leader), say.List(others))
	if p := c.Compared[0][c.Leader]; c.Leader != 0 && p.Difference.Low() > 0 {
		text += fmt.Sprintf("\n\n%s is %s behind.", say.Capital(c.call(0)), say.Size(p.Difference))
	}
	return text
}

// headline returns the answer in few words.
func (c *contest) headline() string {
	switch {
	case c.Selection != nil && c.certain():
		return fmt.Sprintf("%s is chosen as the best", say.Capital(c.call(c.Leader)))
	case c.certain():
		return fmt.Sprintf("%s delivers most, %s an hour more than %s", say.Capital(c.call(c.Leader)),
			say.Size(c.Compared[c.Rival][c.Leader].Difference), c.call(c.Rival))
	}
	return fmt.Sprintf("%s leads, but is not shown to be best", say.Capital(c.call(c.Leader)))
}

// atOnce says that intervals are right together, where there are several.
func (c *contest) atOnce() string {
	if len(c.entrants) == 2 {
		return ""
	}
	return ", all comparisons at once"
}

// bestWord returns what the one with the largest mean is called in a table.
func (c *contest) bestWord() string {
	if c.certain() {
		return "best"
	}
	return "leader"
}

// raceSentence says what a race came to, and what that is worth.
func (c *contest) raceSentence() string {
	best := c.Selection.Best
	worth, sure := say.Exact(float64(c.Selection.Indifference))+" an hour or more", say.Exact(100*float64(c.Selection.Confidence))+" %"
	if c.Selection.Usual {
		worth += " (1 % of the base on paper)"
	}
	if c.Selection.Promised {
		return fmt.Sprintf("%s is chosen as the best, with %s.\n\nThe choice is right with a probability of %s or more "+
			"if the best line is ahead of every other by %s; lines closer than that count as equal.",
			say.Capital(c.call(best)), c.rateOf(best), sure, worth)
	}
	var racing []string
	for _, i := range c.Selection.Left {
		if i != best {
			racing = append(racing, c.call(i))
		}
	}
	return fmt.Sprintf("NOT DECIDED after %s: %s leads with %s, and %s still in the race for %s.\n\nNothing is promised.",
		say.Plural(c.Selection.Done, c.period()), c.call(best), c.rateOf(best), say.List(racing)+are(len(racing)), worth)
}

func are(n int) string {
	if n == 1 {
		return " is"
	}
	return " are"
}

// rateOf returns the net rate of an entrant in words.
func (c *contest) rateOf(i int) string {
	e := c.entrants[i].study.NetRates().Interval(say.Level)
	return say.PlusMinus(say.Measured(e.Mean, e.Half)) + " good envelopes an hour"
}
