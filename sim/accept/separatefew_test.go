package accept

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// fewEvents returns the negative shares, per million, of tests of a line with some events a test, in about so many pieces.
func fewEvents(r *rand.Rand, tests int, mean, pieces float64) (all sim.Sample) {
	for range tests {
		n, p := 0, r.Float64() // Knuth’s product of uniform numbers
		for ; p > math.Exp(-mean); n++ {
			p *= r.Float64()
		}
		all = append(all, -1e6*float64(n)/(pieces+4000*r.NormFloat64()))
	}
	return all
}

// Of one event in a good test and 2.7 in a bad one, the good line delivering a tenth more: over 20 plans by 600 tests the
// two risks together, in 20,000 tests of their own, are less than of the limits at which the larger one happened to be
// least, and that larger one is no worse within its chance. Of many events both find the same.
func TestSeparateFew(t *testing.T) {
	risks := Risks{0.05, 0.05}
	r := rand.New(rand.NewPCG(1, 2))
	goods, bads := fewEvents(r, 20_000, 1, 181_000), fewEvents(r, 20_000, 2.7, 165_000)
	var sums, larger [2]float64
	for range 20 {
		good, bad := fewEvents(r, 600, 1, 181_000), fewEvents(r, 600, 2.7, 165_000)
		for i, limit := range []Limit{Separate(good, bad, risks), SeparateFew(good, bad, risks)} {
			l := At(goods, bads, limit.Least)
			sums[i] += (l.Seller.Share() + l.Buyer.Share()) / 20
			larger[i] += max(l.Seller.Share(), l.Buyer.Share()) / 20
		}
	}
	t.Log(sums, larger)
	assert.Less(t, sums[1], sums[0]-0.02)
	assert.Less(t, larger[1], larger[0]+0.018, "the standard error of a quarter in 600")
	good, bad := fewEvents(r, 600, 100, 181_000), fewEvents(r, 600, 140, 181_000)
	assert.InEpsilon(t, Separate(good, bad, risks).Least, SeparateFew(good, bad, risks).Least, 0.02)
}
