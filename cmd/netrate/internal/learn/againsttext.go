package learn

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// answer returns whether the model reproduces the log: the finding first, then the tests,
// the stations, and what qualifies them.
func (x *against) answer() string {
	var b strings.Builder
	b.WriteString(x.title() + "\n\n" + say.Wrapped(x.finding(), say.Screen) + "\n")
	b.WriteString(say.Columns(x.testRows()))
	rows := x.rows()
	b.WriteString("\n" + say.Columns(x.causeRows(rows[:min(len(rows), shownRows)])))
	if more := len(rows) - shownRows; more > 0 {
		b.WriteString(say.Wrapped(fmt.Sprintf("%d more are in the report and in --json.", more), say.Screen))
	}
	b.WriteString("\n")
	for _, note := range x.notes() {
		b.WriteString(say.Wrapped(note, say.Screen))
	}
	fmt.Fprintf(&b, "\nTo repeat it:\n  %s --seed %d --reps %d\n", x.again, x.plan.Seed, len(x.drawn))
	return b.String()
}

// shownRows is how many stations and faults the screen has.
const shownRows = 15

// title returns what was compared, on one line.
func (x *against) title() string {
	partial := ""
	if x.ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	much := fmt.Sprintf(" (%s of %s)", say.Plural(len(x.drawn), "record"), say.Plural(len(x.periods), x.word))
	room := say.Screen - utf8.RuneCountInString(partial+much)
	return partial + say.Shortened(x.Name+" against "+desk.ShownFile(x.records.logFile)+x.records.words(), room) + much
}

// finding says whether the model reproduces the log.
func (x *against) finding() string { return x.records.withCautions(x.verdict()) }

// verdict says what the tests show.
func (x *against) verdict() string {
	var out []string
	for _, t := range x.tests {
		if t.Out {
			out = append(out, x.outOfLine(t))
		}
	}
	if len(out) > 0 {
		return "The model does not reproduce the log: " + strings.Join(out, "; ") + "."
	}
	if least := x.leastP(); least > usualP/float64(len(x.tests)) {
		return fmt.Sprintf("%s cannot tell whether the model reproduces the log: no P can be below %s.", say.Plural(len(x.drawn), "simulated record"), say.Rounded(least, -3))
	}
	return "The log does not contradict the model: in none of " + numeral(len(x.tests)) + " tests is it out of line." + x.shows()
}

// shows says how large a difference must be to be seen: half of what 95 % of the simulated
// records lie between, as a share of their mean.
func (x *against) shows() string {
	var least [2]string
	for i, t := range x.tests[:model.AllSeconds+1] {
		low, high := middle(t.Simulated)
		half := (high - low) / 2 / t.Simulated.Mean()
		if !(half > 0 && half < 1) {
			return "" // too little is simulated
		}
		least[i] = say.TwoDigits(100*half) + " %"
	}
	n := len(x.periods)
	subject := say.Capital(numeral(n)) + " " + x.word
	if n != 1 {
		subject += "s"
	}
	return fmt.Sprintf(" %s would show some %s more or fewer stops, or %s more or fewer seconds, at the least.", subject, least[0], least[1])
}

// leastP returns the least P that there can be.
func (x *against) leastP() float64 { return 2 / float64(len(x.drawn)+1) }

// numeral returns a small number as a word.
func numeral(n int) string {
	words := []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return words[n]
	}
	return say.Thousands(n)
}

// outOfLine says in what way the log is out of line.
func (x *against) outOfLine(t model.RecordTest) string {
	p := " (" + withP(t.P) + ")"
	switch t.Figure {
	case model.AllStops:
		return "it has " + fold(t, "as many stops as", "more stops than", "fewer stops than") + " simulated" + p
	case model.AllSeconds:
		return "its line stood for " + fold(t, "as many seconds as", "more seconds than", "fewer seconds than") + " simulated" + p
	case model.VaryingStops:
		return "its " + x.word + "s differ in stops with " + fold(t, "the variance", "more variance than", "less variance than") + " simulated" + p
	case model.VaryingSeconds:
		return "its " + x.word + "s differ in how long the line stood with " + fold(t, "the variance", "more variance than", "less variance than") + " simulated" + p
	}
	panic("netrate: a test of an unknown figure")
}

