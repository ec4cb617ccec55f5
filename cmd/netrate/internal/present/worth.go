package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/money"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/sim"
)

// WorthFinding says whether the line that is worth most pays for itself. Where none does on average
// it begins with what is to be kept. Which line costs least is in the headline.
func WorthFinding(a *study.WorthAnswer) string {
	return worthPaying(a) + worthDefective(a) + worthOverfull(a)
}

// worthHeadline says what a thousand good envelopes cost, all in, with the line that costs least over the life
// and with others.
func worthHeadline(a *study.WorthAnswer) string {
	var others []string
	for i := range a.Lines {
		if i != a.Cheapest && len(a.Lines) <= mostPrices {
			others = append(others, worthAllIn(a, i)+" with "+a.Lines[i].Of.InWords())
		}
	}
	against := ""
	if others != nil {
		against = " (" + strings.Join(others, ", ") + ")"
	}
	return fmt.Sprintf("All in, a thousand good envelopes cost least with %s, %s %s%s%s.",
		a.Lines[a.Cheapest].Of.InWords(), worthAllIn(a, a.Cheapest), a.Currency, against, worthCheapest(a))
}

// worthPresent says what the one is worth on average that is worth most.
func worthPresent(a *study.WorthAnswer) string {
	npv, r := a.Worth.Gains[a.Favourite].NPV, presentValues(a)
	return fmt.Sprintf("Over the life the net present value of %s is %s %s, from %s in nine draws in ten.",
		a.Lines[a.Favourite].Of.InWords(), r.words(npv.Mean()), a.Currency, r.nineInTen(npv))
}

// worthPaying says whether the line that is worth most pays for itself, how surely, and up to which price.
func worthPaying(a *study.WorthAnswer) string {
	x := &a.Lines[a.Favourite]
	most := ""
	if len(a.Lines) > 2 {
		most = ", which is worth most of the others,"
	}
	chance := a.Worth.Gains[a.Favourite].Chance
	return worthLead(a) + fmt.Sprintf("%s%s %s: over %s at %s %% its net present value against %s is above 0 with a probability of %s, and %s.",
		say.Capital(x.Of.InWords()), most, worthVerdict(a, a.Favourite), say.Plural(a.Life, "year"), say.Exact(100*float64(a.Rate)), a.Lines[0].Of.InWords(),
		worthWithin(chance), worthPays(a, a.Favourite)) + worthPrice(a)
}

// worthCheaper reports whether a line is bought for less than the base: then nothing has to be paid back.
func worthCheaper(a *study.WorthAnswer, line int) bool {
	return a.Lines[line].Price.Mean < a.Lines[0].Price.Mean
}

// worthVerb returns what a line does if its net present value is above 0.
func worthVerb(a *study.WorthAnswer, line int) string {
	if worthCheaper(a, line) {
		return "is cheaper over the life"
	}
	return "pays for itself"
}

// worthVerdict says of a line whether it pays for itself or, of one with a lower price, is cheaper over the life.
func worthVerdict(a *study.WorthAnswer, line int) string {
	v := a.Lines[line].Against.Verdict
	if worthCheaper(a, line) {
		return [...]string{
			study.WorthLikelyNot: "is more likely to be dearer over the life than to be cheaper", study.WorthMay: "may be cheaper over the life",
			study.WorthIs: "is cheaper over the life", study.WorthIsNot: "is not cheaper over the life",
		}[v]
	}
	return [...]string{
		study.WorthLikelyNot: "is more likely not to pay for itself than to", study.WorthMay: "may pay for itself",
		study.WorthIs: "pays for itself", study.WorthIsNot: "does not pay for itself",
	}[v]
}

// worthLead says that the base is to be kept, where no other is worth more; else nothing.
func worthLead(a *study.WorthAnswer) string {
	if a.Worth.Gains[a.Favourite].NPV.Mean() > 0 {
		return ""
	}
	return say.Capital(a.Lines[0].Of.InWords()) + " costs least over the life. "
}

