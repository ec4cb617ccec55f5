package stoplog

import (
	"strings"
	"unicode"
)

// Column is what a column of a file holds.
type Column string

// The columns of a stop log: the first three must be there, and Length or End. Where it has no When,
// Period or Shift say in which hour or shift of the counts a stop was, with Day if the counts
// have days. Those of counts are Station and Feeds, which must be there, Job, Speed, Period, Shift
// and Day. Both may be of several lines, which OfLine then names.
const (
	When    Column = "when"    // date and time at which the stop began
	Station Column = "station" // the station that stopped the line
	Reason  Column = "cause"   // why the line stopped
	Length  Column = "length"  // how long the line stood
	End     Column = "end"     // date and time at which it ran again, read where Length has nothing
	Arrival Column = "arrival" // date and time at which an operator was there
	Day     Column = "day"     // date of When and End, where these hold the time of day only; date of a count
	OfLine  Column = "line"    // the line that a row is of, in a file of several
	Job     Column = "job"
	Speed   Column = "speed"   // cycles per hour
	CutOff  Column = "cut off" // yes: the stop was not over when the log ended, it lasted at least so long
	Feeds   Column = "feeds"   // feeds or cycles run
	Shift   Column = "shift"
	Period  Column = "period" // an hour, or another part of a day
	Good    Column = "good"   // good envelopes that the line delivered, in counts with a column for each station
)

// kind is a column that a file may have.
type kind struct {
	column Column
	words  string // headings that are usual for it, made plain; common practice, no source
	units  string // units that may stand beside such a word; * for a unit alone
}

var stopKinds = []kind{
	{When, "when start starttime started begin beginning began time timestamp datetime dateandtime stoppedat at t", "seconds"},
	{Station, "station stationname feeder module position place where location machinepart", ""},
	{Reason, "cause reason fault stopcause stopreason causeofstop reasonforstop event alarm whathappened what problem", ""},
	{Length, "duration length downtime stopped stoppedfor standstill lost stoplength stopduration howlong stoodfor", "seconds minutes hours *"},
	{End, "end endtime ended finish finished until restart restarted restartedat", "seconds"},
	{Arrival, "arrival arrived attended operatorarrived operatorthere arrivaltime", "seconds"},
	{Day, "day date", ""},
	{OfLine, lineWords, ""},
	{Job, "job jobname jobnumber jobno order", ""},
	{Speed, "speed cyclespeed linespeed speedcycles speedcyclesper setspeed speedset", "hours"},
	{CutOff, "cutoff censored open stillopen unfinished", ""},
	{Period, periodWords, ""},
	{Shift, "shift shiftname", ""},
}

// lineWords are the headings of lines. A line number is none of them: it is often that of the row.
const lineWords = "line linename productionline"

// periodWords are the headings of periods; hour alone is a period, and no unit.
const periodWords = "period hour timeslot slot interval"

var countKinds = []kind{
	{Station, "station stationname feeder module position place where location machinepart", ""},
	{Feeds, "feeds fed feedsrun cycles cyclesrun count pieces sets", ""},
	{OfLine, lineWords, ""},
	{Job, "job jobname jobnumber jobno order", ""},
	{Speed, "speed cyclespeed linespeed speedcycles speedcyclesper setspeed speedset", "hours"},
	{Period, periodWords, ""},
	{Shift, "shift shiftname", ""},
	{Day, "day date when", ""},
	{Good, "good goodenvelopes goodsets goodcount goodoutput goodpieces netoutput output delivered", ""},
}

// StopHeadings returns the columns of a stop log with their usual headings, in small letters
// and without blanks and signs, and CountHeadings those of counts.
func StopHeadings() []Words { return headings(stopKinds) }

// CountHeadings returns the columns of counts with their usual headings.
func CountHeadings() []Words { return headings(countKinds) }

func headings(kinds []kind) []Words {
	list := make([]Words, len(kinds))
	for i, k := range kinds {
		list[i] = Words{string(k.column), strings.Fields(k.words)}
	}
	return list
}

func columnNames(kinds []kind) []string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = string(k.column)
	}
	return names
}

// unitWords are the units as they are written in headings.
var unitWords = map[string]Unit{
	"s": Seconds, "sec": Seconds, "secs": Seconds, "second": Seconds, "seconds": Seconds,
	"min": Minutes, "mins": Minutes, "minute": Minutes, "minutes": Minutes,
	"h": Hours, "hr": Hours, "hrs": Hours, "hour": Hours, "hours": Hours,
}

// clockUnits are how headings say that lengths are written with a colon, and what they are counted
// in; whole clocks need no unit.
var clockUnits = []struct {
	written string
	unit    Unit
}{{"h:mm:ss", ""}, {"hh:mm:ss", ""}, {"mm:ss", Minutes}, {"m:ss", Minutes}, {"hh:mm", Hours}, {"h:mm", Hours}}

// hourWord is the heading of a column of hours of the day.
const hourWord = "hour"

// splitHeading splits the heading of a column, such as "Duration (min)", into its words, made
// plain and put together, and the unit among them, which is the first or the last of them.
func splitHeading(text string) (word string, unit Unit) {
	text = strings.ToLower(text)
	if plain(text) == hourWord {
		return hourWord, ""
	}
	for _, c := range clockUnits {
		if rest, clocked := strings.CutSuffix(strings.TrimRight(text, " )]"), c.written); clocked {
			text, unit = rest, c.unit
			break
		}
	}
	words := strings.FieldsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	if n := len(words); n > 0 && unit == "" {
		if u := unitWords[words[n-1]]; u != "" {
			words, unit = words[:n-1], u
		} else if u := unitWords[words[0]]; u != "" {
			words, unit = words[1:], u
		}
	}
	return strings.Join(words, ""), unit
}

// isUsual says whether the heading is usual for the column.
func (k *kind) isUsual(text string) bool {
	word, unit := splitHeading(text)
	if unit != "" && !has(k.units, string(unit)) {
		return false
	}
	if word == "" {
		return unit != "" && has(k.units, "*")
	}
	return has(k.words, word)
}

// has says whether word is one of some words.
func has(words, word string) bool {
	for w := range strings.FieldsSeq(words) {
		if w == word {
			return true
		}
	}
	return false
}
