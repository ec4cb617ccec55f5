package lines

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// How much of a choice the screen shows.
const (
	leastStrategies = 5
	shownEscapes    = 3
)

// Answer returns what was found, on one screen unless the strategies take many words.
func (c *choice) Answer() string {
	study := c.contenders[0].study
	above := page.Headline(c.Name+": "+strategies(len(c.contenders)), study) + "\n\n" + say.Wrapped(c.finding(), say.Screen) + "\n"
	below := "\n" + say.Wrapped(c.answers()+c.sources(), say.Screen) + say.Wrapped(c.dropped(), say.Screen) + "\n" + page.Repeated(study, c.command())
	room := say.ScreenLines - strings.Count(above+below, "\n") - 2 // the heading and the legend
	return above + c.rows(max(leastStrategies, room)) + below
}

// command returns the command up to the seed.
func (c *choice) command() string {
	if c.asked == nil {
		return c.Again
	}
	return c.Again + " --max-defective " + desk.Quoted(c.asked.Text)
}

// finding returns which strategy is best, and what that is worth.
func (c *choice) finding() string {
	best, rate := c.among.call(c.best), c.among.rateOf(c.best)
	if len(c.contenders[0].study.Shifts) < 2 {
		return "One " + c.among.period() + " alone shows no difference."
	}
	switch {
	case c.none():
		return fmt.Sprintf("No strategy of this line is found that has %s. %s comes nearest, with %s, and delivers %s.",
			c.atMost(), say.Capital(best), c.contenders[c.best].text(), rate)
	case !c.certain():
		return c.openFinding()
	case c.best == 0 && len(c.contenders) == 1:
		return say.Capital(best) + " delivers most on paper: no other is worth a simulation."
	case c.best == 0:
		return fmt.Sprintf("%s delivers most of those with %s: %s (95 %%%s).", say.Capital(best), c.atMost(), rate, c.among.atOnce())
	}
	return fmt.Sprintf("%s delivers most of the strategies with %s: %s, %s (95 %%%s).",
		say.Capital(best), c.atMost(), rate, c.gainOverOwn(), c.among.atOnce())
}

// openFinding says which strategies may be the best.
func (c *choice) openFinding() string {
	text := fmt.Sprintf("No strategy is shown to be best of those with %s (95 %%%s): %s leads with %s, and %s may be as good.",
		c.atMost(), c.among.atOnce(), c.among.call(c.best), c.among.rateOf(c.best), c.rivalWords())
	if c.best != 0 && !slices.Contains(c.rivals, 0) {
		text += fmt.Sprintf(" %s delivers %s.", say.Capital(c.among.call(c.best)), c.gainOverOwn())
	}
	return text + c.thriftiest()
}

// thriftiest says which of those that may be the best makes least again, if it is another.
func (c *choice) thriftiest() string {
	least := c.best
	for _, i := range c.rivals {
		if c.contenders[i].remade < c.contenders[least].remade {
			least = i
		}
	}
	if least == c.best {
		return ""
	}
	return fmt.Sprintf(" Of these, %s makes least again: %s in a thousand sets, not %s.",
		c.among.call(least), say.FewDigits(c.contenders[least].remade), say.FewDigits(c.contenders[c.best].remade))
}

// gainOverOwn says how much more the best delivers than the line's own strategy.
func (c *choice) gainOverOwn() string {
	return moreWords(c.over(0).Difference) + " than " + c.among.call(0)
}

// rivalWords names those that may be as good as the best.
func (c *choice) rivalWords() string {
	var names []string
	for _, i := range c.rivals {
		names = append(names, c.among.call(i))
	}
	if n := len(names); n > 4 {
		names = append(names[:3], fmt.Sprintf("%d others", n-3))
	}
	return say.List(names)
}

// atMost says how many defective ones are accepted.
func (c *choice) atMost() string {
	if c.asked == nil {
		return fmt.Sprintf("no more defective envelopes than the file has, %s in a million", c.contenders[0].text())
	}
	return fmt.Sprintf("at most %s defective in a million", exactly(c.limit))
}

// exactly returns a limit with as many digits as it was given with, but not more than nine.
func exactly(x float64) string {
	nine, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	return say.Grouped(strconv.FormatFloat(nine, 'f', -1, 64))
}

// answers says what the best answers otherwise than the file; "" if it is the file's own.
func (c *choice) answers() string {
	if c.best == 0 {
		return ""
	}
	return fmt.Sprintf("%s answers otherwise than the file: %s. ", say.Capital(c.among.call(c.best)), c.contenders[c.best].words)
}

