package accept

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// Wald’s lines, from his formulas by hand (Sequential Analysis, 1947, from memory). Of events at rates
// of 1 and 2 with risks of 10 % and 10 %, ln 9 = 2.197225 and ln 2 = 0.693147: h = 3.169925 and
// s = 1/0.693147 = 1.442695.
func TestWaldsLines(t *testing.T) {
	e := SequentialEvents(1, 2, Risks{0.1, 0.1})
	assert.InDelta(t, 1.442695, e.Slope, 1e-6)
	assert.InDelta(t, 3.169925, e.Accept, 1e-6)
	assert.InDelta(t, 3.169925, e.Reject, 1e-6)
	// The mean lengths: (0.9·3.169925 − 0.1·3.169925)/0.442695 and (0.9 − 0.1)·3.169925/0.557305.
	assert.InDelta(t, 5.72842, e.Expected(1, 0.9), 1e-4)
	assert.InDelta(t, 4.55037, e.Expected(2, 0.1), 1e-4)

	// Of shares of 10 % and 30 % with risks of 2 % and 3 %: ln(0.98/0.03) = 3.486355,
	// ln(0.97/0.02) = 3.881564, g = ln 3 + ln(0.9/0.7) = 1.349927.
	b := SequentialShare(0.1, 0.3, Risks{0.02, 0.03})
	assert.InDelta(t, 0.251314/1.349927, b.Slope, 1e-6)
	assert.InDelta(t, 3.486355/1.349927, b.Accept, 1e-6)
	assert.InDelta(t, 3.881564/1.349927, b.Reject, 1e-6)

	// Of normal numbers with means of 135 and 150 and a standard deviation of 25 at 1 % and 3 %:
	// s = 142.5, and h = 625/15 · ln(0.99/0.03) and 625/15 · ln(0.97/0.01).
	n := SequentialNormal(135, 150, 25, Risks{0.01, 0.03})
	assert.InDelta(t, 142.5, n.Slope, 1e-12)
	assert.InDelta(t, 145.688, n.Accept, 1e-3)
	assert.InDelta(t, 190.613, n.Reject, 1e-3)

	assert.Equal(t, accepted, after(e, 3, 1))
	assert.Equal(t, undecided, after(e, 3, 2))
	assert.Equal(t, rejected, after(e, 3, 8))
}

// A truncated test of events: the true risks are exact and at or below those stated, so they are in
// 20 000 simulated tests, and the lengths are those computed. It is shorter than the fixed one.
func TestTruncatedEvents(t *testing.T) {
	for name, c := range map[string]struct {
		bad float64
		r   Risks
	}{
		"ratio 1.5, 10 % and 10 %": {1.5, Risks{0.1, 0.1}},
		"ratio 2, 5 % and 5 %":     {2, Risks{0.05, 0.05}},
		"ratio 3, 20 % and 5 %":    {3, Risks{0.2, 0.05}},
	} {
		t.Run(name, func(t *testing.T) {
			p := TruncatedEvents(1, c.bad, c.r)
			is := p.Risks(1, c.bad)
			assert.LessOrEqual(t, is.Seller, c.r.Seller)
			assert.LessOrEqual(t, is.Buyer, c.r.Buyer)
			fixed := Events(1, c.bad, c.r)
			for _, rate := range []float64{1, c.bad} {
				pass, length := p.Of(rate)
				assert.Less(t, length, fixed.Length)
				passed, lengths := simulated(p, rate)
				assert.InDelta(t, pass, float64(passed)/runs, z999*math.Sqrt(pass*(1-pass)/runs), "at the rate %v", rate)
				e := lengths.Interval(0.999)
				assert.InDelta(t, length, e.Mean, e.Half, "at the rate %v", rate)
				if rate == 1 {
					assert.Less(t, over(runs-passed, c.r.Seller), z999)
				} else {
					assert.Less(t, over(passed, c.r.Buyer), z999)
				}
			}
			nearer, _ := p.Of(1.1)
			off, _ := simulated(p, 1)
			assert.Greater(t, math.Abs(float64(off)-nearer*runs)/math.Sqrt(runs*nearer*(1-nearer)), z999, "a rate 10 %% off goes unseen: this test cannot fail")
		})
	}
}

// simulated runs tests one event after the other, without a look at how Of does it.
func simulated(p Truncated, rate float64) (passed int, lengths sim.Sample) {
	s := sim.NewStream("accept", "sequential")
	for k := range runs {
		s.Seed(4, k)
		at, count := 0.0, 0.0
		for {
			next := at + s.Exponential()/rate
			accepted := (count + p.Accept) / p.Slope // when the lower line reaches the count
			if accepted <= min(next, p.End) {
				passed++
				lengths = append(lengths, accepted)
				break
			}
			if next >= p.End {
				if int64(count) <= p.Allowed {
					passed++
				}
				lengths = append(lengths, p.End)
				break
			}
			at, count = next, count+1
			if after(p.Sequential, at, count) == rejected {
				lengths = append(lengths, at)
				break
			}
		}
	}
	return passed, lengths
}

