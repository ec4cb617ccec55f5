package runs

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// stood returns a record of periods, each with a number of stops and of seconds.
func stood(periods ...StopSum) Replica { return Replica{Periods: periods} }

// By hand. Two periods; three records, the first of which is the log: (2, 6), (1, 3), (3, 3)
// stops, each of 10 s. The means are 2 and 4, the variances 1 and 3. The log has k = 8/6 of
// what is expected, so that its periods are 2 − 8/3 = −2/3 and 6 − 16/3 = 2/3 off:
// (4/9) / (4/3 · 1) + (4/9) / (4/3 · 3) = 1/3 + 1/9 = 4/9, over n − 1 = 1. The second has
// k = 2/3: −1/3 and 1/3 off, (1/9) / (2/3) + (1/9) / 2 = 1/6 + 1/18 = 2/9. The third has
// k = 1: 1 and −1 off, 1 + 1/3 = 4/3. As all stops are alike, seconds disperse as stops do.
func TestCompareRecordsByHand(t *testing.T) {
	of := func(a, b int64) Replica {
		return stood(StopSum{a, sim.Seconds(10 * a)}, StopSum{b, sim.Seconds(10 * b)})
	}
	tests := CompareRecords(of(2, 6), []Replica{of(1, 3), of(3, 3)}, 0.05)
	require.Len(t, tests, 4)
	for i, want := range []struct {
		log, first, second, p float64
	}{{8, 4, 6, 2.0 / 3}, {80, 40, 60, 2.0 / 3}, {4.0 / 9, 2.0 / 9, 4.0 / 3, 1}, {4.0 / 9, 2.0 / 9, 4.0 / 3, 1}} {
		x := tests[i]
		assert.Equal(t, RecordFigure(i), x.Figure)
		assert.InDelta(t, want.log, x.Log, 1e-12, "%d", i)
		assert.InDelta(t, want.first, x.Simulated[0], 1e-12, "%d", i)
		assert.InDelta(t, want.second, x.Simulated[1], 1e-12, "%d", i)
		assert.InDelta(t, want.p, x.P, 1e-12, "%d", i)
		assert.False(t, x.Out)
	}
}

// slowDispersion is the dispersion of the seconds of record i once more, sum by sum.
func slowDispersion(all [][]StopSum, i int) float64 {
	n, allStops, allSeconds, stops, seconds := float64(len(all)), 0.0, 0.0, 0.0, 0.0
	for r, periods := range all {
		for _, p := range periods {
			allStops += float64(p.Stops) / n
			allSeconds += float64(p.Seconds) / n
			if r == i {
				stops += float64(p.Stops)
				seconds += float64(p.Seconds)
			}
		}
	}
	perStop := (seconds / stops) / (allSeconds / allStops) // a stop of this record, as many times as long
	times := stops / allStops * perStop * perStop
	sum := 0.0
	for k := range all[i] {
		mean, squares := 0.0, 0.0
		for _, periods := range all {
			mean += float64(periods[k].Seconds) / n
		}
		for _, periods := range all {
			squares += math.Pow(float64(periods[k].Seconds)-mean, 2)
		}
		off := float64(all[i][k].Seconds) - mean*seconds/allSeconds
		sum += off * off / (times * squares / (n - 1))
	}
	return sum / float64(len(all[i])-1)
}

func TestCompareRecordsSlowly(t *testing.T) {
	random := sim.NewStream("record", "test")
	for round := range 20 {
		random.Seed(1, round)
		all, replicas := [][]StopSum{}, []Replica{}
		for range 5 {
			var periods []StopSum
			for range 4 {
				periods = append(periods, StopSum{1 + random.Binomial(9, 0.4), sim.Seconds(100 * random.Uniform())})
			}
			all, replicas = append(all, periods), append(replicas, stood(periods...))
		}
		tests := CompareRecords(replicas[0], replicas[1:], 0.05)
		assert.InEpsilon(t, slowDispersion(all, 0), tests[VaryingSeconds].Log, 1e-9)
		for i, x := range tests[VaryingSeconds].Simulated {
			assert.InEpsilon(t, slowDispersion(all, i+1), x, 1e-9)
		}
	}
}

