package accept_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
	"netrate/sim/accept"
)

// A test in stages, by hand: the first sum decides, or the second does, or the last must.
func TestStagesByHand(t *testing.T) {
	s := accept.Stages{Pass: []float64{12, 20, 27}, Fail: []float64{6, 15, 27}}
	for _, c := range []struct {
		sums   []float64
		passes bool
		stages int
	}{
		{[]float64{12, 0, 0}, true, 1},
		{[]float64{5.5, 99, 99}, false, 1},
		{[]float64{6, 20, 0}, true, 2},
		{[]float64{11, 14, 99}, false, 2},
		{[]float64{11, 19, 27}, true, 3},
		{[]float64{6, 15, 26.9}, false, 3},
	} {
		passes, stages := s.Of(c.sums)
		assert.Equal(t, c.passes, passes, "%v", c.sums)
		assert.Equal(t, c.stages, stages, "%v", c.sums)
	}
	x := s.Try([][]float64{{12, 0, 0}, {5, 0, 0}}, [][]float64{{11, 19, 27}})
	assert.Equal(t, accept.Staged{
		Seller: accept.Wrong{Times: 1, Of: 2}, Buyer: accept.Wrong{Times: 1, Of: 1},
		MeanGood: 1, MeanBad: 3, GoodOver: []int64{2, 2, 2}, BadOver: []int64{0, 0, 1},
		Failed: []int64{1, 1, 1}, Passed: []int64{0, 0, 1},
	}, x)
	assert.False(t, x.Holds(accept.Risks{Seller: 0.4, Buyer: 0.4}, 1))
}

// Between two stages the limits are on the straight line, and after the last in proportion.
func TestStagesAt(t *testing.T) {
	s := accept.Stages{Pass: []float64{12, 20, 27}, Fail: []float64{6, 16, 27}}
	for _, c := range [][3]float64{{1, 12, 6}, {1.5, 16, 11}, {2, 20, 16}, {2.5, 24, 22}, {0.5, 8, 1}, {3, 27, 27}, {4, 36, 36}} {
		pass, fail := s.At(c[0])
		assert.Equal(t, [2]float64{c[1], c[2]}, [2]float64{pass, fail}, "after %v", c[0])
	}
}

// normalSums returns sums of normal numbers with a standard deviation of 1.
func normalSums(s *sim.Stream, lines, stages int, mean float64) [][]float64 {
	all := make([][]float64, lines)
	for i := range all {
		sum := 0.0
		for range stages {
			sum += mean + s.Normal()
			all[i] = append(all[i], 1000*sum)
		}
	}
	return all
}

// Planned on some lines, a test in stages holds its risks on others, and ends sooner on average than
// the test of fixed length: normal sums with means ±0.5, for which that takes (2·1.645)² = 10.8 stages.
// With limits half as far apart it does not hold them, so that this can fail.
func TestStagesHoldTheirRisks(t *testing.T) {
	s := sim.NewStream("accept", "stages")
	s.Seed(3, 0)
	r := accept.Risks{Seller: 0.05, Buyer: 0.05}
	const stages = 16
	good, bad := normalSums(s, 4000, stages, 0.5), normalSums(s, 4000, stages, -0.5)
	wide := accept.Widths(good, bad, r, 0.93)[0]
	freshGood, freshBad := normalSums(s, 20_000, stages, 0.5), normalSums(s, 20_000, stages, -0.5)
	x := accept.InStages(good, bad, r, wide).Try(freshGood, freshBad)
	assert.True(t, x.Holds(r, 1), "%+v", x)
	assert.Less(t, x.MeanGood, 0.7*10.8)
	assert.Less(t, x.MeanBad, 0.7*10.8)
	assert.False(t, accept.InStages(good, bad, r, wide/2).Try(freshGood, freshBad).Holds(r, 1), "this test cannot fail")
	assert.EqualValues(t, 20_000, x.GoodOver[stages-1], "after the last stage all is decided")
}

// At the widest limits nothing is decided before the last stage, where the limit is that of a test of
// fixed length.
func TestWidestStagesAreOfFixedLength(t *testing.T) {
	s := sim.NewStream("accept", "stages")
	s.Seed(4, 0)
	r := accept.Risks{Seller: 0.05, Buyer: 0.1}
	good, bad := normalSums(s, 500, 4, 0.5), normalSums(s, 500, 4, -0.5)
	x := accept.InStages(good, bad, r, 1e6)
	var ends [2]sim.Sample
	for i, lines := range [][][]float64{good, bad} {
		for _, sums := range lines {
			ends[i] = append(ends[i], sums[3])
		}
	}
	assert.Equal(t, math.Ceil(accept.Separate(ends[0], ends[1], r).Least), x.Pass[3])
	assert.Equal(t, x.Pass[3], x.Fail[3])
	assert.InDelta(t, 4, x.Try(good, bad).MeanGood, 1e-9)
}

// A limit that decides nothing is none between the stages either.
func TestStagesWithoutALimit(t *testing.T) {
	none := math.Inf(1)
	s := accept.Stages{Pass: []float64{none, 20, 27}, Fail: []float64{-none, 15, 27}}
	for at, want := range map[float64][2]float64{0.9: {none, -none}, 1: {none, -none}, 1.5: {none, -none}, 2: {20, 15}, 2.5: {24, 21}, 3: {27, 27}} {
		pass, fail := s.At(at)
		assert.Equal(t, want, [2]float64{pass, fail}, "after %v", at)
	}
	passes, stages := s.Of([]float64{19, 20, 0})
	assert.True(t, passes)
	assert.Equal(t, 2, stages)
}

// The last limit is that of the test of fixed length: where that is a whole number, a rounding of its
// last bit would make it an envelope more.
func TestLastLimitIsNotRounded(t *testing.T) {
	s := sim.NewStream("accept", "last limit")
	s.Seed(5, 0)
	r := accept.Risks{Seller: 0.05, Buyer: 0.1}
	whole := func(lines [][]float64) (ends sim.Sample) {
		for _, sums := range lines {
			for k := range sums {
				sums[k] = math.Round(sums[k])
			}
			ends = append(ends, sums[len(sums)-1])
		}
		return ends
	}
	for range 3000 { // some in a thousand would be rounded up
		good, bad := normalSums(s, 20, 3, 0.5), normalSums(s, 20, 3, -0.5)
		least := math.Ceil(accept.Separate(whole(good), whole(bad), r).Least)
		x := accept.InStages(good, bad, r, 1)
		assert.Equal(t, least, x.Pass[2])
		assert.Equal(t, least, x.Fail[2])
	}
}
