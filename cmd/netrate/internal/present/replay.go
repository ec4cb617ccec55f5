package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots/terminal"
	"netrate/scenarios/stoplog"
	"netrate/sim"
)

// Replay is how a log compares with simulated records, to be said.
type Replay struct {
	*study.ReplayAnswer
	Log     Log
	Origin  page.Origin // the scenario
	Command string      // that does it again, but for the seed and the number of records
}

// shownRows is how many stations and faults the screen has.
const shownRows = 15

// Text returns whether the model reproduces the log: the finding first, then the tests, the
// stations, and what qualifies them.
func (p Replay) Text() string {
	stops := p.Stops()
	more := len(stops.Rows) - shownRows
	if more > 0 {
		stops.Rows = stops.Rows[:shownRows]
	}
	var b strings.Builder
	b.WriteString(Screen(p.title(), p.Finding(), p.Figures(), stops))
	if more > 0 {
		b.WriteString(say.Wrapped(fmt.Sprintf("%d more are in the report and in --json.", more), say.Prose()))
	}
	b.WriteString("\n")
	for _, note := range p.Notes() {
		b.WriteString(say.Wrapped(note, say.Prose()))
	}
	fmt.Fprintf(&b, "\nTo repeat it:\n  %s\n", p.again())
	return b.String()
}

// again returns the command that does the same again.
func (p Replay) again() string {
	return fmt.Sprintf("%s --seed %d --reps %d", p.Command, p.Plan.Seed, len(p.Drawn))
}

// title returns what was compared, on one line.
func (p Replay) title() string {
	partial := ""
	if p.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	much := fmt.Sprintf(" (%s of %s)", say.Plural(len(p.Drawn), "record"), say.Plural(len(p.Periods), p.Period))
	room := say.Screen() - terminal.Width(partial+much)
	return partial + say.Shortened(p.Origin.Scenario.Name+" against "+p.Log.StopFile.Name+stoplog.Taken(p.Log.Log), room) + much
}

// Finding says whether the model reproduces the log.
func (p Replay) Finding() string { return p.Log.cautioned(p.verdict()) }

// verdict says what the tests show.
func (p Replay) verdict() string {
	var out []string
	for _, t := range p.Contradicted() {
		out = append(out, p.outOfLine(t))
	}
	switch {
	case len(out) > 0:
		return "The model does not reproduce the log: " + strings.Join(out, "; ") + "."
	case p.TooFew():
		return fmt.Sprintf("%s cannot tell whether the model reproduces the log: no P can be below %s.", say.Plural(len(p.Drawn), "simulated record"), say.Rounded(p.LeastP(), -3))
	}
	return "The log does not contradict the model: it is out of line in none of the " + numeral(len(p.Tests)) + " tests." + p.shows()
}

// shows says how large a difference must be to be seen.
func (p Replay) shows() string {
	stops, seconds, is := p.Shows()
	if !is {
		return ""
	}
	n := len(p.Periods)
	subject := say.Capital(numeral(n)) + " " + p.Period
	if n != 1 {
		subject += "s"
	}
	return fmt.Sprintf(" %s can show a difference of some %s %% in stops, or of %s %% in seconds, and hardly a smaller one.", subject, say.TwoDigits(100*stops), say.TwoDigits(100*seconds))
}

// numeral returns a small number as a word.
func numeral(n int) string {
	words := []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return words[n]
	}
	return say.Thousands(n)
}

// outOfLine says in what way the log is out of line.
func (p Replay) outOfLine(t runs.RecordTest) string {
	with := " (" + withP(t.P) + ")"
	switch t.Figure {
	case runs.AllStops:
		return "it has " + fold(t, "as many stops as", "more stops than", "fewer stops than") + " simulated" + with
	case runs.AllSeconds:
		return "its line stood for " + fold(t, "as many seconds as", "more seconds than", "fewer seconds than") + " simulated" + with
	case runs.VaryingStops:
		return "its " + p.Period + "s differ in stops with " + fold(t, "the variance", "more variance than", "less variance than") + " simulated" + with
	case runs.VaryingSeconds:
		return "its " + p.Period + "s differ in how long the line stood with " + fold(t, "the variance", "more variance than", "less variance than") + " simulated" + with
	}
	panic("netrate: a test of an unknown figure")
}

// fold says how many times as much as is simulated the log has, from twice on, or by how many
// percent more or less. The words for each say what there is more or less of.
func fold(t runs.RecordTest, times, more, less string) string {
	mean := t.Simulated.Mean()
	switch share := t.Log / mean; {
	case mean == 0:
		return "any number of times " + times
	case share >= 1.995: // which is written as twice
		return say.TwoDigits(share) + " times " + times
	case share > 1:
		return say.TwoDigits(100*(share-1)) + " % " + more
	default:
		return say.TwoDigitsOr0(100*(1-share)) + " % " + less
	}
}

// probability returns a P.
func probability(p float64) string {
	switch {
	case p < 0.0005:
		return "<0.001"
	case p < 0.095:
		return say.Rounded(p, -3)
	}
	return say.Rounded(p, -2)
}

// withP returns a P in a sentence, on one line with its number.
func withP(p float64) string {
	if text := probability(p); strings.HasPrefix(text, "<") {
		return "P\u00a0<\u00a0" + text[1:]
	}
	return "P\u00a0=\u00a0" + probability(p)
}
