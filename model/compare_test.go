package model

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// figure is one number of an Outcome and its place in there.
type figure struct {
	at    *place
	value float64
}

// name is where the figure stands, such as .Stations[2].Faults.Misfeed.
func (f figure) name() string { return f.at.name() }

// place is a field or an element of the place that it is in. Of a million outcomes the numbers are
// compared and of a few the names are read, so a place is spelt only when somebody asks.
type place struct {
	in *place       // nil: of the whole
	of reflect.Type // the struct that has the field; nil: an element
	i  int
}

func (p *place) name() string {
	switch {
	case p == nil:
		return ""
	case p.of == nil:
		return fmt.Sprintf("%s[%d]", p.in.name(), p.i)
	}
	return p.in.name() + "." + p.of.Field(p.i).Name
}

// figures returns every number of an Outcome, in a fixed order.
func figures(o *Outcome) []figure { return flatten(nil, nil, reflect.ValueOf(*o)) }

func flatten(all []figure, at *place, v reflect.Value) []figure {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			all = flatten(all, &place{at, v.Type(), i}, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			all = flatten(all, &place{at, nil, i}, v.Index(i))
		}
	case reflect.Int64:
		all = append(all, figure{at, float64(v.Int())})
	case reflect.Float64:
		all = append(all, figure{at, v.Float()})
	case reflect.String: // a name
	default:
		panic(fmt.Sprintf("%s is a %v: the comparison would leave it out", at.name(), v.Kind()))
	}
	return all
}

// same reports whether two sums of the same numbers may differ by their rounding only.
func same(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b))
}

// unequal returns the figures in which two outcomes differ.
func unequal(want, got *Outcome) []string {
	var found []string
	a, b := figures(want), figures(got)
	if len(a) != len(b) {
		return []string{fmt.Sprintf("%d figures, want %d", len(b), len(a))}
	}
	for i := range a {
		if !same(a[i].value, b[i].value) {
			found = append(found, fmt.Sprintf("%s is %v, want %v", a[i].name(), b[i].value, a[i].value))
		}
	}
	return found
}

// pooled are the outcomes of many replications: values of each figure, and good sets.
type pooled struct {
	names  []string
	values [][]float64 // by figure, then by replication
	good   []float64   // sorted
}

func (p *pooled) add(o *Outcome) { p.addFigures(figures(o), o.Sets.Good) }

// addFigures adds the figures of one replication, and its good sets.
func (p *pooled) addFigures(all []figure, good int64) {
	if p.values == nil {
		p.values = make([][]float64, len(all))
		for _, f := range all {
			p.names = append(p.names, f.name())
		}
	}
	for i, f := range all {
		p.values[i] = append(p.values[i], f.value)
	}
	at, _ := slices.BinarySearch(p.good, float64(good))
	p.good = slices.Insert(p.good, at, float64(good))
}

// differences returns the figures whose means differ at the given level, each by
// itself, and whether the distribution of good sets does.
func differences(want, got *pooled, level float64) []string {
	var found []string
	for i, name := range want.names {
		a, b := want.values[i], got.values[i]
		if p := welch(a, b); !(p >= level) {
			found = append(found, fmt.Sprintf("%s is %.6g on average, want %.6g (p = %.1e)",
				name, stat.Mean(b, nil), stat.Mean(a, nil), p))
		}
	}
	d, most := stat.KolmogorovSmirnov(want.good, nil, got.good, nil), ksLimit(want.good, got.good, level)
	if !(d <= most) {
		found = append(found, fmt.Sprintf("good sets are distributed otherwise: D = %.3f, at most %.3f", d, most))
	}
	return found
}

// welch returns the two-sided p-value of the difference between the means of two
// samples whose variances may differ. Samples that do not vary at all have 1 if they
// are the same number and 0 if not.
//
// Source: Welch, The generalization of "Student's" problem when several different
// population variances are involved, Biometrika 34 (1947) (from memory).
func welch(a, b []float64) float64 {
	if same(slices.Min(a), slices.Max(a)) && same(slices.Min(b), slices.Max(b)) {
		if same(a[0], b[0]) {
			return 1
		}
		return 0
	}
	meanA, varA := stat.MeanVariance(a, nil)
	meanB, varB := stat.MeanVariance(b, nil)
	n, m := float64(len(a)), float64(len(b))
	sa, sb := varA/n, varB/m
	freedom := (sa + sb) * (sa + sb) / (sa*sa/(n-1) + sb*sb/(m-1))
	t := math.Abs(meanA-meanB) / math.Sqrt(sa+sb)
	return 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.CDF(-t)
}

// ksLimit returns the distance between two empirical distributions that two samples of
// the same source exceed with the given small probability, or less often if there are
// ties. At 0.1 % it is 1.9495·√((n+m)/(nm)).
//
// Source: Smirnov, Table for estimating the goodness of fit of empirical distributions,
// Annals of Mathematical Statistics 19 (1948), asymptotic form (from memory).
func ksLimit(a, b []float64, level float64) float64 {
	n, m := float64(len(a)), float64(len(b))
	return math.Sqrt(-math.Log(level/2)/2) * math.Sqrt((n+m)/(n*m))
}

// What counts is what the comparison accepts and what it refuses.
func TestComparison(t *testing.T) {
	bell := func(mean float64) []float64 {
		x := make([]float64, 200)
		for i := range x { // evenly spaced quantiles: no random numbers in it
			x[i] = distuv.Normal{Mu: mean, Sigma: 1}.Quantile((float64(i) + 0.5) / 200)
		}
		return x
	}
	fives, nan := []float64{5, 5, 5}, math.NaN()
	cases := []struct {
		name string
		a, b []float64
		low  bool // a p-value under 0.1 %
	}{
		{"the same sample", bell(0), bell(0), false},
		{"3.2 standard errors apart", bell(0), bell(0.32), false},
		{"3.5 standard errors apart", bell(0), bell(0.35), true},
		{"a constant and itself", fives, fives, false},
		{"a constant and its rounding", fives, []float64{5, 5 + 1e-12, 5}, false},
		{"two constants", fives, []float64{5.001, 5.001, 5.001}, true},
		{"a constant and what scatters around it", fives, []float64{4, 5, 6}, false},
		{"not a number", []float64{1, 2, 3}, []float64{1, 2, nan}, true},
		{"nothing but not a number", fives, []float64{nan, nan, nan}, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.low, !(welch(c.a, c.b) >= 0.001))
			assert.Equal(t, c.low, !(welch(c.b, c.a) >= 0.001), "the other way round")
		})
	}
	// 1.9495 at 0.1 % is the value printed in tables (from memory).
	assert.InDelta(t, 1.9495*math.Sqrt(0.01), ksLimit(bell(0), bell(0), 0.001), 1e-5)
}
