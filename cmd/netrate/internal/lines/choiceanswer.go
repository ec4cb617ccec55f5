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
	"netrate/model/study"
)

// How much of a choice the screen shows.
const (
	leastStrategies = 5
	shownEscapes    = 3
)

// Answer returns what was found, on one screen unless the strategies take many words.
func (c *choice) Answer() string {
	own := c.own().Study
	above := page.Headline(c.Name+": "+strategies(len(c.Strategies)), own) + "\n\n" + say.Wrapped(c.finding(), say.Screen) + "\n"
	below := "\n" + say.Wrapped(c.answers()+c.sources(), say.Screen) + say.Wrapped(c.dropped(), say.Screen) + "\n" + page.Repeated(own, c.command())
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
	best, rate := c.among.call(c.Leader), c.among.rateOf(c.Leader)
	if len(c.own().Study.Shifts) < 2 {
		return "One " + c.among.period() + " alone shows no difference."
	}
	switch {
	case c.none():
		return fmt.Sprintf("No strategy of this line is found that has %s. %s comes nearest, with %s, and delivers %s.",
			c.atMost(), say.Capital(best), riskText(&c.best().Defective), rate)
	case !c.Shown:
		return c.openFinding()
	case c.Leader == 0 && len(c.Strategies) == 1:
		return say.Capital(best) + " delivers most on paper: no other is worth a simulation."
	case c.Leader == 0:
		return fmt.Sprintf("%s delivers most of those with %s: %s (95 %%%s).", say.Capital(best), c.atMost(), rate, c.among.atOnce())
	}
	return fmt.Sprintf("%s delivers most of the strategies with %s: %s, %s (95 %%%s).",
		say.Capital(best), c.atMost(), rate, c.gainOverOwn(), c.among.atOnce())
}

// openFinding says which strategies may be the best.
func (c *choice) openFinding() string {
	text := fmt.Sprintf("No strategy is shown to be best of those with %s (95 %%%s): %s leads with %s, and %s may be as good.",
		c.atMost(), c.among.atOnce(), c.among.call(c.Leader), c.among.rateOf(c.Leader), c.rivalWords())
	if c.Leader != 0 && !slices.Contains(c.AsGood, 0) {
		text += fmt.Sprintf(" %s delivers %s.", say.Capital(c.among.call(c.Leader)), c.gainOverOwn())
	}
	return text + c.thriftiest()
}

// thriftiest says which of those that may be the best makes least again, if it is another.
func (c *choice) thriftiest() string {
	least := c.Thriftiest()
	if least == c.Leader {
		return ""
	}
	return fmt.Sprintf(" Of these, %s makes least again: %s in a thousand sets, not %s.",
		c.among.call(least), say.FewDigits(c.Strategies[least].Remade()), say.FewDigits(c.best().Remade()))
}

// gainOverOwn says how much more the best delivers than the line's own strategy.
func (c *choice) gainOverOwn() string {
	return moreWords(c.Over(0)) + " than " + c.among.call(0)
}

// rivalWords names those that may be as good as the best.
func (c *choice) rivalWords() string {
	var names []string
	for _, i := range c.AsGood {
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
		return fmt.Sprintf("no more defective envelopes than the file has, %s in a million", riskText(&c.own().Defective))
	}
	return fmt.Sprintf("at most %s defective in a million", exactly(float64(c.Limit)))
}

// exactly returns a limit with as many digits as it was given with, but not more than nine.
func exactly(x float64) string {
	nine, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	return say.Grouped(strconv.FormatFloat(nine, 'f', -1, 64))
}

// answers says what the best answers otherwise than the file; "" if it is the file's own.
func (c *choice) answers() string {
	if c.Leader == 0 {
		return ""
	}
	return fmt.Sprintf("%s answers otherwise than the file: %s. ", say.Capital(c.among.call(c.Leader)), c.best().Otherwise)
}

// sources says where the defective envelopes of the best come from.
func (c *choice) sources() string {
	x := &c.best().Defective
	if len(x.From) == 0 {
		low, high := float64(x.CountedLow), float64(x.CountedHigh)
		if x.Counted > 0 {
			return fmt.Sprintf("Its defective envelopes take two faults at once: %s to %s in a million, by the count.", say.FewDigits(low), say.FewDigits(high))
		}
		return fmt.Sprintf("No single fault lets a defective envelope through, and none was counted (95 %%: below %s in a million).", say.FewDigits(high))
	}
	var from []string
	for _, one := range x.From[:min(len(x.From), shownEscapes)] {
		from = append(from, fmt.Sprintf("%s %s", escapeName(one), say.FewDigits(float64(one.PerMillion))))
	}
	if n := len(x.From) - shownEscapes; n > 0 {
		from = append(from, say.Plural(n, "other cause"))
	}
	text := "In a million, its defective envelopes come from " + say.List(from) + "."
	if x.FromCount {
		text += fmt.Sprintf(" That is for single faults; the count has %s to %s.", say.FewDigits(x.Low), say.FewDigits(x.High))
	}
	return text
}

// escapeName says what a defective envelope comes from: "letter, double unnoticed".
func escapeName(e study.RiskSource) string {
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
	s := &c.OnPaper
	return fmt.Sprintf("On paper, %s of %s strategies have no other that is as good in everything. Within %s of the most at what they risk or remake: %s. Simulated: %s.",
		say.Thousands(s.Undominated), manyOf(float64(s.Considered)), say.Percent(model.Margin, 0.01), say.Thousands(s.Near), say.Thousands(len(c.Strategies)))
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
		x := &c.Strategies[i]
		e, gain, words := x.Study.NetRates().Interval(say.Level), "", x.Otherwise
		if i == 0 {
			words = "as the file has it"
		} else {
			gain = say.Gap(c.Pairs[0][i].Difference)
		}
		row(c.mark(i), x.Name, say.PlusMinus(say.Measured(e.Mean, e.Half)), gain, riskText(&x.Defective), say.FewDigits(x.Remade()), words)
	}
	return b.String() + c.legend(len(c.Strategies)-most)
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
	case !c.Strategies[i].Within:
		return "^ "
	case i == c.Leader:
		return "> "
	case slices.Contains(c.AsGood, i):
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
	add(c.Leader)
	for _, i := range c.AsGood[:min(len(c.AsGood), 2)] {
		add(i)
	}
	var leading []int
	for i, x := range c.Strategies {
		if (x.Frontier || x.Saving && c.among.personalised()) && !slices.Contains(some, i) {
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
	for i := range c.Strategies {
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