// fold says how many times as much as is simulated the log has, from twice on, or by how many
// percent more or less. What there is so much of is told in the words for each of these.
func fold(t model.RecordTest, times, more, less string) string {
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

// withP returns a P in a sentence.
func withP(p float64) string {
	if text := probability(p); strings.HasPrefix(text, "<") {
		return "P < " + text[1:]
	}
	return "P = " + probability(p)
}

// testName returns what a test is about.
func (x *against) testName(f model.RecordFigure) string {
	switch f {
	case model.AllStops:
		if x.stocks {
			return "stops, stocks among them"
		}
		return "stops for faults"
	case model.AllSeconds:
		return "seconds stood for them"
	case model.VaryingStops:
		return x.word + "s differ: stops"
	case model.VaryingSeconds:
		return x.word + "s differ: seconds"
	}
	panic("netrate: a test of an unknown figure")
}

// testRows returns the table of the tests.
func (x *against) testRows() [][]string {
	rows := [][]string{{"", "log", "simulated", "95 % of them", "P", ""}}
	for _, t := range x.tests {
		write := writing(t.Figure)
		mark := ""
		if t.Out {
			mark = "out of line"
		}
		low, high := middle(t.Simulated)
		rows = append(rows, []string{
			x.testName(t.Figure), write(t.Log), write(t.Simulated.Mean()), write(low) + " to " + write(high), probability(t.P), mark,
		})
	}
	return rows
}

// writing returns how a figure is written.
func writing(f model.RecordFigure) func(float64) string {
	if f == model.VaryingStops || f == model.VaryingSeconds {
		return func(v float64) string { return say.Rounded(v, -2) }
	}
	return amount
}

// amount returns how many stops or seconds there are.
func amount(v float64) string {
	if v >= 20 || v == float64(int64(v)) {
		return say.Rounded(v, 0)
	}
	return strings.TrimSuffix(say.Rounded(v, -1), ".0")
}

// middle returns what 95 % of a sample lie between.
func middle(s sim.Sample) (low, high float64) {
	return s.Quantile((1 - say.Level) / 2), s.Quantile((1 + say.Level) / 2)
}

// causeRow is what the log and the simulated records have of one cause at one station.
type causeRow struct {
	station, cause string
	log            model.StopSum
	stops, seconds sim.Sample // simulated
}

func (r causeRow) name() string { return r.station + ", " + r.cause }

// outside says on which side of 95 % of the simulated records the log lies.
func (r causeRow) outside() string {
	low, high := middle(r.stops)
	switch n := float64(r.log.Stops); {
	case n < low:
		return "fewer"
	case n > high:
		return "more"
	}
	return ""
}

// rows returns all causes that the log or a simulated record has: first those that lie
// outside, each part as the stations stand.
func (x *against) rows() []causeRow {
	var outside, inside []causeRow
	for i, s := range x.line.Stations {
		for c := range x.log.Causes[i] {
			if cause := model.Cause(c); asLogged(cause) != cause || !x.counted(i, cause) {
				continue
			}
			r := x.row(i, model.Cause(c))
			r.station, r.cause = s.Where().Name, model.Cause(c).Name(s)
			switch {
			case r.log.Stops == 0 && r.stops.Mean() == 0:
			case r.outside() != "":
				outside = append(outside, r)
			default:
				inside = append(inside, r)
			}
		}
	}
	return slices.Concat(outside, inside)
}

// row returns the stops of a station for a cause of logs.
func (x *against) row(station int, c model.Cause) (row causeRow) {
	of := func(r *model.Replica) (sum model.StopSum) {
		for k, s := range r.Causes[station] {
			if asLogged(model.Cause(k)) == c {
				sum.Add(s)
			}
		}
		return sum
	}
	row.log = of(&x.log)
	for i := range x.drawn {
		s := of(&x.drawn[i])
		row.stops, row.seconds = append(row.stops, float64(s.Stops)), append(row.seconds, float64(s.Seconds))
	}
	return row
}

// causeRows returns the table of the stations and their faults.
func (x *against) causeRows(of []causeRow) [][]string {
	rows := [][]string{{"stops", "log", "simulated", "95 % of them", ""}}
	for _, r := range of {
		mark := r.outside()
		if mark != "" {
			mark = "log: " + mark
		}
		low, high := middle(r.stops)
		rows = append(rows, []string{r.name(), say.Thousands(r.log.Stops), amount(r.stops.Mean()), amount(low) + " to " + amount(high), mark})
	}
	return rows
}
