package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/model"
)

// Matter is a rate or a time on which the difference between two lines rests, and what the
// difference would be on paper if it were half as large, or twice.
type Matter struct {
	Name  string `json:"name"`  // "inserter, jams"
	Path  string `json:"path"`  // as a scenario file addresses it
	Value string `json:"value"` // as it is
	Half  Number `json:"half_per_h"`
	Twice Number `json:"twice_per_h"`
	Paper Number `json:"paper_per_h"` // the difference as it is
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
// paper, those first that change it most: at most a number of them. An input that both lines have is
// moved in both. It is nil of line groups and of lines at several jobs.
func (a *ComparisonAnswer) Matters(most int) []Matter {
	from, to := a.Lines[a.From].Of.Line, a.Lines[a.To].Of.Line
	if from == nil || to == nil || a.Lines[0].Mix != nil {
		return nil
	}
	paper := Number(to.Analytic().NetRate - from.Analytic().NetRate)
	var all []Matter
	for _, path := range pathsOf(from, to) {
		v, of := from.Parameter(path)
		if !of {
			v, _ = to.Parameter(path)
		}
		m := Matter{Path: path, Value: v.Value, Paper: paper, Name: parameterName(v)}
		half, twice := movedRate(to, path, 0.5)-movedRate(from, path, 0.5), movedRate(to, path, 2)-movedRate(from, path, 2)
		if math.IsNaN(half) || math.IsNaN(twice) {
			continue
		}
		m.Half, m.Twice = Number(half), Number(twice)
		all = append(all, m)
	}
	slices.SortStableFunc(all, func(x, y Matter) int { return cmp.Compare(y.most(), x.most()) })
	all = slices.DeleteFunc(all, func(m Matter) bool { return m.most() < 0.5 })
	return all[:min(len(all), most)]
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
