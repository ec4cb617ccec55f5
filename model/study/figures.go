package study

import (
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/runs"
)

// FiguresOf returns the figures of a replication that say something of any of the lines.
func FiguresOf(lines ...*model.Line) []runs.Figure {
	return slices.DeleteFunc(runs.Figures(), func(f runs.Figure) bool {
		return !slices.ContainsFunc(lines, func(l *model.Line) bool { return says(l, f) })
	})
}

// says reports whether a figure is not 0 of every line of this sort.
func says(l *model.Line, f runs.Figure) bool {
	switch f.Name {
	case "channel_too_slow":
		return HasChannel(l)
	case "remakes":
		return l.Personalised()
	case "breaks":
		return l.Crew.StandsForBreaks()
	case "slow_cycles":
		return l.Slow.Given()
	case "finish":
		return l.Job.Sets > 0
	}
	return true
}

// HasChannel reports whether the line has a document channel.
func HasChannel(l *model.Line) bool { return l.First(model.Gathers) >= 0 }

// unitWords turns a unit into a part of a name: made once, for rows that are written one by one.
var unitWords = strings.NewReplacer("/", "_per_", " ", "_")

// Column returns the name under which a figure is encoded, which ends with its unit: running_s,
// good_sets, net_rate_envelopes_per_h.
func Column(f runs.Figure) string {
	unit := unitWords.Replace(f.Unit)
	if strings.HasSuffix(f.Name, unit) {
		return f.Name
	}
	return f.Name + "_" + unit
}
