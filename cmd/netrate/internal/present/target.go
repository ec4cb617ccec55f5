package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// targetFact says how many shifts reach the target of a file, and what would win it back.
func targetFact(t *study.TargetMet, word string) fact {
	f := fact{"Target", []string{fmt.Sprintf("%s of %ss reach %s an hour (95 %%: %s to %s)", targetShare(t), word,
		say.Exact(float64(t.Rate)), say.Percent(float64(t.Low), 0.01), say.Percent(float64(t.High), 0.01))}}
	if t.Short > 0 {
		f.says = append(f.says, say.Capital(targetHelp(t)))
	}
	return f
}

// targetHelp says what the mean lacks, and what would make up for it, where that was looked for.
func targetHelp(t *study.TargetMet) string {
	text := fmt.Sprintf("the mean is %s an hour short", say.TwoDigits(float64(t.Short)))
	switch {
	case !t.Looked:
		return text
	case len(t.WonBack) == 0:
		return text + "; no one rate or time was found that wins that back"
	}
	var ways []string
	for _, h := range t.WonBack {
		ways = append(ways, fmt.Sprintf("%s from %s to %s", h.Name, h.Value, h.Then))
	}
	how := "simulated"
	if t.AtMeans {
		how += " with each uncertain input at its mean"
	}
	return text + "; " + how + ", it is won back by " + strings.Join(ways, ", or by ")
}

// targetShare returns the share of the replications that reach a target, with the digits that its
// interval bears: none or all only if it is none or all.
func targetShare(t *study.TargetMet) string {
	share := float64(t.Share)
	if share == 0 || share == 1 {
		return say.Rounded(100*share, 0) + " %"
	}
	return say.Percent(share, min(float64(t.High-t.Low)/2, share, 1-share))
}

// targetWords says whether the line that is recommended reaches the target, and in how many shifts it
// and others do; nothing without one.
func (c Comparison) targetWords() string {
	first := c.recommended()
	t := c.Lines[first].Target
	if t == nil {
		return ""
	}
	text := fmt.Sprintf("With %s the target of %s an hour is %s: in %s of %ss", c.called(first), say.Exact(float64(t.Rate)), targetVerdict(float64(t.Share)), targetShare(t), c.period())
	var others []string
	for _, i := range c.rows() {
		if i != first {
			others = append(others, targetShare(c.Lines[i].Target)+" with "+c.called(i))
		}
	}
	text += ", against " + say.List(others) + "."
	if t.Short > 0 {
		text += " " + say.Capital(targetHelp(t)) + "."
	}
	return text
}

// targetVerdict says whether a target is reached, by the share of the replications that reach it.
func targetVerdict(share float64) string {
	switch {
	case share >= nearly:
		return "reached"
	case share <= 1-nearly:
		return "not reached"
	case share >= 0.5:
		return "reached at least as often as not, but not surely"
	}
	return "missed more often than not"
}

// threshold returns how a target is marked in a figure of net rates; nil if there is none.
func threshold(t *study.TargetMet) *plots.Threshold {
	if t == nil {
		return nil
	}
	return &plots.Threshold{At: float64(t.Rate), Name: "target " + say.Exact(float64(t.Rate))}
}

// targetFigure draws how many replications reach each net rate, of lines of which some are recommended
// over others, and marks their target.
func targetFigure(title, sample string, xs []study.LineAnswer, recommended int) (*plots.Figure, error) {
	word := page.Period(xs[0].Study.Line)
	d := plots.CumulativeData{
		Head: plots.Head{Title: title, Subtitle: "Share of single " + word + "s whose net rate is as high or higher; " + sample},
		Axis: page.PerHour, Of: plots.Runs{One: word, Many: word + "s"}, Reach: threshold(xs[0].Target),
	}
	for i, x := range xs {
		d.Curves = append(d.Curves, plots.Values{Name: x.Name, Role: roleOf(i, recommended), Values: x.Study.NetRates()})
	}
	return plots.Cumulative(d)
}

// beyond says how many shifts reach the target; nothing without one.
func beyond(x *study.LineAnswer) string {
	if x.Target == nil {
		return ""
	}
	return fmt.Sprintf("%s of %ss reach it", targetShare(x.Target), page.Period(x.Study.Line))
}
