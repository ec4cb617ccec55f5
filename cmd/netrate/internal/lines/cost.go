package lines

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/money"
	"netrate/sim"
)

// costDraws is how often what money says is drawn: enough to know a probability to 3 in a
// hundred.
const costDraws = 1000

// weigh works out what the lines are worth, if there are costs. Where that cannot be told it
// keeps the reason.
func (c *contest) weigh() {
	var studies []*model.Study
	var costs []*model.Costs
	var doubted []*model.DoubtStudy
	for _, x := range c.entrants {
		studies, costs = append(studies, x.study), append(costs, x.costs)
		if x.doubt != nil {
			doubted = append(doubted, x.doubt)
		}
	}
	if !slices.ContainsFunc(costs, func(x *model.Costs) bool { return x != nil }) {
		return
	}
	if c.Selection != nil {
		c.aside = "--best runs some lines for fewer shifts than others; without it compare tells what they are worth"
		return
	}
	worth, err := model.Weigh(studies, costs, costDraws, studies[0].Plan.Seed, doubted...)
	if err != nil {
		c.aside = strings.ReplaceAll(err.Error(), "\n", "; ")
		return
	}
	c.money = worth
}

// moneyBlock returns what the lines cost and what they are worth, or why that is not told.
func (c *contest) moneyBlock() string {
	switch {
	case c.aside != "":
		return "\n" + say.Wrapped("No money is told: "+c.aside+".", say.Screen)
	case c.money == nil:
		return ""
	}
	return "\n" + c.yearTable() + c.gainTable() + "\n" + say.Wrapped(c.moneySentence()+" "+c.moneyCaution(), say.Screen)
}

// yearTable returns what a year of each line comes to.
func (c *contest) yearTable() string {
	rows := [][]string{{"Money, " + c.money.Currency, "price", "hours a year", "cost a year", "per 1,000"}}
	for _, i := range c.rows() {
		y := &c.money.Lines[i]
		rows = append(rows, []string{c.entrants[i].name, averaged(y.Price), averaged(y.Hours), averaged(y.Cost), averaged(y.PerThousand)})
	}
	return say.Columns(rows)
}

// gainTable returns what each line is worth against the base.
func (c *contest) gainTable() string {
	rows := [][]string{{"Against the base", "saved a year", "paid back", "NPV", "5 % to 95 %", "NPV > 0"}}
	for _, i := range c.rows() {
		if i == 0 {
			continue
		}
		g := &c.money.Gains[i]
		rows = append(rows, []string{
			c.entrants[i].name, averaged(g.Saving), c.years(g.Payback), averaged(g.NPV), nineInTen(g.NPV), chance(g.Chance, g.Chance.Share),
		})
	}
	return say.Columns(rows)
}

// averaged returns the mean of what was drawn, with no digit more than its spread supports.
func averaged(s sim.Sample) string { return upToDoubt(s.Mean(), s) }

// upToDoubt returns a figure with two digits of the spread of a sample, or to the cent.
func upToDoubt(x float64, s sim.Sample) string {
	spread := 0.0
	if len(s) > 1 {
		spread = s.SD()
	}
	text := say.Exact(x)
	if spread > 1e-9*math.Abs(x) { // less is rounding
		text = say.Rounded(x, max(-2, say.Magnitude(spread)-1))
	}
	if strings.Trim(text, "-0.,") == "" {
		return "0"
	}
	return text
}

// nineInTen returns between what nine draws in ten lie.
func nineInTen(s sim.Sample) string {
	return upToDoubt(s.Quantile(0.05), s) + " to " + upToDoubt(s.Quantile(0.95), s)
}

// chance returns a share in percent, as exactly as the probability is known.
func chance(p money.Probability, share float64) string { return say.Percent(share, (p.High-p.Low)/2) }

// orderOf returns the figure below which a share of the draws lies, one of them: some may be
// infinite, so that nothing lies between two.
func orderOf(s sim.Sample, share float64) float64 {
	sorted := slices.Sorted(slices.Values(s))
	return sorted[int(math.Round(share*float64(len(sorted)-1)))]
}