// sources says where the defective envelopes of the best come from.
func (c *choice) sources() string {
	x := &c.contenders[c.best]
	if x.escapes.PerMillion == 0 {
		low, high := x.escapes.Count(say.Level)
		if x.escapes.Counted > 0 {
			return fmt.Sprintf("Its defective envelopes take two faults at once: %s to %s in a million, by the count.", say.FewDigits(low), say.FewDigits(high))
		}
		return fmt.Sprintf("No single fault lets a defective envelope through, and none was counted (95 %%: below %s in a million).", say.FewDigits(high))
	}
	var from []string
	for _, one := range x.escapes.From[:min(len(x.escapes.From), shownEscapes)] {
		from = append(from, fmt.Sprintf("%s %s", escapeName(one), say.FewDigits(one.PerMillion)))
	}
	if n := len(x.escapes.From) - shownEscapes; n > 0 {
		from = append(from, say.Plural(n, "other cause"))
	}
	text := "In a million, its defective envelopes come from " + say.List(from) + "."
	if x.counted {
		text += fmt.Sprintf(" That is for single faults; the count has %s to %s.", say.FewDigits(x.low), say.FewDigits(x.high))
	}
	return text
}

// escapeName says what a defective envelope comes from: "letter, double unnoticed".
func escapeName(e model.Escape) string {
	how := "unnoticed"
	switch {
	case e.Shipped:
		how = "shipped"
	case e.Unfound:
		how = "found by nothing"
	}
	return fmt.Sprintf("%s, %s %s", e.Station, e.Fault, how)
}

// dropped says how many strategies there are, and why most are not simulated.
func (c *choice) dropped() string {
	s := c.found
	return fmt.Sprintf("On paper, %s of %s strategies have no other that is as good in everything. Within %s of the most at what they risk or remake: %s. Simulated: %s.",
		say.Thousands(s.Undominated), manyOf(s.Considered), say.Percent(model.Margin, 0.01), say.Thousands(s.Near), say.Thousands(len(c.contenders)))
}

// manyOf returns a whole number that may be beyond all reading.
func manyOf(x float64) string {
	if x < 1e12 {
		return say.Thousands(int64(x))
	}
	power := math.Floor(math.Log10(x))
	return fmt.Sprintf("%.1f × 10^%.0f", x/math.Pow10(int(power)), power)
}

// rows returns a row for each strategy that is shown, at most so many.
func (c *choice) rows(most int) string {
	var b strings.Builder
	remakes := c.among.personalised()
	row := func(mark, name, rate, gain, ppm, remade, words string) {
		line := mark + name
		line += strings.Repeat(" ", max(0, 6-len([]rune(line)))) + say.Right(rate, 15) + say.Right(gain, 15) + say.Right(ppm, 9)
		if remakes {
			line += say.Right(remade, 9)
		}
		line += "  "
		b.WriteString(strings.TrimRight(line+say.Shortened(words, say.Screen-len([]rune(line))), " ") + "\n")
	}
	row("", "", "net rate", "to own", "ppm bad", "‰ remade", "answers otherwise")
	for _, i := range c.shown(most) {
		x := &c.contenders[i]
		e, gain, words := x.study.NetRates().Interval(say.Level), "", x.words
		if i == 0 {
			words = "as the file has it"
		} else {
			gain = say.Gap(c.among.pairs[0][i].Difference)
		}
		row(c.mark(i), c.among.entrants[i].name, say.PlusMinus(say.Measured(e.Mean, e.Half)), gain, x.text(), say.FewDigits(x.remade), words)
	}
	return b.String() + c.legend(len(c.contenders)-most)
}

// legend says what the marks are, and how many strategies are not shown.
func (c *choice) legend(more int) string {
	text := "> best  = may be as good  ^ not within the limit"
	if more > 0 {
		text += fmt.Sprintf("; %s more: --csv, --report", say.Thousands(more))
	}
	return text + "\n"
}

// mark returns what a strategy is.
func (c *choice) mark(i int) string {
	switch {
	case !c.accepted(i):
		return "^ "
	case i == c.best:
		return "> "
	case slices.Contains(c.rivals, i):
		return "= "
	}
	return "  "
}

// shown returns the strategies for which there is room: the line's own, the best and its
// rivals, then those on a frontier, and of more an even choice, from the least risk to the
// most.
func (c *choice) shown(most int) []int {
	some := []int{0}
	add := func(i int) {
		if !slices.Contains(some, i) && len(some) < most {
			some = append(some, i)
		}
	}
	add(c.best)
	for _, i := range c.rivals[:min(len(c.rivals), 2)] {
		add(i)
	}
	var leading []int
	for i, x := range c.contenders {
		if (x.frontier || x.saving && c.among.personalised()) && !slices.Contains(some, i) {
			leading = append(leading, i)
		}
	}
	if room := most - len(some); len(leading) > room && room > 1 {
		for _, k := range page.Thinned(len(leading), room, 0) {
			add(leading[k])
		}
	}
	for _, i := range leading {
		add(i)
	}
	for i := range c.contenders {
		add(i)
	}
	slices.Sort(some)
	return some
}

func strategies(n int) string {
	if n == 1 {
		return "1 strategy"
	}
	return say.Thousands(n) + " strategies"
}
