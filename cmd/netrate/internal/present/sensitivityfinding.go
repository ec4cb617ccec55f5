package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// SensitivityFinding returns which rate or time is worth most to improve, in a sentence or two.
func SensitivityFinding(a *study.SensitivityAnswer) string {
	if len(a.Effects) == 0 {
		return "This scenario has no rate and no time that is not zero."
	}
	if a.Settings.Reps < 2 {
		return "One " + page.Period(a.Base.Line) + " alone does not say how far these effects may be off."
	}
	rate := netRate(a.NetRate)
	if !a.Gains {
		return fmt.Sprintf("%s any single rate or time is not shown to gain anything, on %s good envelopes an hour.", sensitivityDividing(a), rate)
	}
	best, rank, rivals := &a.Effects[0], "is worth most", sensitivityRivals(a)
	if rivals != "" {
		rank = "leads"
	}
	return fmt.Sprintf("%s %s %s: %s good envelopes an hour, on %s.%s %d of %d rates and times are shown to matter.",
		sensitivityDividing(a), sensitivityOwned(best), rank, say.Gain(best.Lower.Change.Estimate()), rate, rivals, a.Matter, len(a.Effects))
}

// sensitivityDividing returns the word for dividing by the factor.
func sensitivityDividing(a *study.SensitivityAnswer) string {
	if a.Factor == study.SensitivityFactor {
		return "Halving"
	}
	return "Dividing by " + say.Exact(float64(a.Factor))
}

// SensitivityHeadings returns the words for being divided and multiplied by the factor.
func SensitivityHeadings(a *study.SensitivityAnswer) (lower, higher string) {
	if a.Factor == study.SensitivityFactor {
		return "halved", "doubled"
	}
	return "÷ " + say.Exact(float64(a.Factor)), "× " + say.Exact(float64(a.Factor))
}

// sensitivityRivals says how many others may be worth as much as the first.
func sensitivityRivals(a *study.SensitivityAnswer) string {
	switch rivals := a.Rivals(); len(rivals) {
	case 0:
		return ""
	case 1:
		return " Not shown to be worth less: " + sensitivityOwned(&rivals[0]) + "."
	default:
		return fmt.Sprintf(" %d others are not shown to be worth less.", len(rivals))
	}
}

// sensitivityOwned returns a rate or time as part of a sentence: "the inserter's jams".
func sensitivityOwned(x *study.SensitivityEffect) string {
	of := ""
	if x.Line != "" {
		of = " of " + x.Line
	}
	if x.Station == "" {
		return "the " + x.Word + of
	}
	return "the " + x.Station + "'s " + x.Word + of
}