// years returns the median time in which a price is paid back.
func (c *contest) years(s sim.Sample) string {
	switch middle := orderOf(s, 0.5); {
	case math.IsInf(middle, 1):
		return "over " + say.Plural(c.money.Life, "year")
	case middle == 0:
		return "at once"
	default:
		return fmt.Sprintf("%.1f years", middle)
	}
}

// favourite returns the line that is worth most against the base.
func (c *contest) favourite() int {
	best := 1
	for i := 2; i < len(c.entrants); i++ {
		if c.money.Gains[i].NPV.Mean() > c.money.Gains[best].NPV.Mean() {
			best = i
		}
	}
	return best
}

// From where on a probability is taken for nearly certain.
const nearlyCertain = 0.95

// moneySentence returns the finding.
func (c *contest) moneySentence() string {
	i := c.favourite()
	g := &c.money.Gains[i]
	says := "may pay for itself"
	switch p := g.Chance.Share; {
	case p >= nearlyCertain:
		says = "pays for itself"
	case p <= 1-nearlyCertain:
		says = "does not pay for itself"
	case p < 0.5:
		says = "is more likely not to pay for itself than to"
	}
	most := ""
	if len(c.entrants) > 2 {
		most = ", which is worth most,"
	}
	return fmt.Sprintf("%s%s %s: over %s at %s %% its net present value against %s is above 0 with a probability of %s (%s to %s), %s.",
		say.Capital(c.call(i)), most, says, say.Plural(c.money.Life, "year"), say.Exact(100*c.money.Rate), c.call(0),
		chance(g.Chance, g.Chance.Share), chance(g.Chance, g.Chance.Low), chance(g.Chance, g.Chance.High), c.breakEvenWords(i)) + c.overfull()
}

// breakEvenWords says from what volume on a line pays.
func (c *contest) breakEvenWords(i int) string {
	g := &c.money.Gains[i]
	switch middle := orderOf(g.BreakEven, 0.5); {
	case math.IsInf(middle, 1):
		return "and no volume is large enough for it"
	case middle == 0:
		return "and it pays at any volume"
	case middle > c.mostInAYear(i):
		return "and it pays at no volume that it can make in a year"
	default:
		together := ""
		if c.mixes() != nil {
			together = ", of all jobs in their shares"
		}
		return "and it pays from " + say.TwoDigits(middle) + " good envelopes a year on" + together
	}
}

// hoursOfAYear are all there are.
const hoursOfAYear = 365 * 24

// mostInAYear returns how many good envelopes a line can make in all hours of a year.
func (c *contest) mostInAYear(i int) float64 {
	return hoursOfAYear / c.money.Lines[i].Hours.Mean() * c.money.Volume.Mean()
}

// overfull says which lines would need more hours than a year has; nothing if none would.
func (c *contest) overfull() string {
	var over []string
	for i := range c.entrants {
		if hours := c.money.Lines[i].Hours.Mean(); hours > hoursOfAYear {
			over = append(over, fmt.Sprintf("%s %s", c.call(i), say.Rounded(hours, say.Magnitude(hours)-1)))
		}
	}
	if over == nil {
		return ""
	}
	return fmt.Sprintf(" NOT POSSIBLE on one line: a year has %s hours, and it would take %s.", say.Thousands(hoursOfAYear), say.List(over))
}

// moneyCaution says what the figures are.
func (c *contest) moneyCaution() string {
	doubt := ""
	if c.entrants[0].doubt != nil {
		doubt = ", of what is in doubt of the lines"
	}
	text := fmt.Sprintf("An estimate, not financial advice: means of %s draws of the shifts%s and of the ranges in the file, but medians of when it is paid back and from what volume it pays.",
		say.Thousands(c.money.Draws), doubt)
	if c.mixes() == nil {
		return text
	}
	return text + " A year has no changeovers between jobs: netrate season has them."
}
