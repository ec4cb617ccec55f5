package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim/output"
)

// Matter is a rate or a time on which the difference between two lines rests, and what the
// difference would be on paper if it were half as large, or twice.
type Matter struct {
	Name  string    `json:"name"`            // "inserter, jams"
	Path  string    `json:"path"`            // as a scenario file addresses it
	Of    []int     `json:"of"`              // the numbers of the alternatives whose it is: both, where they have the same
	Value string    `json:"value"`           // that is moved: as it is or, of an uncertain input, its mean
	Range *Interval `json:"range,omitempty"` // of an uncertain input; nil of another
	Half  Number    `json:"half_per_h"`
	Twice Number    `json:"twice_per_h"`
	Paper Number    `json:"paper_per_h"` // the difference as it is, at the same values

	Input *model.UncertainInput `json:"-"` // nil of what is known
}

// most returns the larger of the two changes of the difference, without its sign.
func (m *Matter) most() float64 {
	return max(math.Abs(float64(m.Half-m.Paper)), math.Abs(float64(m.Twice-m.Paper)))
}

// Turns reports whether half or twice the input would turn the difference the other way.
func (m *Matter) Turns() bool {
	sign := m.Paper > 0
	return (m.Half > 0) != sign || (m.Twice > 0) != sign
}

// Matters returns the rates and times on which the difference between From and To rests most, on
// paper, those first that change it most: at most a number of them. Lines are taken as [Basis.Line]
// takes them. What is the same in both lines, of one value and, if it is uncertain, one unknown, is
// moved in both; else each has its own, which is moved alone. It is nil of line groups, of lines at
// several jobs, and where a line cannot be as it is taken.
func (a *ComparisonAnswer) Matters(most int) []Matter {
	from, to := a.onPaper(a.From), a.onPaper(a.To)
	if from == nil || to == nil {
		return nil
	}
	paper := to.rate("", 1) - from.rate("", 1)
	var all []Matter
	for _, path := range pathsOf(from.Line, to.Line) {
		for _, movers := range movedTogether(from, to, path) {
			m := movers[0].matter(path)
			factors := map[*lineOnPaper]float64{}
			gap := func(factor float64) Number {
				for _, x := range movers {
					factors[x] = factor
				}
				return Number(to.rate(path, factors[to]) - from.rate(path, factors[from]))
			}
			for _, x := range movers {
				m.Of = append(m.Of, x.at)
			}
			if m.Paper, m.Half, m.Twice = Number(paper), gap(0.5), gap(2); m.most() >= leastMatter { // no NaN
				all = append(all, m)
			}
		}
	}
	slices.SortStableFunc(all, func(x, y Matter) int { return cmp.Compare(y.most(), x.most()) })
	return all[:min(len(all), most)]
}

// leastMatter is the least change of a difference that is told, good envelopes an hour.
const leastMatter = 0.5

// lineOnPaper is an alternative whose sum on paper is asked for.
type lineOnPaper struct {
	*model.Line     // as it is taken
	at          int // its number
	unsure      []model.UncertainInput
}

// onPaper returns an alternative as the answer takes it; nil if it is no line at one kind of work,
// or cannot be so.
func (a *ComparisonAnswer) onPaper(i int) *lineOnPaper {
	of := a.Lines[i].Of.Line
	if of == nil || a.Lines[0].Mix != nil {
		return nil
	}
	x := &lineOnPaper{a.Basis.Line(of), i, of.UncertainInputs}
	if x.Check() != nil {
		return nil
	}
	return x
}

// rate returns the net rate with a number multiplied by a factor, if that is not 0 or 1.
func (x *lineOnPaper) rate(path string, factor float64) float64 {
	if factor == 0 || factor == 1 {
		return x.Analytic().NetRate
	}
	return movedRate(x.Line, path, factor)
}

// input returns the uncertain input that is the number of a path, or its mean; nil if there is none.
func (x *lineOnPaper) input(path string) *model.UncertainInput {
	i := slices.IndexFunc(x.unsure, func(d model.UncertainInput) bool {
		return d.Path() == path || d.Part == model.MeanPart && d.Path() == path+"."+d.Part.String()
	})
	if i < 0 {
		return nil
	}
	return &x.unsure[i]
}

// matter returns what a number of the line is.
func (x *lineOnPaper) matter(path string) Matter {
	v, _ := x.Parameter(path)
	m := Matter{Path: path, Value: v.Value, Name: parameterName(v), Input: x.input(path)}
	if m.Input != nil {
		m.Range = new(rangeOf(m.Input.Of))
	}
	return m
}

// movedTogether returns which of two lines have a number of a path in common: both at once, or each by
// itself.
func movedTogether(from, to *lineOnPaper, path string) [][]*lineOnPaper {
	a, has := from.Parameter(path)
	b, have := to.Parameter(path)
	switch {
	case !has:
		return [][]*lineOnPaper{{to}}
	case !have:
		return [][]*lineOnPaper{{from}}
	case a.Size() != b.Size() || !sameUnknown(from.input(path), to.input(path)):
		return [][]*lineOnPaper{{from}, {to}}
	}
	return [][]*lineOnPaper{{from, to}}
}

// sameUnknown reports whether two numbers are one unknown, or both are known.
func sameUnknown(a, b *model.UncertainInput) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Unknown() == b.Unknown()
}

// rangeOf returns from what to what a number may be: where that is a guess from its least to its
// most, and of data the interval of 95 %.
func rangeOf(of output.Prior) Interval {
	if of.FromData() {
		return intervalOf(of.Quantile((1-Level)/2), of.Quantile((1+Level)/2))
	}
	return Interval{1, Number(of.Quantile(0)), Number(of.Quantile(1))}
}

// pathsOf returns the parameters of two lines, those of the first in their order.
func pathsOf(a, b *model.Line) []string {
	var paths []string
	for _, l := range []*model.Line{a, b} {
		for _, v := range l.Parameters() {
			if !slices.Contains(paths, v.Path()) {
				paths = append(paths, v.Path())
			}
		}
	}
	return paths
}

// movedRate returns the net rate on paper with a parameter multiplied; as it is if the line does not
// have it, and NaN if the line cannot be so.
func movedRate(l *model.Line, path string, factor float64) float64 {
	if v, has := l.Parameter(path); has {
		l = l.Moved(v, factor)
		if l.Check() != nil {
			return math.NaN()
		}
	}
	return l.Analytic().NetRate
}
