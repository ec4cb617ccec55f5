package accept_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/portable"
)

// sumsOf returns what tests come to by each of some lengths, where every step adds a normal amount.
func sumsOf(s *sim.Stream, tests, lengths int, mean float64) []sim.Sample {
	all := make([]sim.Sample, lengths)
	for range tests {
		sum := 0.0
		for k := range all {
			sum += mean + s.Normal()
			all[k] = append(all[k], sum)
		}
	}
	return all
}

// Of normal sums the shortest test is known: (z + z)²/d² steps, where d is how far apart the two lines
// are, in standard deviations of a step (Montgomery, Introduction to Statistical Quality Control, from
// memory; it is the sum for two known means). The interval holds it as often as is said, and more; the
// length that is found is off by a part of it that falls with the number of tests; and an interval a
// quarter as wide would miss it.
func TestLengthen(t *testing.T) {
	r := accept.Risks{Seller: 0.05, Buyer: 0.1}
	const apart, lengths = 0.5, 70
	z := portable.NormalQuantile(1-r.Seller) + portable.NormalQuantile(1-r.Buyer)
	truth := z * z / (apart * apart) // 34.3
	s := sim.NewStream("tests", "lengths")
	any := func(int) bool { return true }
	for _, tests := range []int{200, 500} {
		var found sim.Sample
		missed, narrow := 0, 0
		const times = 40
		for k := range times {
			s.Seed(uint64(tests), k)
			x := accept.Lengthen(sumsOf(s, tests, lengths, apart), sumsOf(s, tests, lengths, 0), r, 0.95, any)
			low, high := float64(x.Low), float64(x.High+2) // numbers begin at 0, and lengths are whole
			if x.High < 0 {
				high = math.Inf(1)
			}
			found = append(found, float64(x.Shortest+1))
			if truth < low || truth > high {
				missed++
			}
			if truth < float64(x.Shortest)-(float64(x.Shortest)-low)/4 || truth > float64(x.Shortest+2)+(high-float64(x.Shortest+2))/4 {
				narrow++
			}
		}
		assert.LessOrEqual(t, missed, 2, "of %d tests", tests)
		assert.Greater(t, narrow, 2, "an interval a quarter as wide goes unseen: this test cannot fail")
		assert.InEpsilon(t, truth, found.Mean(), 0.08)
		assert.Less(t, found.SD()/truth, 2.5/math.Sqrt(float64(tests)))
	}
	s.Seed(1, 0)
	good, bad := sumsOf(s, 500, lengths, apart), sumsOf(s, 500, lengths, 0)
	x, tens := accept.Lengthen(good, bad, r, 0.95, any), accept.Lengthen(good, bad, r, 0.95, func(k int) bool { return k%10 == 9 })
	assert.Equal(t, [2]int{x.Low, x.High}, [2]int{tens.Low, tens.High})
	assert.Equal(t, x.Shortest/10*10+9, tens.Shortest, "the next of the lengths that may be")
	assert.Equal(t, accept.Lengths{-1, 0, -1}, accept.Lengthen([]sim.Sample{{1, 2}}, []sim.Sample{{1, 2}}, r, 0.95, any), "two tests show nothing")
}
