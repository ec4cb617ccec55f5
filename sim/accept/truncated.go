package accept

import (
	"math"
	"slices"

	"netrate/sim/portable"
)

// Truncated is a sequential test of events that ends at the latest at a length: then a line is
// accepted if at most Allowed events have come. Its risks and lengths are exact.
type Truncated struct {
	Sequential
	End     float64
	Allowed int64
}

// longest is how long a sequential test may last, in lengths of the test of fixed length.
const longest = 1.5

// TruncatedEvents returns the sequential test of a rate that lasts at most one and a half times as
// long as [Events]. Its lines are Wald’s for risks that are at most the ones given, and so small that
// the true ones are at or below these.
func TruncatedEvents(good, bad float64, r Risks) Truncated {
	end := longest * Events(good, bad, r).Length
	nominal := r
	for {
		s := SequentialEvents(good, bad, nominal)
		t := Truncated{s, end, int64(math.Floor(float64(s.Slope * end)))}
		is := t.Risks(good, bad)
		if is.Seller <= r.Seller && is.Buyer <= r.Buyer {
			return t
		}
		if nominal.Seller < r.Seller/8 || nominal.Buyer < r.Buyer/8 { // the end does it: it must be later
			end, nominal = end*1.1, r
			continue
		}
		if is.Seller > r.Seller {
			nominal.Seller *= 0.98
		}
		if is.Buyer > r.Buyer {
			nominal.Buyer *= 0.98
		}
	}
}

// Risks returns the true risks at the two rates.
func (t Truncated) Risks(good, bad float64) Risks {
	pass, _ := t.Of(good)
	wrong, _ := t.Of(bad)
	return Risks{1 - pass, wrong}
}

// Of returns the probability that a line with a rate passes, and the mean length of its test.
//
// The count only rises, so that a line is accepted at one of the moments at which the lower line
// reaches a whole number; between two moments at which either line does so, what is rejected is
// whatever is above one number. From moment to moment the distribution of the count is that of a
// Poisson process.
func (t Truncated) Of(rate float64) (passes, length float64) {
	open := []float64{1} // the probabilities of the counts from low on, as yet undecided
	low, now := 0, 0.0
	for _, to := range t.moments() {
		rejecting := int(math.Ceil(float64(t.Slope*(now+to)/2) + t.Reject)) // the least count that is, between the two
		next := t.advance(open, rejecting-low, float64(rate*(to-now)))
		length += next.time / rate
		open, now = next.open, to
		for low < rejecting && len(open) > 0 && float64(low) <= float64(t.Slope*now)-t.Accept+tiny {
			passes += open[0]
			open, low = open[1:], low+1
		}
	}
	for i, p := range open {
		if int64(low+i) <= t.Allowed {
			passes += p
		}
	}
	return passes, length
}

// After returns whether the test is over after a length in which some events came, and how.
func (t Truncated) After(length float64, events int64) (over, accepted bool) {
	switch seen := float64(events); {
	case length >= t.End-tiny:
		return true, seen <= float64(t.Slope*length)+tiny
	case seen >= float64(t.Slope*length)+t.Reject-tiny:
		return true, false
	default:
		over = seen <= float64(t.Slope*length)-t.Accept+tiny
		return over, over
	}
}

// Looked returns the probabilities that a line with a rate is accepted and rejected at one of some looks
// or before, if nobody looks in between: the lengths at which are in rising order.
func (t Truncated) Looked(rate float64, looks []float64) (accepted, rejected float64) {
	open, now := []float64{1}, 0.0 // the probabilities of the counts, as yet undecided
	for _, at := range looks {
		expected := float64(rate * (at - now))
		most := len(open) + int(expected+float64(12*math.Sqrt(expected))) + 20 // of more there are next to none
		next := make([]float64, most)
		for i, p := range open {
			if p == 0 {
				continue
			}
			for k := i; k < most; k++ {
				next[k] += float64(p * poisson(k-i, expected))
			}
		}
		for k := range next {
			if over, good := t.After(at, int64(k)); over && good {
				accepted, next[k] = accepted+next[k], 0
			} else if over {
				rejected, next[k] = rejected+next[k], 0
			}
		}
		open, now = next, at
	}
	return accepted, rejected
}

// tiny is by how much a whole number may seem to lie above a line that goes through it.
const tiny = 1e-9

// moments returns the times, up to the end, at which a line reaches a whole number, in order.
func (t Truncated) moments() []float64 {
	var all []float64
	for k := 0; ; k++ {
		at := (float64(k) + t.Accept) / t.Slope
		if at >= t.End {
			break
		}
		all = append(all, at)
	}
	for k := int(math.Ceil(t.Reject)); ; k++ {
		at := (float64(k) - t.Reject) / t.Slope
		if at >= t.End {
			break
		}
		if at > 0 {
			all = append(all, at)
		}
	}
	slices.Sort(all)
	return append(all, t.End)
}

// stage is what a stretch of the test comes to.
type stage struct {
	open []float64 // the probabilities of the counts at its end
	time float64   // that the test went on in it, on average, in events expected
}

// advance returns what comes of counts in a stretch in which a number of events is expected. Counts of
// width or more are rejected at once.
func (Truncated) advance(open []float64, width int, expected float64) stage {
	to := stage{open: make([]float64, max(0, width))}
	chance := make([]float64, width) // of that many events
	lasts := make([]float64, width)  // the mean time, in events expected, in which there are at most that many
	sum := 0.0
	for k := range chance {
		chance[k] = poisson(k, expected)
		sum += portable.GammaBelow(float64(k+1), expected)
		lasts[k] = sum
	}
	for i, p := range open {
		for j := i; j < width; j++ {
			to.open[j] += float64(p * chance[j-i])
		}
		if i < width {
			to.time += float64(p * lasts[width-1-i])
		}
	}
	return to
}

// poisson returns the probability of k events where a number is expected.
func poisson(k int, expected float64) float64 {
	if expected == 0 {
		if k == 0 {
			return 1
		}
		return 0
	}
	return portable.Exp(float64(float64(k)*portable.Log(expected)) - expected - portable.Lgamma(float64(k+1)))
}
