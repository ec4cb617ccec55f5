package present

import (
	"fmt"
	"maps"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// Log is a log and how its two files were read.
type Log struct {
	*study.Log
	StopRows, CountRows stoplog.Report
}

// manyUnknown is the share of all stops from which on unknown causes are named at once (common
// practice, no source).
const manyUnknown = 0.01

// narrowed says how many rows were taken, "" if all were.
func (l Log) narrowed() string {
	if l.Only == nil {
		return ""
	}
	return fmt.Sprintf("Only rows%s were taken: %s of %s and %s of %s.", stoplog.Taken(l.Log),
		say.Thousands(l.Only.Stops), say.Plural(l.StopRows.Used, "stop"), say.Thousands(l.Only.Counts), say.Plural(l.CountRows.Used, "count"))
}

// untimed says that stops name only the hour or the shift that they were in, and what follows.
func (l Log) untimed() string {
	n, mixed := l.Untimed()
	if n == 0 {
		return ""
	}
	text := fmt.Sprintf("%s name no moment, only the hour or the shift that they were in: each is taken to be of the job and the speed that %s has then.", say.Plural(n, "stop"), l.CountFile.Name)
	if l.Time.Calendar {
		text += " At night its date is that of the calendar, and theirs that of the day before, by the jobs that both name."
	}
	if mixed > 0 {
		text += fmt.Sprintf(" Of %s that cannot be told, as there were several: these stops, and the feeds of those hours or shifts, are in the rates of their stations, but in none by job or speed.", say.Thousands(mixed))
	}
	return text
}

// midnights says that shifts ran over midnight, where nobody says when a day of the counts begins.
func (l Log) midnights(starts time.Duration) string {
	n := l.OverMidnight()
	if n == 0 || starts > 0 {
		return ""
	}
	return fmt.Sprintf("The line ran over midnight on %s, and the counts give dates alone: --day-starts 06:00 says when a day of theirs begins.", say.Plural(n, "night"))
}

// Mistaken says which stations the two files probably call by different names.
func (l Log) Mistaken() (text []string) {
	for _, s := range l.Stations {
		if len(s.Stops) == 0 {
			continue
		}
		if twin := stoplog.Twin(l.Log, s); twin != "" {
			text = append(text, fmt.Sprintf("%q has %s in %s and no feeds in %s: did you mean %q, which has %s feeds and %s?",
				s.Name, say.Plural(len(s.Stops), "stop"), l.StopFile.Name, l.CountFile.Name, twin, say.Thousands(l.FeedsOf(twin)), say.Plural(len(l.StopsOf(twin)), "stop")))
		}
	}
	return text
}

// cautions returns what must be known before any figure is believed, in sentences.
func (l Log) cautions() []string {
	text := append(l.Mistaken(), l.otherTimes()...)
	stops, unknown, words := l.Stops(), int64(0), l.UnknownWords()
	maps.DeleteFunc(words, func(word string, _ int64) bool { return nameless(word) })
	for _, n := range words {
		unknown += n
	}
	if float64(unknown) > manyUnknown*float64(stops) {
		text = append(text, fmt.Sprintf("%s of %s (%s) have causes that are not known, most often %s: --cause says what a word means.",
			say.Thousands(unknown), say.Plural(stops, "stop"), say.Percent(float64(unknown)/float64(stops), 0), say.List(stoplog.Frequent(words, 2))))
	}
	return text
}

// otherTimes says what was left out as it is not of the same time in both files, or is there twice.
func (l Log) otherTimes() (text []string) {
	t := &l.Time
	if n := len(t.Uncounted); n > 0 {
		stops, days := l.StopFile.Name, study.LogSpan{}
		for _, x := range t.Uncounted {
			day := x.When.Format(time.DateOnly)
			if days.From == "" || day < days.From {
				days.From = day
			}
			days.To = max(days.To, day)
		}
		text = append(text, fmt.Sprintf("%s of %s left out, of %s: %s has no feeds then. Stops are from %s, counts from %s.",
			say.Plural(n, "stop"), stops, days, l.CountFile.Name, t.Stops, t.Counts))
	}
	if len(t.Silent) > 0 {
		var spans []string
		for _, s := range t.Silent {
			spans = append(spans, s.String())
		}
		text = append(text, fmt.Sprintf("%s has no stop of %s, where about %s were to be expected: these feeds are left out. Stops are from %s, counts from %s.",
			l.StopFile.Name, say.List(spans), say.Thousands(t.Expected), t.Stops, t.Counts))
	}
	if t.Strangers > 0 {
		text = append(text, fmt.Sprintf("%s of %s name a job that %s does not have in their hour or shift: is the date of a night in one file that of the calendar, and in the other that of the day on which the shift began? --day-starts 06:00 says when it does.",
			say.Plural(t.Strangers, "stop"), l.StopFile.Name, l.CountFile.Name))
	}
	for _, twice := range []struct {
		file string
		rows int
	}{{l.StopFile.Name, t.TwiceStops}, {l.CountFile.Name, t.TwiceCounts}} {
		if twice.rows > 0 {
			text = append(text, fmt.Sprintf("%s of %s stand there twice, alike in all: each was taken once.", say.Plural(twice.rows, "row"), twice.file))
		}
	}
	return text
}

// nameless reports whether a word for a cause is none.
func nameless(word string) bool {
	return study.LogStop{Cause: study.LogOther, Called: word}.Nameless()
}

// cautioned returns a finding behind what must be known before it.
func (l Log) cautioned(finding string) string {
	return strings.Join(append(l.cautions(), finding), " ")
}

// mostUnknown is how many words for causes are named that mean none.
const mostUnknown = 5

// unknownCauses names the words that mean no cause.
func (l Log) unknownCauses() string {
	counts := l.UnknownWords()
	maps.DeleteFunc(counts, func(word string, _ int64) bool { return nameless(word) })
	words := stoplog.Frequent(counts, len(counts))
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

// read returns what was read as what, and what became of the rows.
func (l Log) read() string {
	var b strings.Builder
	for _, file := range []struct {
		name string
		stoplog.Report
	}{{l.StopFile.Name, l.StopRows}, {l.CountFile.Name, l.CountRows}} {
		fmt.Fprintf(&b, "%s: %s, %s used, %s skipped\n", file.name, say.Plural(file.Rows, "row"), say.Thousands(file.Used), say.Thousands(file.Skipped))
		for line := range strings.Lines(file.Layout.String()) {
			b.WriteString(say.Indented(say.Wrapped(line, say.Prose()-2)))
		}
		for _, p := range file.Problems[:min(len(file.Problems), shownProblems)] {
			b.WriteString(say.Indented(say.Wrapped(fmt.Sprintf("line %d was skipped: %s", p.Line, p.Text), say.Prose()-2)))
		}
		if file.Elsewhere > 0 {
			b.WriteString(say.Indented(say.Plural(file.Elsewhere, "row") + " of other lines left out"))
		}
		if file.Midnights > 0 {
			b.WriteString(say.Indented(say.Plural(file.Midnights, "stop") + " ended on the day after"))
		}
	}
	return b.String()
}
