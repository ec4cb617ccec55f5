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
	return text + "; simulated, it is won back by " + strings.Join(ways, ", or by ")
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

// targetWords says of some lines how many shifts reach the target; nothing without one.
func (c Comparison) targetWords() string {
	var all []string
	for _, i := range c.rows() {
		t := c.Lines[i].Target
		if t == nil {
			return ""
		}
		if of := c.called(i); len(all) == 0 {
			all = append(all, fmt.Sprintf("The target of %s an hour is reached in %s of %ss with %s", say.Exact(float64(t.Rate)), targetShare(t), c.period(), of))
		} else {
			all = append(all, targetShare(t)+" with "+of)
		}
	}
	text := say.List(all) + "."
	if t := c.Lines[c.recommended()].Target; t.Short > 0 {
		text += fmt.Sprintf(" Even with %s %s.", c.called(c.recommended()), targetHelp(t))
	}
	return text
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
