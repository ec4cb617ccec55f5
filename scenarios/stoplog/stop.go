package stoplog

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"netrate/model/study"
	"netrate/sim"
)

// Stop is one row of a stop log.
type Stop = study.LogStop

// Read reads a stop log and calls each for every stop of it, in the order of the file. Rows
// that cannot be read are skipped; after the last row they make an error, [BadRows], unless
// the mapping says SkipBad. Where the header or the mapping is wrong, the error holds
// [netrate/scenarios.Problems] and no stop is handed over. Reading ends at once at an error
// of r or of each, which is returned with its place. The report counts what was read until
// then. Its size, and the memory used on the way, do not depend on the length of the file.
func Read(r io.Reader, m Mapping, each func(Stop) error) (Report, error) {
	return read(r, m, stopKinds, func(f *reading) error {
		s := f.stop()
		if f.bad {
			return nil
		}
		f.report.countCause(&s)
		return each(s)
	})
}

// stop returns the stop in the row at hand and notes what is wrong with it.
func (f *reading) stop() Stop {
	s := Stop{Line: f.line, Called: f.name(Reason, false), Job: f.name(Job, false), Speed: f.speed()}
	s.Cause = f.cause(s.Called)
	s.Station = f.name(Station, s.Cause != Planned) // what is planned is of the line
	s.CutOff = f.mark(CutOff)
	if f.byPeriod {
		f.periodStop(&s)
	} else {
		in := f.field(When)
		var why string
		if s.When, why = f.dated(in); why != "" {
			f.want(When, in, why)
		}
	}
	s.Seconds = f.length(s.When)
	if !s.Untimed {
		f.attended(&s)
	}
	return s
}

// dated returns the moment in a cell, with the date of its own column if it has none.
func (f *reading) dated(in cell) (t time.Time, why string) {
	if len(in.text) == 0 {
		return t, "the moment, such as " + string(ISO)
	}
	if !isClock(in.text) || !f.has(Day) {
		return f.moment(in.text)
	}
	f.joined = append(append(append(f.joined[:0], f.field(Day).text...), ' '), in.text...)
	if t, why = f.moment(f.joined); why != "" {
		why += fmt.Sprintf(", together with day %s", quote(f.field(Day).text))
	}
	return t, why
}

// length returns how long a stop lasted.
func (f *reading) length(began time.Time) sim.Seconds {
	in := f.field(Length)
	if len(in.text) > 0 || !f.has(End) {
		s, why := f.duration(in.text)
		if why == noNumber {
			why = lengthWanted
		}
		f.want(Length, in, why)
		return s
	}
	end := f.field(End)
	if len(end.text) == 0 {
		f.want(End, end, "a moment, or how long the stop lasted")
		return 0
	}
	ended, why := f.dated(end)
	if why != "" {
		f.want(End, end, why)
		return 0
	}
	if f.bad { // the beginning may not be known
		return 0
	}
	if ended.Before(began) && f.has(Day) && isClock(end.text) {
		ended = f.nextDay(began, ended)
	}
	s := sim.Seconds(ended.Sub(began).Seconds())
	if !(s >= 0 && s <= maxSeconds) {
		f.want(End, end, "a moment after the stop began, within a year")
	}
	return s
}

// attended notes when an operator was at a stop, if the row says so.
func (f *reading) attended(s *Stop) {
	in := f.field(Arrival)
	if len(in.text) == 0 || f.bad {
		return
	}
	at, why := f.dated(in)
	if why == "" {
		if at.Before(s.When) && f.has(Day) && isClock(in.text) {
			at = at.AddDate(0, 0, 1)
		}
		s.Waited, s.Attended = sim.Seconds(at.Sub(s.When).Seconds()), true
		if !(s.Waited >= 0 && s.Waited <= s.Seconds) {
			why = "a moment within the stop"
		}
	}
	f.want(Arrival, in, why)
}

const lengthWanted = "digits with at most one decimal mark, such as 90 or 12.5, or h:mm:ss"

// longestNight is how long a stop may last that begins on one day and ends on the next in
// a log that gives one date for both.
const longestNight = 12 * time.Hour

// nextDay returns the moment a day later, if the stop that ended then is short enough for
// that to be meant.
func (f *reading) nextDay(began, ended time.Time) time.Time {
	next := ended.AddDate(0, 0, 1)
	if next.Sub(began) > longestNight {
		return ended
	}
	f.report.Midnights++
	return next
}

// name returns the text in a cell.
func (f *reading) name(c Column, needed bool) string {
	in := f.field(c)
	if len(in.text) == 0 && needed {
		f.want(c, in, "its name")
		return ""
	}
	s, why := f.names.of(in.text)
	f.want(c, in, why)
	return s
}

// speed returns the speed in the row, 0 if there is none.
func (f *reading) speed() float64 {
	in := f.field(Speed)
	if len(in.text) == 0 {
		return 0
	}
	text := in.text
	if digits := ungrouped(text); digits != nil && bytes.Contains(text, []byte{f.Thousands}) {
		text = digits
	}
	x, why := f.number(text)
	if why == "" && !(x > 0 && x <= maxSpeed) {
		why = "cycles per hour, more than 0 and at most 1000000"
	}
	f.want(Speed, in, why)
	return x
}

// cause returns what a cause as it is written means.
func (f *reading) cause(called string) Cause {
	if c, met := f.met[called]; met {
		return c
	}
	c, known := f.words[plain(called)]
	if !known {
		c = Other
	}
	if len(f.met) < maxNames {
		f.met[called] = c
	}
	return c
}

// mark returns whether a cell says yes.
func (f *reading) mark(c Column) bool {
	in := f.field(c)
	switch plain(string(in.text)) {
	case "yes", "y", "x", "1", "true", "open", "cutoff", "censored":
		return true
	case "", "no", "n", "0", "false", "closed":
		return false
	}
	f.want(c, in, "yes or no")
	return false
}
