package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Range is a path and the values that it is to take in a sweep.
type Range struct {
	Path   string
	Values []RangeValue // at least two
	Unit   string       // of the numbers: "/h", "s", "mm", or "" if they have none
}

// RangeValue is one value of a range.
type RangeValue struct {
	Text   string  // as the file would say it: "15000/h"
	Number float64 // cycles an hour, seconds, millimetres, a probability, a count; of words their number from 0
}

// maxValuesOfRange is how many values a range may have.
const maxValuesOfRange = 200

// ParseRange reads a range: evenly spaced values from one to another with their number,
// such as "crew.operators=1:4:4" or "line.speed=12000/h:20000/h:9", or a list, such as
// "policy.misfeed=stop,divert,outsort". The values between are rounded to six digits,
// and their numbers are those of the rounded texts. Whether the path exists and can have
// the values is for [Scenario.With] to say.
func ParseRange(text string) (Range, error) {
	i := strings.LastIndex(text, "=") // a name may hold one, a value never does
	if i <= 0 {
		return Range{}, fmt.Errorf("%s is not a range, want PATH=LOW:HIGH:STEPS or PATH=a,b,c", text)
	}
	r := Range{Path: strings.TrimSpace(text[:i])}
	if strings.ContainsAny(text[i:], "{[") {
		return Range{}, fmt.Errorf("%s: a range has plain values: vary a part, such as PATH.lognormal.mean", r.Path)
	}
	read := r.readList
	if strings.Contains(text[i:], ":") {
		read = r.readSteps
	}
	if err := read(text[i+1:]); err != nil {
		return Range{}, fmt.Errorf("%s: %w", r.Path, err)
	}
	return r, nil
}

// readList reads values one by one.
func (r *Range) readList(text string) error {
	parts := strings.Split(text, ",")
	if len(parts) < 2 || len(parts) > maxValuesOfRange {
		return fmt.Errorf("want from 2 to %d values, as LOW:HIGH:STEPS or as a list a,b,c", maxValuesOfRange)
	}
	var first form
	for i, part := range parts {
		part = strings.TrimSpace(part)
		f, x, err := formOf(part)
		if err != nil {
			return err
		}
		if i == 0 {
			first = f
		} else if f.valueKind != first.valueKind {
			return unlike(parts[0], first, part, f)
		}
		if f.valueKind == wordKind {
			x = float64(i)
		}
		if slices.ContainsFunc(r.Values, func(v RangeValue) bool { return v.Text == part || v.Number == x }) {
			return fmt.Errorf("%s is given twice", part)
		}
		r.Values = append(r.Values, RangeValue{part, x})
	}
	r.Unit = first.unit
	return nil
}

// readSteps reads the first value, the last one and how many there are.
func (r *Range) readSteps(text string) error {
	parts := strings.Split(text, ":")
	if len(parts) != 3 {
		return errors.New("want LOW:HIGH:STEPS, such as 1:4:4")
	}
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	low, from, err := formOf(parts[0])
	if err != nil {
		return err
	}
	high, to, err := formOf(parts[1])
	if err != nil {
		return err
	}
	var steps int
	if err := whole(&steps, parts[2], 2, maxValuesOfRange); err != nil {
		return fmt.Errorf("the number of steps is %q, %w", parts[2], err)
	}
	switch {
	case low.valueKind != high.valueKind:
		return unlike(parts[0], low, parts[1], high)
	case low.valueKind == wordKind:
		return fmt.Errorf("nothing lies between %s and %s: want a list such as %s,%s", parts[0], parts[1], parts[0], parts[1])
	case !(from < to):
		return fmt.Errorf("from %s to %s is descending: want the lower value first", parts[0], parts[1])
	}
	if low.valueKind == wholeKind {
		return r.count(int64(from), int64(to), int64(steps))
	}
	r.Unit = low.unit
	for i := range steps {
		v := RangeValue{parts[0], from}
		if i == steps-1 {
			v = RangeValue{parts[1], to}
		} else if i > 0 {
			share := float64(i) / float64(steps-1)
			v = low.value(float64(from*(1-share)) + float64(to*share))
		}
		if i > 0 && !(v.Number > r.Values[i-1].Number) {
			return fmt.Errorf("%d steps from %s to %s are too small: six digits do not tell them apart", steps, parts[0], parts[1])
		}
		r.Values = append(r.Values, v)
	}
	return nil
}

// count adds whole numbers.
func (r *Range) count(from, to, steps int64) error {
	step, rest := (to-from)/(steps-1), (to-from)%(steps-1)
	if rest != 0 {
		return fmt.Errorf("%d steps from %d to %d do not fall on whole numbers: want another number of them, such as %d, or give the values as a list", steps, from, to, fitting(to-from, steps))
	}
	for n := from; n <= to; n += step {
		r.Values = append(r.Values, RangeValue{strconv.FormatInt(n, 10), float64(n)})
	}
	return nil
}

// fitting returns the largest number of values, at most most, that divides a span evenly.
func fitting(span, most int64) int64 {
	for most > 2 && span%(most-1) != 0 {
		most--
	}
	return most
}
