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
	Mean float64   // half of the interval of 95 % of the mean of the factors that these days had, over 1.96
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
		s.Mean = s.CV / math.Sqrt(float64(x.days)) * Uncertain(s.CV, s.SE)
	}
	for i := range stations {
		s.Own = append(s.Own, x.own(i, max(0, c)))
	}
	return s, nil
}

// Uncertain returns how many times as wide an interval of 95 % of a mean is as that of the normal
// distribution, where the standard deviation is known with a standard error only: that of Student with
// the degrees of freedom that a standard deviation known so well has, two at the least.
//
// Source: Satterthwaite, Biometrics Bulletin 2 (1946) 110–114 (from memory).
func Uncertain(sd, error float64) float64 {
	degrees := max(2, sd*sd/(2*error*error))
	if !(degrees < 1000) {
		return 1
	}
	return portable.StudentQuantile(degrees, 0.975) / portable.NormalQuantile(0.975)
}

// sharing are the counts of stations by day, and what is expected of them at one rate each.
type sharing struct {
	days     int
	off      [][]float64 // counts less what is expected
	expected [][]float64
	weight   []float64 // of each station: the less it varies by itself, the better it shows a day
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
		rate := meanRate(counts, feeds/float64(len(counts)))
		var off, expected []float64
		for _, c := range counts {
			m := float64(rate * float64(c.Feeds))
			off, expected = append(off, float64(c.Faults)-m), append(expected, m)
		}
		x.off, x.expected = append(x.off, off), append(x.expected, expected)
		x.weight = append(x.weight, 1/(1+float64(portable.Mean(expected)*x.all(i))))
	}
	return x, nil
}

// least is the share of what is usual below which a day counts for less than any other.
const least = 0.1

// meanRate returns the mean over days of their faults by their feeds: a bad day has fewer feeds, and
// counts as much as a good one.
func meanRate(counts []Count, usual float64) float64 {
	faults, feeds := 0.0, 0.0
	for _, c := range counts {
		weight := 1 / max(float64(c.Feeds), least*usual)
		faults += float64(weight * float64(c.Faults))
		feeds += float64(weight * float64(c.Feeds))
	}
	return faults / feeds
}

// common returns the squared CV of the factors of the days, but for one of them, with the days of each
// station in an order; nil for that of the counts. As rates are taken from the same days, deviations
// are smaller than they are, by one day's worth.
func (x *sharing) common(but int, order [][]int) float64 {
	together, both := 0.0, 0.0
	usual := x.usual()
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
			o, m := float64(x.weight[i]*x.off[i][at]), float64(x.weight[i]*x.expected[i][at])
			sum, squares = sum+o, squares+float64(o*o)
			e, ee = e+m, ee+float64(m*m)
		}
		weight := 1 / max(float64(e*e)-ee, least*least*usual)
		together += float64(weight * (float64(sum*sum) - squares))
		both += float64(weight * (float64(e*e) - ee))
	}
	n := float64(x.days)
	if both == 0 {
		return 0
	}
	return together / both * n / (n - 1)
}

// usual returns what is expected of two stations on a day, multiplied, for all pairs, in the mean.
func (x *sharing) usual() float64 {
	all, single := 0.0, 0.0
	for i, expected := range x.expected {
		m := float64(x.weight[i] * portable.Mean(expected))
		all, single = all+m, single+float64(m*m)
	}
	return float64(all*all) - single
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
	return math.Sqrt(max(0, (1+x.all(i))/(1+shared)-1))
}

// all returns the squared CV of all factors that a station has on its days.
func (x *sharing) all(i int) float64 {
	over, squares := 0.0, 0.0
	n := float64(x.days)
	usual := portable.Mean(x.expected[i])
	for day, o := range x.off[i] {
		m := x.expected[i][day]
		weight := 1 / max(float64(m*m), least*least*usual*usual)
		over += float64(weight * (float64(o*o)*n/(n-1) - m))
		squares += float64(weight * m * m)
	}
	return max(0, over/squares)
}