// worthPrice says up to which price the line pays that is worth most, if it has one.
func worthPrice(a *study.WorthAnswer) string {
	if a.Lines[a.Favourite].Price.Mean == 0 {
		return ""
	}
	price := a.Worth.BreakEvenPrice(a.Favourite, 0)
	if price.Mean() <= 0 {
		return " Even as a gift it would cost more over the life on average."
	}
	return fmt.Sprintf(" On average it %s up to a price of %s %s.", worthVerb(a, a.Favourite), breakEvenPrices(a).words(price.Mean()), a.Currency)
}

// worthDefective says that the worth is mostly what the file says a defective envelope costs, where
// that is most of all by which the costs of the two lines differ.
func worthDefective(a *study.WorthAnswer) string {
	share := a.Share(a.Favourite, worth.DefectiveCost)
	if !(share > 0.5) {
		return ""
	}
	return fmt.Sprintf(" %s of all by which their yearly costs differ is what the file says a defective envelope costs (costs.defective): the answer is no surer than that figure.",
		say.Percent(share, 0.01))
}

// worthCheapest says of the line with the lowest cost on average how probable it is that it is the cheapest of
// several and, where another is so in more draws, which that is; of two the chance to pay says it.
func worthCheapest(a *study.WorthAnswer) string {
	if len(a.Lines) == 2 {
		return ""
	}
	often := a.Cheapest
	for i := range a.Lines {
		if a.Lines[i].Cheapest.Share > a.Lines[often].Cheapest.Share {
			often = i
		}
	}
	text := fmt.Sprintf(", the cheapest of the %d with a probability of %s",
		len(a.Lines), worthChance(a.Worth.Cheapest(a.Cheapest)))
	if often != a.Cheapest {
		text += fmt.Sprintf(" (%s with %s)", a.Lines[often].Of.InWords(), worthChance(a.Worth.Cheapest(often)))
	}
	return text
}

// worthAllIn returns what a thousand good envelopes of a line cost on average, the price in it.
func worthAllIn(a *study.WorthAnswer, line int) string {
	return allIn(a).words(a.Worth.AllInPerThousand(line).Mean())
}

// mostPrices is for how many lines a sentence has what a thousand envelopes cost.
const mostPrices = 4

// worthPays says from what volume on a line pays, and in which share of the draws that is so where it
// is no matter of the median.
func worthPays(a *study.WorthAnswer, line int) string {
	x := &a.Lines[line]
	in, does := inDraws(x.Against.PaysIn), worthVerb(a, line)
	switch x.Against.Pays {
	case study.WorthPaysNever:
		return in + " no volume is large enough for it"
	case study.WorthPaysAlways:
		return in + " it " + does + " at any volume"
	case study.WorthPaysBelow:
		if !worthCheaper(a, line) {
			return in + " it pays for itself at no volume, as its price is no lower and its running costs are higher"
		}
		return in + " it would be cheaper over the life at smaller volumes only, not at that of the file, as its price is lower and its running costs are higher"
	case study.WorthPaysBeyond:
		return in + " it " + does + " at no volume that it can make in a year"
	case study.WorthPaysFrom:
	}
	together := ""
	switch {
	case a.Mixed:
		together = ", of all jobs in their shares"
	case a.ByLine:
		together = ", of all lines in their shares"
	}
	only := ""
	if float64(x.Against.BreakEven.P50) > a.Worth.Volume.Mean() {
		only = "only "
	}
	none := ""
	if x.Against.NeverIn > 0 {
		none = "; " + inDraws(x.Against.NeverIn) + " no volume is large enough"
	}
	return "it " + does + " " + only + "from " + say.TwoDigits(float64(x.Against.BreakEven.P50)) + " good envelopes a year on" + together + ", in the median" + none
}

// inDraws says in which share of the draws something is so.
func inDraws(share study.Number) string {
	switch {
	case share == 1:
		return "in all draws"
	case share > 0.995:
		return "in over 99 % of the draws"
	case share < 0.005:
		return "in under 1 % of the draws"
	}
	return "in " + say.Percent(float64(share), 0.01) + " of the draws"
}

// worthOverfull says which lines would need more hours than a year has; nothing if none would.
func worthOverfull(a *study.WorthAnswer) string {
	var over []string
	for i := range a.Lines {
		if x := &a.Lines[i]; x.Overfull {
			hours := float64(x.Hours.Mean)
			over = append(over, fmt.Sprintf("%s %s", x.Of.InWords(), say.Rounded(hours, say.Magnitude(hours)-1)))
		}
	}
	if over == nil {
		return ""
	}
	on := "on one line"
	if a.Shared {
		on = "on these lines"
	}
	return fmt.Sprintf(" NOT POSSIBLE %s: a year has %s hours, and it would take %s.", on, say.Thousands(study.HoursOfAYear), say.List(over))
}

