package accept

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// handbook are fixed-length plans of MIL-HDBK-781A: the design ratio, the time in multiples of the
// lower test MTBF, the acceptance number and the true risks in per cent. Source: the handbook, plans,
// ratios, times and numbers from memory; the risks as it prints them.
var handbook = []struct {
	plan          string
	ratio, time   float64
	allowed       int64
	seller, buyer float64
}{
	{"IX-D", 1.5, 45.0, 36, 12.0, 9.9},
	{"X-D", 1.5, 29.9, 25, 10.9, 21.4},
	{"XII-D", 2.0, 18.8, 13, 9.6, 10.6},
	{"XIII-D", 2.0, 12.4, 9, 9.8, 20.9},
	{"XIV-D", 2.0, 7.8, 5, 19.9, 21.0},
	{"XV-D", 3.0, 9.3, 5, 9.4, 9.9},
	{"XVII-D", 3.0, 4.3, 2, 17.5, 19.7},
}

func TestHandbookPlans(t *testing.T) {
	for _, c := range handbook {
		t.Run(c.plan, func(t *testing.T) {
			is := EventPlan{Length: c.time, Allowed: c.allowed}.Risks(1/c.ratio, 1)
			assert.InDelta(t, c.seller, 100*is.Seller, 0.05, "producer’s risk, %")
			assert.InDelta(t, c.buyer, 100*is.Buyer, 0.05, "consumer’s risk, %")
			one := EventPlan{Length: c.time, Allowed: c.allowed + 1}.Risks(1/c.ratio, 1)
			assert.Greater(t, math.Abs(c.seller-100*one.Seller), 0.05, "one more allowed goes unseen: this test cannot fail")
		})
	}
}

// A plan holds both risks, and no shorter one does: with each smaller number allowed, whatever length
// holds the one risk breaks the other.
func TestEventsAreShortest(t *testing.T) {
	for _, r := range []Risks{{0.1, 0.1}, {0.05, 0.05}, {0.2, 0.1}, {0.01, 0.05}} {
		for _, ratio := range []float64{1.2, 1.5, 2, 3, 10, 100} {
			p := Events(1/ratio, 1, r)
			is := p.Risks(1/ratio, 1)
			assert.LessOrEqual(t, is.Seller, r.Seller, "%v at %v", p, ratio)
			assert.InDelta(t, r.Buyer, is.Buyer, 1e-9, "%v at %v", p, ratio)
			for allowed := range p.Allowed {
				shorter := EventPlan{Length: EventLength(allowed, 1, r.Buyer), Allowed: allowed}
				assert.Greater(t, shorter.Risks(1/ratio, 1).Seller, r.Seller, "%v at %v", shorter, ratio)
			}
		}
	}
}

func TestEventsAllowed(t *testing.T) {
	for _, c := range handbook {
		allowed := EventsAllowed(c.time, 1, 1/c.ratio, 0.1)
		assert.LessOrEqual(t, EventPlan{Length: c.time, Allowed: allowed}.Risks(1/c.ratio, 1).Seller, 0.1)
		assert.Greater(t, EventPlan{Length: c.time, Allowed: allowed - 1}.Risks(1/c.ratio, 1).Seller, 0.1)
	}
}

// runs is how many tests of each kind are simulated.
const runs = 20_000

// over returns by how many standard errors more wrong decisions were made than a risk allows.
func over(wrong int, risk float64) float64 {
	return (float64(wrong) - risk*runs) / math.Sqrt(runs*risk*(1-risk))
}

// z999 is the quantile of the normal distribution that one figure in 2000 is above.
const z999 = 3.2905

