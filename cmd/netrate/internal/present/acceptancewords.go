package present

import (
	"fmt"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// Limits, risks and hours of a test, as all that is said of one has them.

// acceptanceName returns what a clause is about, in a sentence.
func acceptanceName(c *study.AcceptanceClause) string {
	return [...]string{"net rate", "stops", "clearing time", "defective mail", "diverted sets"}[c.Of]
}

// acceptanceUnit returns what a clause counts, with its unit.
func acceptanceUnit(c *study.AcceptanceClause) string {
	return [...]string{"good envelopes an hour", "stops for faults in 1,000 sets", "mean clearing time, s", "defective envelopes in a million", "sets diverted or outsorted in 1,000"}[c.Of]
}

// acceptanceLimit returns the limit of a clause.
func acceptanceLimit(c *study.AcceptanceClause) string {
	return acceptanceLimitOf(c, c.Limit)
}

// acceptanceLimitOf returns what could be the limit of a clause: with all the digits that it has, since it is
// signed, and was rounded before its risks were known.
func acceptanceLimitOf(c *study.AcceptanceClause, limit study.Number) string {
	if x := float64(limit); c.Of != study.AcceptanceRate && x < 1000 {
		return strconv.FormatFloat(say.ToDecimals(x, 9), 'f', -1, 64)
	}
	return say.Rounded(float64(limit), 0)
}

// acceptanceDigits returns a figure with up to four digits.
func acceptanceDigits(x float64) string {
	if x >= 1000 {
		return say.Rounded(x, 0)
	}
	return fmt.Sprintf("%.4g", x)
}

// acceptanceHours returns hours as people say them.
func acceptanceHours(h study.Number) string { return say.Decimals(float64(h), 2) }

// acceptanceAsked returns a risk that is asked for.
func acceptanceAsked(risk study.Number) string { return say.Decimals(100*float64(risk), 2) + " %" }

// acceptanceRisk returns a risk in a sentence.
func acceptanceRisk(p study.Proportion) string { return acceptanceTold(p, "less than ", "more than ") }

// acceptanceShort is a risk as a table has it, beside the one that was asked for.
func acceptanceShort(p study.Proportion, asked study.Number) string {
	return acceptanceAbove(acceptanceTold(p, "< ", "> "), p, asked)
}

// acceptanceTold returns a risk: of one that was counted in none or in all of the tests what its interval says, since
// no count shows 0 % or 100 %. One whose interval is nothing was computed, and is said as it is.
func acceptanceTold(p study.Proportion, less, more string) string {
	switch {
	case p.Low == p.High:
		return say.Share(float64(p.Share))
	case p.Share == 0:
		return less + say.AtMost(float64(p.High))
	case p.Share == 1:
		return more + say.AtLeast(float64(p.Low))
	}
	return say.ShareOf(float64(p.Share), float64(p.High-p.Low)/2, less, more)
}

// acceptanceComputed returns a risk that was computed of what can be and need not be: it is neither 0 % nor 100 %,
// whatever was lost in rounding.
func acceptanceComputed(risk study.Number) string {
	return say.Share(min(max(float64(risk), 1e-9), 1-1e-9))
}

// acceptanceBeside returns a risk in a sentence, beside the one that was asked for.
func acceptanceBeside(p study.Proportion, asked study.Number) string {
	return acceptanceAbove(acceptanceRisk(p), p, asked)
}

// acceptanceAbove returns the text of a risk or, of one that is above the one that was asked for, as many digits as
// show it.
func acceptanceAbove(text string, p study.Proportion, asked study.Number) string {
	if p.Share <= asked || say.Rounded(100*float64(p.Share), 0) != say.Rounded(100*float64(asked), 0) {
		return text
	}
	digits := 1
	for digits < 4 && say.ToDecimals(100*float64(p.Share), digits) <= 100*float64(asked) {
		digits++
	}
	return say.Decimals(100*float64(p.Share), digits) + " %"
}

// acceptanceAgainst is acceptanceBeside in a sentence: of a risk that is above the one asked for it says that.
func acceptanceAgainst(p study.Proportion, asked study.Number) string {
	if p.Share <= asked {
		return acceptanceBeside(p, asked)
	}
	return acceptanceBeside(p, asked) + " (above the " + acceptanceAsked(asked) + ")"
}

// acceptanceList joins paragraphs, in which numbers and their percent signs stay on one line.
func acceptanceList(paragraphs ...string) string {
	return strings.ReplaceAll(strings.Join(paragraphs, "\n\n"), " %", "\u00a0%")
}
