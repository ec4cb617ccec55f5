package stoplog

import (
	"bytes"
	"regexp"
	"slices"
	"time"
)

// Times is how moments are written in a file, as an example of it. Hours go to 24, or to 12
// with AM or PM behind a blank; seconds may be missing or have decimals.
type Times string

// The ways to write moments. The date of the first is that of ISO 8601, and T or a blank
// may stand before its time of day. A zone may follow as Z or +01:00. The third and the
// fourth must be given in the mapping, as nothing tells them apart; the last too, if the
// heading does not say seconds.
const (
	ISO        Times = "2026-03-31 14:05:10"
	Dotted     Times = "31.03.2026 14:05:10"
	DayFirst   Times = "31/03/2026 14:05:10"
	MonthFirst Times = "03/31/2026 14:05:10"
	FromStart  Times = "seconds from the start"
)

var allTimes = []Times{ISO, Dotted, DayFirst, MonthFirst, FromStart}

// dates are the layouts of dates, for package time.
var dates = map[Times]string{
	ISO: "2006-01-02", Dotted: "2.1.2006", DayFirst: "2/1/2006", MonthFirst: "1/2/2006",
}

// maxMoment is more than any way to write a moment takes, in bytes.
const maxMoment = 60

// moment returns the date and time in a text, or why it is none. The first one of a file
// settles how they are written, if it leaves no uncertainty: a way that is given is that of two files,
// of which one may have another.
func (f *reading) moment(text []byte) (t time.Time, why string) {
	if len(text) > maxMoment {
		return t, "a moment like " + string(ISO)
	}
	l := &f.report.Layout
	way := l.Times
	if own, _ := recognise(text); own != "" && dates[way] != "" && !f.dateMet {
		way = own
	}
	if way == "" {
		if way, why = recognise(text); why == slashWanted {
			way = f.slashed(text)
		}
		if way == "" {
			return t, why
		}
	}
	if way == FromStart {
		return f.fromStart(text)
	}
	var clock []byte
	if k := bytes.IndexAny(text, "T "); k >= 0 {
		clock = text[k:]
	} else if f.stopLog && !f.byPeriod {
		return t, "a time of day too, or a column of its own for the hour or the shift"
	}
	t, err := time.ParseInLocation(f.layout(way, clock), string(text), f.zone)
	if err != nil {
		return time.Time{}, "a moment like " + string(way)
	}
	l.Times, f.dateMet = way, true
	return t, ""
}

// recognise returns how a moment is written.
func recognise(text []byte) (way Times, why string) {
	k := bytes.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	switch {
	case k == 4 && text[k] == '-':
		return ISO, ""
	case (k == 1 || k == 2) && text[k] == '.' && bytes.Count(text, []byte{'.'}) > 1:
		return Dotted, ""
	case (k == 1 || k == 2) && text[k] == '/':
		return "", slashWanted
	case k < 0 || text[k] == '.' || text[k] == ',':
		return "", "a date and a time, or the mapping to say that these are seconds from the start"
	}
	return "", "a moment like " + string(ISO)
}

// slashWanted is said of dates that can be read both ways.
const slashWanted = "the mapping to say which comes first in 03/04/2026, the day or the month"

var slashDate = regexp.MustCompile(`\b(\d{1,2})/(\d{1,2})/\d{4}\b`)

// slashed returns how dates like the one given are written, if it or one of those that follow,
// within what a few thousand rows take, can be read in one way only; "" if none can, or if they
// do not agree.
func (f *reading) slashed(text []byte) Times {
	var ahead []byte
	if f.in != nil {
		ahead, _ = f.in.Peek(f.in.Buffered())
	}
	var way Times
	for _, m := range slices.Concat(slashDate.FindAllSubmatch(text, -1), slashDate.FindAllSubmatch(ahead, -1)) {
		own := Times("")
		switch first, second := two(m[1]), two(m[2]); {
		case first > 12 && second <= 12:
			own = DayFirst
		case second > 12 && first <= 12:
			own = MonthFirst
		default:
			continue
		}
		if way != "" && way != own {
			return ""
		}
		way = own
	}
	return way
}

// two returns a number of two digits at most.
func two(digits []byte) (n int) {
	for _, d := range digits {
		n = 10*n + int(d-'0')
	}
	return n
}

// fromStart returns the moment that many seconds after the start.
func (f *reading) fromStart(text []byte) (t time.Time, why string) {
	x, why := f.number(text)
	if why != "" || !(x <= maxSeconds) {
		return t, "seconds from the start, at most a year"
	}
	f.report.Layout.Times = FromStart
	return f.Start.Add(time.Duration(x * float64(time.Second))), ""
}

// layout returns the layout, for package time, of moments whose time of day is written like
// rest, which begins with what stands before it. The last one is kept: a file has few.
func (f *reading) layout(way Times, rest []byte) string {
	clock := clockLayout(rest)
	if k := (layoutKey{way, clock}); k != f.layoutOf {
		f.layoutOf, f.layoutIs = k, dates[way]+clock
	}
	return f.layoutIs
}

type layoutKey struct {
	way   Times
	clock string
}

// clockLayout returns the layout of a time of day; "" of none.
func clockLayout(rest []byte) string {
	if k := bytes.LastIndexAny(rest, "+-Z"); k > 0 {
		return zoned[localLayout(rest[:k])]
	}
	return localLayout(rest)
}

// localLayout is clockLayout for a time of day without its zone.
func localLayout(rest []byte) string {
	if len(rest) == 0 {
		return ""
	}
	half := bytes.HasSuffix(rest, []byte("AM")) || bytes.HasSuffix(rest, []byte("PM"))
	seconds := bytes.Count(rest, []byte{':'}) > 1
	switch {
	case half && seconds:
		return " 3:04:05 PM"
	case half:
		return " 3:04 PM"
	case rest[0] == 'T' && seconds:
		return "T15:04:05"
	case rest[0] == 'T':
		return "T15:04"
	case seconds:
		return " 15:04:05"
	}
	return " 15:04"
}

// zoned are the layouts of times of day with their zone.
var zoned = map[string]string{
	" 15:04:05": " 15:04:05Z07:00", " 15:04": " 15:04Z07:00",
	"T15:04:05": "T15:04:05Z07:00", "T15:04": "T15:04Z07:00",
	" 3:04:05 PM": " 3:04:05 PMZ07:00", " 3:04 PM": " 3:04 PMZ07:00",
}

// isClock says whether a text begins like a time of day and not like a date.
func isClock(text []byte) bool {
	k := bytes.IndexByte(text, ':')
	return k == 1 && isDigit(text[0]) || k == 2 && isDigit(text[0]) && isDigit(text[1])
}