// WorthCaution says what the figures are.
func WorthCaution(a *study.WorthAnswer) string {
	text := fmt.Sprintf("An estimate, not financial advice. The figures are means of %s draws %s; payback times and break-even volumes are medians.",
		say.Thousands(a.Draws), drawnOf(a))
	text += " A year has " + Averaged(a.Worth.Volume) + " good envelopes."
	text += worthHours(a)
	if slices.Contains(a.Cautions, study.WorthNoChangeovers) {
		text += " It has no changeovers between jobs: netrate season has them."
	}
	if slices.Contains(a.Cautions, study.WorthSideBySide) {
		text += " Its hours are those of the line that takes most, each at its rate beside the others; the crew is paid for all of them."
	}
	return text
}

// drawnOf says what the draws are of.
func drawnOf(a *study.WorthAnswer) string {
	switch {
	case a.Uncertain && a.Ranges:
		return "of the shifts, of the uncertain inputs of the lines and of the ranges in the file"
	case a.Uncertain:
		return "of the shifts and of the uncertain inputs of the lines; no cost in the file is a range"
	case a.Ranges:
		return "of the shifts and of the ranges in the file"
	}
	return "of the shifts alone, as no cost in the file is a range and no input uncertain: they show chance, and not how well the figures of the file are known"
}

// worthWord returns what is weighed: a line, or a configuration of several with one crew.
func worthWord(a *study.WorthAnswer) string {
	if a.Shared {
		return "configuration"
	}
	return "line"
}

// leastGap is how far hours must be from volume over the mean net rate for that to be said.
const leastGap = 0.0005

// worthHours says how far the hours are from volume over the mean net rate, which is the rate that
// is shown elsewhere: of draws of uncertain inputs.
func worthHours(a *study.WorthAnswer) string {
	gap := 0.0
	for i := range a.Lines {
		gap = max(gap, a.Lines[i].MoreHours())
	}
	if !a.Uncertain || a.ByLine || gap < leastGap {
		return ""
	}
	return fmt.Sprintf(" Its hours are the volume over the rate of each draw, on average up to %s more than over the mean rate, as slow draws take more hours than fast ones save.", say.Percent(gap, gap/10))
}

// Averaged returns the mean of what was drawn, with no digit more than its spread supports.
func Averaged(s sim.Sample) string { return upToSpread(s.Mean(), s) }

// upToSpread returns a figure with two digits of the spread of a sample, or to the cent.
func upToSpread(x float64, s sim.Sample) string { return alike(s).words(x) }

// nineInTen returns between what nine draws in ten lie.
func nineInTen(s sim.Sample) string { return alike(s).nineInTen(s) }

// worthChance returns a probability in percent, as exactly as it is known. Draws do not show what is certain: of
// all or none of them it is a bound that they show.
func worthChance(p money.Probability) string {
	switch {
	case p.Share == 1 && p.Low < 0.99:
		return "over " + say.AtLeast(p.Low)
	case p.Share == 0 && p.High > 0.01:
		return "under " + say.AtMost(p.High)
	case p.Share > 0.995:
		return "over 99 %"
	case p.Share < 0.005:
		return "under 1 %"
	}
	return worthEnd(p, p.Share)
}

// worthWithin returns a probability with its interval; of all or none of the draws the bound is the interval.
func worthWithin(p money.Probability) string {
	if p.Share == 0 || p.Share == 1 {
		return worthChance(p)
	}
	return fmt.Sprintf("%s (%s to %s)", worthChance(p), worthEnd(p, p.Low), worthEnd(p, p.High))
}

// worthEnd returns an end of the interval of a probability, likewise.
func worthEnd(p money.Probability, end float64) string {
	switch {
	case end > 0.999:
		return "over 99.9 %"
	case end < 0.001:
		return "under 0.1 %"
	}
	return say.Percent(end, (p.High-p.Low)/2)
}