// The true risks of the plan with 20 000 simulated tests: at or below those stated. A plan that allows
// a quarter more is seen to break the buyer’s.
func TestEventsBySimulation(t *testing.T) {
	r := Risks{0.1, 0.05}
	p := Events(2, 3, r)
	generous := EventPlan{Length: p.Length, Allowed: p.Allowed + p.Allowed/4}
	s := sim.NewStream("accept", "events")
	var failed, passed, generously int
	for k := range runs {
		s.Seed(1, k)
		if events(s, 2, p.Length) > p.Allowed {
			failed++
		}
		n := events(s, 3, p.Length)
		if n <= p.Allowed {
			passed++
		}
		if n <= generous.Allowed {
			generously++
		}
	}
	assert.Less(t, over(failed, r.Seller), z999)
	assert.Less(t, over(passed, r.Buyer), z999)
	assert.InDelta(t, p.Risks(2, 3).Seller, float64(failed)/runs, z999*math.Sqrt(0.09/runs))
	assert.Greater(t, over(generously, r.Buyer), z999, "this test cannot fail")
}

// events returns how many events come in a length.
func events(s *sim.Stream, rate, length float64) int64 {
	n := int64(0)
	for at := s.Exponential() / rate; at <= length; at += s.Exponential() / rate {
		n++
	}
	return n
}

// An independent property: with a constant rate the intervals between events have the coefficient of
// variation 1, and the plan for their mean is the plan for the rate. Where n times are measured, a
// plan of events that allows n − 1 in the limit’s length passes the same lines.
func TestTimesAndEventsAgree(t *testing.T) {
	p := TimePlan{Number: 7, Limit: 1.3, CV: 1}
	e := EventPlan{Length: 7 * 1.3, Allowed: 6}
	for _, mean := range []float64{0.3, 0.8, 1, 1.5, 4} {
		assert.InDelta(t, 1-e.Passes(1/mean), p.Passes(mean), 1e-12)
	}
}

func TestRefuses(t *testing.T) {
	assert.Panics(t, func() { Events(3, 2, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { Events(0, 2, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { Events(math.NaN(), 2, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { Events(1, 2, Risks{0.5, 0.1}) })
	assert.Panics(t, func() { Events(1, 1+1e-9, Risks{0.05, 0.05}) }, "too near each other")
	assert.Panics(t, func() { Share(0.5, 1, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { Times(1, 2, 0, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { SequentialNormal(2, 1, 1, Risks{0.1, 0.1}) })
	assert.Panics(t, func() { Separate(nil, sim.Sample{1}, Risks{0.1, 0.1}) })
	assert.ErrorContains(t, Risks{0, 0.1}.Check(), "seller’s risk is 0")
	assert.ErrorContains(t, Risks{0.1, math.NaN()}.Check(), "buyer’s risk is NaN")
	assert.NoError(t, Risks{0.1, 0.2}.Check())
}

// Events that come one or two at a time: the exact distribution of their number by the recursion of Panjer (1981,
// ASTIN Bulletin 12), p(n) = λ/n Σ k q(k) p(n−k), from memory. The sum of a Poisson number of clumps has the mean
// λ(q₁ + 2 q₂) and the variance λ(q₁ + 4 q₂).
func TestEventsAtATime(t *testing.T) {
	for _, x := range []struct{ clumps, pairs float64 }{{20, 0.1}, {60, 0.5}, {200, 0.9}, {40, 1}} {
		one, two := 1-x.pairs, x.pairs
		mean, dispersion := x.clumps*(one+2*two), (one+4*two)/(one+2*two)
		p, below := []float64{math.Exp(-x.clumps)}, math.Exp(-x.clumps)
		for n := 1; n <= int(mean+6*math.Sqrt(mean*dispersion)); n++ {
			next := x.clumps / float64(n) * one * p[n-1]
			if n > 1 {
				next += x.clumps / float64(n) * 2 * two * p[n-2]
			}
			p, below = append(p, next), below+next
			near := EventPlan{Length: 1, Allowed: int64(n), Dispersion: dispersion}.Passes(mean)
			within := 0.02
			if x.pairs == 1 { // the number is even: the step is in the middle
				within = math.Max(within, p[n]/2+p[n-1]/2)
			}
			assert.InDelta(t, below, near, within, "%v, %d", x, n)
		}
		allowed := EventsAllowed(1, dispersion, mean, 0.05)
		assert.Greater(t, allowed, EventsAllowed(1, 1, mean, 0.05), "which is too hopeful")
	}
}