// One period alone does not vary, and nothing is no division by zero.
func TestCompareRecordsOfLittle(t *testing.T) {
	assert.Len(t, CompareRecords(stood(StopSum{1, 1}), []Replica{stood(StopSum{2, 2})}, 0.05), 2)
	for _, x := range CompareRecords(stood(StopSum{}, StopSum{}), []Replica{stood(StopSum{}, StopSum{}), stood(StopSum{}, StopSum{2, 2})}, 0.05) {
		assert.Zero(t, x.Log)
		assert.InDelta(t, 1, x.P, 1e-12)
		assert.False(t, x.Out)
	}
}

// invented draws a record of 20 periods with stops at random, in each period often times as
// many as usual, each long times as long.
func invented(random *sim.Stream, often func(period int) float64, long float64) Replica {
	r := Replica{Periods: make([]StopSum, 20)}
	for k := range r.Periods {
		p := &r.Periods[k]
		p.Stops = random.Binomial(20_000, often(k)*float64(20+k)/20_000)
		for range p.Stops {
			p.Seconds += sim.Seconds(long * random.Exponential())
		}
	}
	return r
}

// A record like the others is out of line as seldom as is said, and each fault of a model is
// seen where it should be, and not elsewhere.
func TestCompareRecordsFindsTheFault(t *testing.T) {
	modeltest.Briefly(t)
	as := func(x float64) func(int) float64 { return func(int) float64 { return x } }
	uneven := func(k int) float64 { return 0.5 + float64(k%2) } // every second period three times as often
	const rounds = 150                                          // intervals of 99.9 %
	for _, c := range []struct {
		name  string
		often func(int) float64
		long  float64
		out   [4]bool // in nearly every round; else hardly ever
	}{
		{"right", as(1), 1, [4]bool{}},
		{"twice as often", as(2), 1, [4]bool{true, true, false, false}},
		{"half as often", as(0.5), 1, [4]bool{true, true, false, false}},
		{"longer", as(1), 1.5, [4]bool{false, true, false, false}},
		{"uneven", uneven, 1, [4]bool{false, false, true, true}},
	} {
		t.Run(c.name, func(t *testing.T) {
			random := sim.NewStream("record", "test")
			var out [4]int64
			anyOut := int64(0)
			for round := range rounds {
				random.Seed(2, round)
				log := invented(random, c.often, c.long)
				var replicas []Replica
				for range 199 {
					replicas = append(replicas, invented(random, as(1), 1))
				}
				seen := false
				for i, x := range CompareRecords(log, replicas, 0.05) {
					if x.Out {
						out[i]++
						seen = true
					}
				}
				if seen {
					anyOut++
				}
			}
			for i, wanted := range c.out {
				low, _ := output.ExactInterval(out[i], rounds, 0.999)
				if wanted {
					assert.Greater(t, low, 0.5, "figure %d is seen in %d of %d", i, out[i], rounds)
				} else {
					assert.Less(t, low, 0.05, "figure %d is out of line in %d of %d", i, out[i], rounds)
				}
			}
			if c.out == ([4]bool{}) {
				low, _ := output.ExactInterval(anyOut, rounds, 0.999)
				assert.LessOrEqual(t, low, 0.05, "any figure in %d of %d", anyOut, rounds)
			}
		})
	}
}

// Why the dispersion is taken about the level of the record itself: about what is expected,
// a record with twice the stops would be one whose periods vary too.
func TestDispersionIsNotOfTheLevel(t *testing.T) {
	random := sim.NewStream("record", "test")
	random.Seed(3, 0)
	all := []Replica{invented(random, func(int) float64 { return 2 }, 1)}
	for range 199 {
		all = append(all, invented(random, func(int) float64 { return 1 }, 1))
	}
	m := momentsOf(all, func(s StopSum) float64 { return float64(s.Stops) })
	var plain sim.Sample
	for _, x := range m.x {
		sum := 0.0
		for p := range x {
			sum += math.Pow(x[p]-m.mean[p], 2) / m.variance[p]
		}
		plain = append(plain, sum)
	}
	assert.InDelta(t, 0.01, output.AmongDrawn(plain[0], plain[1:]), 1e-12)
	assert.Greater(t, CompareRecords(all[0], all[1:], 0.05)[VaryingStops].P, 0.05)
}
