package fit

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Trend is the test of whether stops become rarer or more frequent as time goes on.
type Trend struct {
	Laplace   float64 // standard normal without a trend; below 0 if the stops become rarer
	LaplaceP  float64 // how often it lies so far off, either way, by chance
	Handbook  float64 // chi-square with twice as many degrees as stops without a trend; larger if they become rarer
	HandbookP float64 // how often it lies so far off, either way, by chance
	Longer    int     // pairs of gaps of which the later is the longer: half of them without a trend
	Pairs     int     // pairs of gaps in all
	LongerP   float64 // how often Longer lies so far off, either way, by chance; near, for ten stops or more

	Shape     float64 // stops up to time t come as t^Shape: below 1 they become rarer
	Between   float64 // time between stops at the end, by that law; in the unit of the times
	Low, High float64 // its interval of the confidence Level; High is +Inf for too few stops
	Level     float64
}

// Drift tests for a trend in the times of stops, which rise from 0 to end, in any unit,
// feeds for one; the observation ended at that time and not with a stop.
//
// The first two tests take the stops for independent and are then the sharpest; the third,
// by the order of the gaps alone, holds in bursts too.
//
// It wants five stops or more.
//
// Sources: NIST/SEMATECH e-Handbook of Statistical Methods, sections 8.2.3.4 and 8.4.5.2
// (Laplace test, MIL-HDBK-189 test, power law with modified estimates and its limits; the
// formulas from memory); order of gaps: Mann, Econometrica 13 (1945) 245–259 (from
// memory).
func Drift(times []float64, end, level float64) (Trend, error) {
	if err := errors.Join(checkLevel(level), checkTimes(times, end)); err != nil {
		return Trend{}, err
	}
	n := float64(len(times))
	var sum, logs float64
	for _, t := range times {
		sum += t
		logs += portable.Log(end / t)
	}
	if !(logs > 0) {
		return Trend{}, errors.New("all stops came at the end: no trend can be fitted")
	}
	t := Trend{Level: level, Laplace: (sum/n - float64(0.5*end)) / (end / math.Sqrt(12*n)), Handbook: 2 * logs}
	t.LaplaceP = 2 * portable.NormalBelow(-math.Abs(t.Laplace))
	t.HandbookP = 2 * min(portable.GammaBelow(n, t.Handbook/2), portable.GammaAbove(n, t.Handbook/2))
	t.order(times)

	t.Shape = (n - 1) / logs
	t.Between = end / (n * t.Shape)
	z := portable.NormalQuantile((1 + level) / 2)
	half := float64(z * z / 4)
	wide := n + half + math.Sqrt(float64(2*n*half)+float64(half*half))
	t.Low, t.High = t.Between*n*(n-1)/(wide*wide), math.Inf(1)
	if narrow := n - math.Sqrt(2*n*half); narrow > 0 {
		t.High = t.Between * n * (n - 1) / (narrow * narrow)
	}
	return t, nil
}

// Finding says in a sentence what the test means: that of the handbook, which is the
// sharpest for the law by which the trend is described.
func (t Trend) Finding() string {
	switch {
	case !(t.HandbookP < unlikely):
		return fmt.Sprintf("No trend in the stops is shown (%s).", chance(t.HandbookP))
	case t.Shape < 1:
		return fmt.Sprintf("The stops become rarer (%s): one mean for the whole time says too little.", chance(t.HandbookP))
	}
	return fmt.Sprintf("The stops become more frequent (%s): one mean for the whole time says too little.", chance(t.HandbookP))
}

// order fills in the pairs of gaps. For the chance, pairs of equal gaps are shared out.
func (t *Trend) order(times []float64) {
	gaps, before := make([]float64, len(times)), 0.0
	for i, at := range times {
		gaps[i], before = at-before, at
	}
	equal := 0
	for j := range gaps {
		for i := range j {
			switch {
			case gaps[i] < gaps[j]:
				t.Longer++
			case gaps[i] == gaps[j]:
				equal++
			}
		}
	}
	n := float64(len(gaps))
	t.Pairs = len(gaps) * (len(gaps) - 1) / 2
	z := (float64(t.Longer) + float64(0.5*float64(equal)) - float64(n*(n-1)/4)) / math.Sqrt(n*(n-1)*(float64(2*n)+5)/72)
	t.LongerP = 2 * portable.NormalBelow(-math.Abs(z))
}

func checkTimes(times []float64, end float64) error {
	if len(times) < 5 {
		return fmt.Errorf("there are %d stops, want at least 5 to see a trend", len(times))
	}
	before := 0.0
	for i, t := range times {
		if !(t > 0 && t >= before && t <= end) {
			return fmt.Errorf("stop %d is at %v, want more than 0, not before the stop before, and not after the end, %v", i+1, t, end)
		}
		before = t
	}
	return nil
}
