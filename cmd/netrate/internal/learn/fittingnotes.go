package learn

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios/stoplog"
)

// notes returns what qualifies the figures, in sentences.
func (x *fitting) notes() []string {
	text := []string{
		"Only what stopped the line is in a stop log: doubles that nobody noticed and sets that a gate took out are not in these rates.",
		"The lengths are those of the log, with walk and restart if it counts them; in a scenario these come on top.",
		"They also hold the wait for somebody free, which the simulation adds again: with one busy operator some percent of the standing time.",
	}
	if taken := x.taken(); taken != "" {
		text = append([]string{taken}, text...)
	}
	if narrowed := x.narrowed(); narrowed != "" {
		text = append([]string{narrowed}, text...)
	}
	others := int64(0)
	for _, l := range x.learnt {
		text = append(text, l.notes()...)
		_, n := l.faultStops()
		others += int64(n)
	}
	if others > 0 {
		text = append(text, fmt.Sprintf("%s for stocks, other causes or what is no fault of such a station: not in the rates.%s", say.Plural(others, "stop"), x.unknownCauses()))
	}
	return text
}

// notes returns what qualifies the figures of a station.
func (l *learnt) notes() []string {
	var text []string
	add := func(format string, args ...any) { text = append(text, l.name+": "+fmt.Sprintf(format, args...)) }
	if l.feeds == 0 && l.kind.name != "" {
		add("its feeds are not counted, so there are no rates.")
	}
	if l.kind.name == "" && len(l.stops) == 0 {
		add("no stop; --kind says what it is, so that its rates can be written.")
	}
	if l.kind.name != "" {
		switch {
		case l.chosen == nil:
			add("no clearing time, %s.", l.noFit)
		case l.chosen.Goodness.Tested && l.chosen.Goodness.P < usualP:
			add("not even the %s fits the lengths; their own values, as empirical, may serve better. AIC of the others: %s.", l.chosen.Kind, l.ranking())
		default:
			add("AIC of the other kinds, against the %s: %s.", l.chosen.Kind, l.ranking())
		}
	}
	if l.cut > 0 && l.chosen != nil {
		add("%s cut off, which lasted as long as is written or longer; the fit was not tested.", say.Plural(l.cut, "stop"))
	}
	if l.zeros > 0 {
		add("%s of no length not in the clearing time.", say.Plural(l.zeros, "stop"))
	}
	for _, f := range l.faults {
		if f.jobs != nil && f.jobs.outside > 0 {
			add("%s for %s in jobs that have no feeds.", say.Plural(f.jobs.outside, "stop"), f.called)
		}
		if f.speeds != nil && f.speeds.outside > 0 {
			add("%s for %s at speeds that have no feeds.", say.Plural(f.speeds.outside, "stop"), f.called)
		}
		if f.unlimited != "" {
			add("no growth of %s with the speed: %s.", f.called, f.unlimited)
		}
	}
	return text
}

// mostUnknown is how many words for causes are named that mean none.
const mostUnknown = 5

// unknownCauses names the words that mean no cause.
func (r *records) unknownCauses() string {
	counts := r.unknownWords()
	words := frequent(counts, len(counts))
	if len(words) == 0 {
		return ""
	}
	more := ""
	if n := len(words) - mostUnknown; n > 0 {
		words, more = words[:mostUnknown], fmt.Sprintf(" and %d more", n)
	}
	return " No known cause: " + strings.Join(words, ", ") + more + "; --cause says what a word means."
}

// shownProblems is how many of the rows that were skipped are explained.
const shownProblems = 3

// wasRead returns what was read as what, and what became of the rows.
func wasRead(r *records) string {
	var b strings.Builder
	for _, file := range []struct {
		name string
		stoplog.Report
	}{{r.logFile, r.log}, {r.countFile, r.counts}} {
		fmt.Fprintf(&b, "%s: %s, %s used, %s skipped\n", desk.ShownFile(file.name), say.Plural(file.Rows, "row"), say.Thousands(file.Used), say.Thousands(file.Skipped))
		for line := range strings.Lines(file.Layout.String()) {
			b.WriteString(say.Indented(say.Wrapped(line, say.Screen-2)))
		}
		for _, p := range file.Problems[:min(len(file.Problems), shownProblems)] {
			b.WriteString(say.Indented(say.Wrapped(fmt.Sprintf("line %d was skipped: %s", p.Line, p.Text), say.Screen-2)))
		}
		if file.Midnights > 0 {
			b.WriteString(say.Indented(say.Plural(file.Midnights, "stop") + " ended on the day after"))
		}
	}
	return b.String()
}
