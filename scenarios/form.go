package scenarios

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// valueKind is what values of a range must have in common.
type valueKind struct {
	name string
	unit string
}

var (
	wholeKind  = &valueKind{name: "a whole number"}
	numberKind = &valueKind{name: "a number"}
	oddsKind   = &valueKind{name: "a probability"}
	timeKind   = &valueKind{"a time", "s"}
	speedKind  = &valueKind{"a speed", "/h"}
	lengthKind = &valueKind{"a length", "mm"}
	paperKind  = &valueKind{"a thickness of paper", "mm"}
	wordKind   = &valueKind{name: "a word"}
)

// form is how a value is written.
type form struct {
	*valueKind
	before, after string  // its number
	size          float64 // of the unit after it
}

// value returns a number as a value of the form, rounded to six digits. What cannot be
// written in it is 0.
func (f form) value(x float64) RangeValue {
	n := x / f.size
	if f.before != "" { // 1/2500
		n = 1 / x
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', 6, 64), 64)
	if err != nil {
		return RangeValue{}
	}
	text := f.before + strconv.FormatFloat(rounded, 'f', -1, 64) + f.after
	_, number, err := formOf(text)
	if err != nil {
		return RangeValue{}
	}
	return RangeValue{text, number}
}

// wordPattern matches what has no number: a response, a preset.
var wordPattern = regexp.MustCompile(`^\pL[\pL\d _-]*$`)

// formOf returns the form of a value and its number.
func formOf(text string) (form, float64, error) {
	for _, m := range []struct {
		*measure
		kind *valueKind
	}{{&times, timeKind}, {&speeds, speedKind}, {&lengths, lengthKind}, {&papers, paperKind}} {
		if x, err := m.read(text); err == nil {
			unit := leading.FindStringSubmatch(text)[2]
			if _, last := m.sum(text); last.size > 0 { // 5 h 30 min is 330 min
				unit = " " + last.name
			}
			size, _ := m.read("1" + unit)
			return form{m.kind, "", unit, size}, x, nil
		}
	}
	x, err := ratio(text)
	switch {
	case err == nil && strings.HasSuffix(text, "%"):
		return form{oddsKind, "", text[len(strings.TrimRight(text, " %")):], 0.01}, x, nil
	case err == nil && strings.Contains(text, " in "):
		return form{oddsKind, "1 in ", "", 1}, x, nil
	case err == nil && strings.Contains(text, "/"):
		return form{oddsKind, "1/", "", 1}, x, nil
	case err == nil && strings.Trim(text, "0123456789") == "" && x <= maxCount:
		return form{wholeKind, "", "", 1}, x, nil
	case err == nil:
		return form{numberKind, "", "", 1}, x, nil
	case wordPattern.MatchString(text):
		return form{wordKind, "", "", 1}, 0, nil
	}
	return form{}, 0, fmt.Errorf("%q is not a value of a range, %w", text, want("a word or a number with its unit, such as 15000/h, 45 s, 1/2500 or 3", err))
}

// unlike says that two values of a range are of two kinds.
func unlike(a string, fa form, b string, fb form) error {
	return fmt.Errorf("%s is %s and %s is %s: want all of one kind", a, fa.name, b, fb.name)
}
