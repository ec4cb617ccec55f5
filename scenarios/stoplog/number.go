package stoplog

import (
	"bytes"
	"fmt"
	"strconv"

	"netrate/sim"
)

// Largest values: what is more is a mistake.
const (
	maxSeconds = 366 * 24 * 3600 // a year
	maxCount   = 1_000_000_000_000
	maxSpeed   = 1_000_000 // cycles per hour
)

// number returns the number in a cell, 0 or more, or why it is none. The first decimal mark
// of a file settles which one it has, if nothing else has settled it.
func (f *reading) number(text []byte) (x float64, why string) {
	var buffer [40]byte
	if len(text) == 0 || len(text) > len(buffer) {
		return 0, noNumber
	}
	digits, mark := buffer[:copy(buffer[:], text)], -1
	for i, b := range digits {
		switch {
		case b >= '0' && b <= '9':
		case b != '.' && b != ',':
			return 0, noNumber
		case mark >= 0:
			return 0, "one decimal mark and no others"
		default:
			mark = i
		}
	}
	if mark >= 0 {
		if why := f.settleDecimal(text[mark]); why != "" {
			return 0, why
		}
		digits[mark] = '.'
	}
	x, err := strconv.ParseFloat(string(digits), 64)
	if err != nil {
		return 0, noNumber
	}
	return x, ""
}

const noNumber = "digits"

func (f *reading) settleDecimal(mark byte) (why string) {
	l := &f.report.Layout
	if l.Decimal == 0 {
		l.Decimal, f.decimalLine = mark, f.line
	}
	switch {
	case l.Decimal == mark:
		return ""
	case f.decimalLine > 0:
		return fmt.Sprintf("the same decimal mark as in line %d", f.decimalLine)
	case l.Decimal == '.':
		return "a decimal point and no comma"
	}
	return "a decimal comma and no point"
}

// groupedWanted is said of what looks like a number with marks of thousands: 12.000 may be twelve.
const groupedWanted = "a whole number; where the mark in it is one of thousands, say so in the mapping: --thousands point, comma or apostrophe"

// counted returns the whole number in a cell, which may have the marks of thousands that the mapping says.
func (f *reading) counted(text []byte) (n int64, why string) {
	switch digits := ungrouped(text); {
	case digits == nil:
		return whole(text)
	case f.Thousands == 0 || !bytes.Contains(text, []byte{f.Thousands}):
		return 0, groupedWanted
	default:
		return whole(digits)
	}
}

// ungrouped returns the digits of a number such as 12.000, 1,234,567 or 7'885, whose marks are all the
// same; nil of any other text.
func ungrouped(text []byte) []byte {
	if len(text) < 5 || len(text) > 20 {
		return nil
	}
	first := (len(text)-1)%4 + 1 // digits before the first mark
	if first > 3 || text[0] == '0' {
		return nil
	}
	digits := make([]byte, 0, len(text))
	for i, b := range text {
		switch marks := i >= first && (i-first)%4 == 0; {
		case marks && b == text[first] && (b == '.' || b == ',' || b == '\''):
		case !marks && isDigit(b):
			digits = append(digits, b)
		default:
			return nil
		}
	}
	return digits
}

// whole returns the whole number in a cell.
func whole(text []byte) (n int64, why string) {
	if len(text) == 0 || bytes.ContainsFunc(text, func(c rune) bool { return c < '0' || c > '9' }) {
		return 0, "a whole number, without sign, point, comma or blank"
	}
	n, err := strconv.ParseInt(string(text), 10, 64)
	if err != nil || n > maxCount {
		return 0, fmt.Sprintf("at most %d", int64(maxCount))
	}
	return n, ""
}

// unitWanted is said once: it is wanted of all rows alike.
const unitWanted = "the unit said in the heading, as in duration (min), or in the mapping; so it is in all rows"

// duration returns the time in a cell: a number in the unit of the file, or h:mm:ss.
func (f *reading) duration(text []byte) (s sim.Seconds, why string) {
	if bytes.Count(text, []byte{':'}) == 1 {
		return f.halfClocked(text)
	}
	if bytes.IndexByte(text, ':') >= 0 {
		return f.clocked(text)
	}
	x, why := f.number(text)
	if why != "" {
		return 0, why
	}
	unit := f.report.Layout.Unit
	if unit == "" {
		return 0, unitWanted
	}
	s = sim.Seconds(x) * unitSizes[unit]
	if !(s <= maxSeconds) {
		return 0, "at most a year"
	}
	return s, ""
}

// halfWanted is said of what may be either.
const halfWanted = "the unit said, as in duration (mm:ss) or (h:mm), in the heading or in the mapping: minutes for minutes and seconds, hours for hours and minutes; or h:mm:ss, such as 0:01:30"

// halfClocked returns the time of a text like 1:30: minutes and seconds where lengths are counted
// in minutes, hours and minutes where they are counted in hours.
func (f *reading) halfClocked(text []byte) (s sim.Seconds, why string) {
	unit := f.report.Layout.Unit
	if unit != Minutes && unit != Hours {
		return 0, halfWanted
	}
	wanted := map[Unit]string{Minutes: "mm:ss, such as 1:30", Hours: "h:mm, such as 0:45"}[unit]
	large, small, _ := bytes.Cut(text, []byte{':'})
	if len(small) < 2 || len(large) > 6 {
		return 0, wanted
	}
	n, why1 := whole(large)
	x, why2 := f.number(small)
	if why1 != "" || why2 != "" || !(x < 60) || !isDigit(small[1]) {
		return 0, wanted
	}
	if s = sim.Seconds(sim.Seconds(n)*unitSizes[unit]) + sim.Seconds(sim.Seconds(x)*unitSizes[unit]/60); !(s <= maxSeconds) {
		return 0, "at most a year"
	}
	return s, ""
}

// clocked returns the time of a text like 1:02:03 or 1:02:03.5.
func (f *reading) clocked(text []byte) (s sim.Seconds, why string) {
	const wanted = "h:mm:ss, such as 0:01:30"
	hours, rest, _ := bytes.Cut(text, []byte{':'})
	minutes, seconds, both := bytes.Cut(rest, []byte{':'})
	if !both || len(minutes) != 2 || len(seconds) < 2 || len(hours) > 5 {
		return 0, wanted
	}
	h, why1 := whole(hours)
	m, why2 := whole(minutes)
	x, why3 := f.number(seconds)
	if why1 != "" || why2 != "" || why3 != "" || m > 59 || !(x < 60) || !isDigit(seconds[1]) {
		return 0, wanted
	}
	s = sim.Seconds(float64(float64(h)*3600) + float64(float64(m)*60) + x)
	if !(s <= maxSeconds) {
		return 0, "at most a year"
	}
	return s, ""
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
