package fit

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Shared is what the counts of several stations have in common from day to day: a factor of the day.
type Shared struct {
	CV   float64   // of the factors of days; 0 where the stations have nothing in common
	SE   float64   // by leaving out one day after the other; 0 where CV is
	Mean float64   // the standard error of the mean of the days' factors that these days had
	P    float64   // how often days that have nothing in common look as much alike, by dealing them out anew
	Own  []float64 // of each station, the CV of the factors that it has for itself; 0 for none
}

// Share finds what the counts of stations have in common, of which each has one for each day. Two
// stations with a common factor of squared CV c deviate together: their deviations from what is
// expected have a product of c times what is expected of both. P is from dealing out the days of each
// station anew, 999 times, under the seed: what a day does to one station alone stays.
//
// It wants two stations or more, of the same three days or more, each with a fault.
func Share(stations [][]Count, seed uint64) (Shared, error) {
	x, err := newSharing(stations)
	if err != nil {
		return Shared{}, err
	}
	c := x.common(-1, nil)
	s := Shared{CV: math.Sqrt(max(0, c))}
	s.P = x.chance(c, seed)
	if c > 0 {
		s.SE = x.error(s.CV)
	}
	squares, all := 0.0, 0.0
	for day := range x.days {
		e := 0.0
		for i := range stations {
			e += x.expected[i][day]
		}
		squares, all = squares+float64(e*e), all+e
	}
	s.Mean = s.CV * math.Sqrt(squares) / all
	for i := range stations {
		s.Own = append(s.Own, x.own(i, max(0, c)))
	}
	return s, nil
}

// sharing are the counts of stations by day, and what is expected of them at one rate each.
type sharing struct {
	days     int
	off      [][]float64 // counts less what is expected
	expected [][]float64
}

func newSharing(stations [][]Count) (*sharing, error) {
	if len(stations) < 2 {
		return nil, errors.New("there is one station, want two or more")
	}
	x := &sharing{days: len(stations[0])}
	for i, counts := range stations {
		faults, feeds := 0.0, 0.0
		for _, c := range counts {
			if c.Faults < 0 || c.Feeds < 0 {
				return nil, fmt.Errorf("station %d has %d faults in %d feeds, want 0 or more of both", i+1, c.Faults, c.Feeds)
			}
			faults, feeds = faults+float64(c.Faults), feeds+float64(c.Feeds)
		}
		if len(counts) != x.days || x.days < 3 || faults == 0 || feeds == 0 {
			return nil, fmt.Errorf("station %d has %v faults on %d days, want a fault, on the same three days or more as the others", i+1, faults, len(counts))
		}
		var off, expected []float64
		for _, c := range counts {
			m := faults * float64(c.Feeds) / feeds
			off, expected = append(off, float64(c.Faults)-m), append(expected, m)
		}
		x.off, x.expected = append(x.off, off), append(x.expected, expected)
	}
	return x, nil
}

// common returns the squared CV of the factors of the days, but for one of them, with the days of each
// station in an order; nil for that of the counts. As rates are taken from the same days, deviations
// are smaller than they are, by one day's worth.
func (x *sharing) common(but int, order [][]int) float64 {
	together, both := 0.0, 0.0
	for day := range x.days {
		if day == but {
			continue
		}
		sum, squares, e, ee := 0.0, 0.0, 0.0, 0.0
		for i := range x.off {
			at := day
			if order != nil {
				at = order[i][day]
			}
			o, m := x.off[i][at], x.expected[i][at]
			sum, squares = sum+o, squares+float64(o*o)
			e, ee = e+m, ee+float64(m*m)
		}
		together += float64(sum*sum) - squares
		both += float64(e*e) - ee
	}
	n := float64(x.days)
	if both == 0 {
		return 0
	}
	return together / both * n / (n - 1)
}

// dealt is how often the days of stations are dealt out anew.
const dealt = 999

// chance returns how often days that have nothing in common look as much alike.
func (x *sharing) chance(c float64, seed uint64) float64 {
	random := sim.NewStream("days", "dealt")
	random.Seed(seed, 0)
	order := make([][]int, len(x.off))
	for i := range order {
		for day := range x.days {
			order[i] = append(order[i], day)
		}
	}
	as := 1
	for range dealt {
		for _, days := range order[1:] {
			for k := len(days) - 1; k > 0; k-- {
				j := int(random.Uniform() * float64(k+1))
				days[k], days[j] = days[j], days[k]
			}
		}
		if x.common(-1, order) >= c {
			as++
		}
	}
	return float64(as) / (dealt + 1)
}

// error returns the standard error of the CV by the jackknife over days.
func (x *sharing) error(cv float64) float64 {
	var values []float64
	for day := range x.days {
		values = append(values, math.Sqrt(max(0, x.common(day, nil))))
	}
	_, variance := portable.Variance(values)
	n := float64(x.days)
	return min(cv, math.Sqrt(variance*(n-1)*(n-1)/n))
}

// own returns the CV of the factors that a station has for itself, beside those of the days.
func (x *sharing) own(i int, shared float64) float64 {
	over, squares := 0.0, 0.0
	n := float64(x.days)
	for day, o := range x.off[i] {
		m := x.expected[i][day]
		over += float64(o*o)*n/(n-1) - m
		squares += float64(m * m)
	}
	total := max(0, over/squares)
	return math.Sqrt(max(0, (1+total)/(1+shared)-1))
}
