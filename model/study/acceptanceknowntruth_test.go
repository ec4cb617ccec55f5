package study

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/output"
)

// knownPlans is how many plans of each line are judged; each costs some seconds.
const knownPlans = 12

// Of tests that are planned by some seeds, on three lines, one with bad lots and bad days, 2,000 are run of lines
// exactly as good and exactly as bad as the plan supposes, on other random events and without a look at how it
// runs its own. The intervals of the risks hold what comes of it about as often as they say: they are of tests
// that set the limit too, so that a little is allowed for that. Over all plans the risks are at or below those
// that were asked for; the number of shifts lies between what each other plan says; and a demand that is a
// hundredth lower has a buyer’s risk that breaks all of this.
func TestKnownTruthOfAcceptance(t *testing.T) {
	modeltest.Briefly(t)
	if *macro < 300 {
		t.Skip("make validate runs it; TestAcceptanceRisks has one plan of each line")
	}
	reference := shorter(modeltest.ReferenceLine(), 3600)
	slower := reference.Clone()
	slower.Speed, slower.Crew.Operators = 0.85*reference.RunSpeed(), 2
	uneven := withLotsAndDays(reference)
	rng := rand.New(rand.NewPCG(31, 32))
	plans := min(knownPlans, *macro/40)
	for _, x := range []struct {
		name      string
		good, bad *model.Line
	}{
		{"more faults", reference, runs.Faultier(reference, 1.4)},
		{"a slower line, with more crew", reference, slower},
		{"bad lots and bad days", uneven, runs.Faultier(uneven, 1.8)},
	} {
		k := &knownAcceptance{risks: accept.Risks{Seller: 0.05, Buyer: 0.1}}
		for range plans {
			k.plan(t, x.good, x.bad, rng.Uint64())
		}
		seller, buyer, generous := k.over()
		t.Logf("%s: %d plans, %+.2f and %+.2f standard errors above the risks, %+.2f with a lower demand; %d of %d intervals missed; shifts %v",
			x.name, plans, seller, buyer, generous, k.missed, 2*plans, k.shifts)
		assert.Less(t, seller, modeltest.Z999, x.name)
		assert.Less(t, buyer, modeltest.Z999, x.name)
		assert.Greater(t, generous, modeltest.Z999, "%s: a lower demand goes unseen: this test cannot fail", x.name)
		low, _ := output.ExactInterval(int64(k.missed), int64(2*plans), 0.999)
		assert.LessOrEqual(t, low, 0.1, "%s: intervals at 95 %% miss too often", x.name)
		assert.Zero(t, k.outside, "%s: lengths that other plans rule out", x.name)
	}
}

// knownAcceptance is what came of tests by some plans.
type knownAcceptance struct {
	risks                    accept.Risks
	failed, passed, generous float64 // shares of the tests of each plan, summed
	variance                 [2]float64
	plans, missed, outside   int
	shifts                   []float64
	between                  [][2]float64
}

// plan plans a test, runs 2,000 of either line by it, and adds up what came of them.
func (k *knownAcceptance) plan(t *testing.T, good, bad *model.Line, seed uint64) {
	t.Helper()
	const tests = 2000
	q := &Acceptance{Good: good, Bad: bad, Risks: k.risks, Plan: sim.Plan{Seed: seed, Max: AcceptanceReps}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Clauses[0]
	goods, bads := newTester(t, good, a.Hours), newTester(t, bad, a.Hours)
	var failed, passed, generous int64
	for n := range tests {
		n += k.plans * tests
		if goods.delivered(t, n) < float64(c.Limit) {
			failed++
		}
		delivered := bads.delivered(t, n)
		if delivered >= float64(c.Limit) {
			passed++
		}
		if delivered >= 0.99*float64(c.Limit) {
			generous++
		}
	}
	k.failed, k.passed, k.generous = k.failed+float64(failed)/tests, k.passed+float64(passed)/tests, k.generous+float64(generous)/tests
	for i, risk := range []Proportion{c.Seller, c.Buyer} {
		k.variance[i] += float64(risk.Share) * (1 - float64(risk.Share)) * (1.0/tests + 1.0/AcceptanceReps)
		low, high := output.ExactInterval([]int64{failed, passed}[i], tests, 0.683) // a standard error more or less, of these tests
		if high < float64(risk.Low) || low > float64(risk.High) {
			k.missed++
		}
	}
	k.plans++
	k.length(a)
}

// length compares how many shifts the plans have with what the others say.
func (k *knownAcceptance) length(a *AcceptanceAnswer) {
	whole := func(hours Number) float64 { return math.Ceil(float64(hours/a.Shift) - 1e-9) }
	k.shifts = append(k.shifts, whole(a.Hours))
	k.between = append(k.between, [2]float64{whole(a.Between.Low), math.Inf(1)})
	if a.Between.High != nil {
		k.between[len(k.between)-1][1] = whole(*a.Between.High)
	}
	k.outside = 0
	for _, n := range k.shifts {
		out := 0
		for _, b := range k.between {
			if n < b[0] || n > b[1] {
				out++
			}
		}
		if 2*out > len(k.between) { // more than half of all rule it out
			k.outside++
		}
	}
}

// over returns by how many standard errors the shares are above the risks asked for.
func (k *knownAcceptance) over() (seller, buyer, generous float64) {
	n := float64(k.plans)
	return (k.failed - n*k.risks.Seller) / math.Sqrt(k.variance[0]), (k.passed - n*k.risks.Buyer) / math.Sqrt(k.variance[1]), (k.generous - n*k.risks.Buyer) / math.Sqrt(k.variance[1])
}