// With Wald’s own lines and no end in sight, his formulas hold but for the events beyond the upper
// line: the risk of the seller is below, and the two risks together are no more than stated.
func TestWaldsRisks(t *testing.T) {
	r := Risks{0.1, 0.1}
	endless := Truncated{SequentialEvents(1, 1.5, r), 400, 600}
	is := endless.Risks(1, 1.5)
	assert.Less(t, is.Seller, r.Seller)
	assert.InDelta(t, r.Seller, is.Seller, 0.02)
	assert.InDelta(t, r.Buyer, is.Buyer, 0.02)
	assert.LessOrEqual(t, is.Seller+is.Buyer, r.Seller+r.Buyer)
	assert.InDelta(t, r.Buyer/(1-r.Seller), is.Buyer/(1-is.Seller), 1e-6, "the lower line is met exactly")
	for _, rate := range []float64{1, 1.5} {
		pass, length := endless.Of(rate)
		assert.InEpsilon(t, endless.Expected(rate, pass), length, 0.08, "at the rate %v", rate)
	}
	// His operating characteristic: where the rate is (1.5 − 1)·h/(1.5^h − 1), L = (A^h − 1)/(A^h − B^h).
	for _, h := range []float64{-2, -1, -0.3, 0.3, 1, 2} {
		a, b := math.Pow(9, h), math.Pow(1/9.0, h)
		pass, _ := endless.Of(0.5 * h / (math.Pow(1.5, h) - 1))
		assert.InDelta(t, (a-1)/(a-b), pass, 0.03, "at h = %v", h)
	}
}

// The sequential tests of a mean of lognormal times and of a share hold their risks in 20 000 tests,
// and take about as long as Wald’s formula says.
func TestSequentialBySimulation(t *testing.T) {
	r := Risks{0.05, 0.1}
	const cv = 0.8
	variance := math.Log(1 + cv*cv)
	logTime := func(mean float64) func(*sim.Stream) float64 {
		return func(s *sim.Stream) float64 { return math.Log(mean) - variance/2 + math.Sqrt(variance)*s.Normal() }
	}
	defective := func(share float64) func(*sim.Stream) float64 {
		return func(s *sim.Stream) float64 {
			if s.Chance(share) {
				return 1
			}
			return 0
		}
	}
	for name, c := range map[string]struct {
		test      Sequential
		good, bad func(*sim.Stream) float64
		means     [2]float64
	}{
		"times": {SequentialTimes(45, 60, cv, r), logTime(45), logTime(60), [2]float64{math.Log(45) - variance/2, math.Log(60) - variance/2}},
		"share": {SequentialShare(0.05, 0.15, r), defective(0.05), defective(0.15), [2]float64{0.05, 0.15}},
	} {
		t.Run(name, func(t *testing.T) {
			failed, goodLength := walked(c.test, c.good, rejected)
			passed, badLength := walked(c.test, c.bad, accepted)
			assert.Less(t, over(failed, r.Seller), z999)
			assert.Less(t, over(passed, r.Buyer/(1-r.Seller)), z999, "Wald’s bound")
			assert.Greater(t, float64(failed)/runs, r.Seller/3, "so far below that nothing is tested")
			assert.Greater(t, float64(passed)/runs, r.Buyer/3, "so far below that nothing is tested")
			// Longer than he says by what a step beyond a line takes, a fifth of the way at most.
			assert.InEpsilon(t, c.test.Expected(c.means[0], 1-r.Seller), goodLength, 0.2)
			assert.InEpsilon(t, c.test.Expected(c.means[1], r.Buyer), badLength, 0.2)
		})
	}
}

// walked runs tests to their end and returns how many came to a verdict, and their mean length.
func walked(test Sequential, draw func(*sim.Stream) float64, which verdict) (times int, length float64) {
	s := sim.NewStream("accept", "walk")
	for k := range runs {
		s.Seed(5, k)
		n, sum := 0.0, 0.0
		is := undecided
		for is == undecided {
			n++
			sum += draw(s)
			is = after(test, n, sum)
		}
		if length += n / runs; is == which {
			times++
		}
	}
	return times, length
}

// verdict is what a test says.
type verdict int

const (
	undecided verdict = iota
	accepted
	rejected
)

// after returns what a test says after a length, with the sum seen in it, by its two lines.
func after(s Sequential, length, sum float64) verdict {
	switch at := s.Slope * length; {
	case sum <= at-s.Accept:
		return accepted
	case sum >= at+s.Reject:
		return rejected
	}
	return undecided
}

// A look at every thousandth of the length decides as one who always looks, but for what comes within
// it; the fewer the looks are, the later is the decision. By hand: at one look, at the end, a line is
// accepted if there are no more events than are allowed.
func TestTruncatedLooked(t *testing.T) {
	r := Risks{Seller: 0.05, Buyer: 0.1}
	x := TruncatedEvents(1, 2, r)
	looks := func(n int) (all []float64) {
		for k := range n {
			all = append(all, x.End*float64(k+1)/float64(n))
		}
		return all
	}
	for _, rate := range []float64{1, 1.4, 2} {
		passes, _ := x.Of(rate)
		accepted, rejected := x.Looked(rate, looks(300))
		assert.InDelta(t, passes, accepted, 0.01, "at %v", rate)
		assert.InDelta(t, 1, accepted+rejected, 1e-9)
		accepted, _ = x.Looked(rate, looks(1))
		assert.InDelta(t, EventPlan{Length: x.End, Allowed: x.Allowed}.Passes(rate), accepted, 1e-9)
	}
	half, _ := x.Looked(1, looks(300)[:150])
	whole, _ := x.Looked(1, looks(300))
	assert.Less(t, half, whole)
	over, accepted := x.After(x.End/2, int64(x.Slope*x.End/2+x.Reject)+1)
	assert.True(t, over && !accepted)
	over, _ = x.After(x.End/2, int64(x.Slope*x.End/2))
	assert.False(t, over)
}
