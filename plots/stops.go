package plots

import (
	"cmp"
	"fmt"
	"slices"
)

// StopsData sets the lines of a report side by side, cause by cause, on one scale.
type StopsData struct {
	Head
	Axis   string // what is measured, with its unit
	Lines  []Named
	Causes []StopCause
}

// Named is a line and its role.
type Named struct {
	Name string
	Role Role
}

// A StopCause is a group of bars, one for each line.
type StopCause struct {
	Name    string
	Amounts []float64 // of each line, 0 or more
	Details []string  // said after the numbers, such as how many stops; may be nil
}

// mostGroups is how many causes have bars of their own, if each is at least a part of the largest;
// the rest share some.
const (
	mostGroups = 12
	leastGroup = 0.01
)

// Stops draws for each cause a bar for each line, those causes first that cost most in any of the
// lines. Causes beyond the 12 largest, and those that cost hardly anything, are drawn as one.
func Stops(d StopsData) (*Figure, error) {
	c, all := d.check()
	causes := d.ranked()
	f, err := begin(d.Head, c, len(d.Lines) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if len(causes) == 0 {
		f.nothing("no stop")
		return f, nil
	}
	var keys []key
	for _, l := range d.Lines {
		keys = append(keys, key{name: l.Name, fill: l.Role.pen().colour})
	}
	f.legend(keys...)
	const high = 9.0
	places := digits(all...)
	var names, said []string
	for _, x := range causes {
		names = append(names, x.Name)
		for i := range d.Lines {
			said = append(said, x.says(i, places))
		}
	}
	col := f.column(names, nil, textFace, high*float64(len(d.Lines))+8)
	_, most := spread(append(all, 0)...)
	a := across(scale{0, most, col.right + gap, f.right() - smallFace.widest(said...) - 4}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, x := range causes {
		y := col.rows[i].middle() - high*float64(len(d.Lines)-1)/2
		for k, l := range d.Lines {
			says := x.says(k, places)
			f.bar(a.from, a.at(x.Amounts[k]), y, high-1.5, l.Role.pen().colour, l.Name+", "+x.Name+": "+says)
			f.beside(a.at(x.Amounts[k])+4, y, 0, says, smallFace)
			y += high
		}
	}
	f.upright(a.from, col.top(), col.bottom(), pen{colour: muted, width: 0.8})
	return f.end(), nil
}

// check also returns the amounts.
func (d StopsData) check() (c check, all []float64) {
	for _, x := range d.Causes {
		if len(x.Amounts) != len(d.Lines) {
			c.note("cause %q: %d amounts for %d lines", x.Name, len(x.Amounts), len(d.Lines))
		}
		if x.Details != nil && len(x.Details) != len(d.Lines) {
			c.note("cause %q: %d details for %d lines", x.Name, len(x.Details), len(d.Lines))
		}
		for _, v := range x.Amounts {
			c.number(v, "cause %q", x.Name)
			if v < 0 {
				c.note("cause %q costs %v, want 0 or more", x.Name, v)
			}
		}
		all = append(all, x.Amounts...)
	}
	return c, all
}

// ranked returns the causes from the largest in any line on, those past the last row made one.
func (d StopsData) ranked() []StopCause {
	causes := slices.DeleteFunc(slices.Clone(d.Causes), func(x StopCause) bool { return len(x.Amounts) == 0 })
	slices.SortStableFunc(causes, func(a, b StopCause) int { return cmp.Compare(slices.Max(b.Amounts), slices.Max(a.Amounts)) })
	shown := min(len(causes), mostGroups)
	for shown > 1 && slices.Max(causes[shown-1].Amounts) < leastGroup*slices.Max(causes[0].Amounts) {
		shown--
	}
	if len(causes)-shown <= 1 {
		return causes
	}
	if shown == mostGroups {
		shown--
	}
	rest := StopCause{Name: fmt.Sprintf("%d others", len(causes)-shown), Amounts: make([]float64, len(d.Lines))}
	for _, x := range causes[shown:] {
		for i, v := range x.Amounts[:min(len(x.Amounts), len(d.Lines))] {
			rest.Amounts[i] += v
		}
	}
	return append(causes[:shown], rest)
}

func (x StopCause) says(i, places int) string {
	if x.Amounts[i] == 0 {
		return "0"
	}
	text := number(x.Amounts[i], places)
	if x.Details != nil && x.Details[i] != "" {
		text += " (" + x.Details[i] + ")"
	}
	return text
}
