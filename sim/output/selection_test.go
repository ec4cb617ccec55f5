package output

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

func newSelection(t *testing.T, k, first int, worth, confidence float64) *Selection {
	t.Helper()
	s, err := NewSelection(k, first, worth, confidence)
	require.NoError(t, err)
	return s
}

// Source of the formula: Kim and Nelson, ACM TOMACS 11 (2001) 251–273; the values are
// computed, no print found.
func TestSelectionFactor(t *testing.T) {
	for _, c := range []struct {
		k, first  int
		alpha, h2 float64
	}{
		{2, 10, 0.05, 6.012905},
		{4, 10, 0.05, 10.164243},
		{5, 20, 0.10, 7.043787},
		{10, 10, 0.05, 15.463502},
		{10, 20, 0.05, 11.511485},
	} {
		assert.InDelta(t, c.h2, selectionFactor(c.k, c.first, 1-c.alpha), 1e-6, "%d systems, %d first", c.k, c.first)
	}
}

// The four designs of Banks et al., 95 %, two minutes worth finding: computed, no print
// found. The third wins at the first look; the first is beaten by the fourth, although
// that one leaves too, and not by the third.
func TestSelectionWorked(t *testing.T) {
	s := newSelection(t, 4, 10, 2, 0.95)
	row := make([]float64, 4)
	for j := range 10 {
		assert.False(t, s.Over())
		for i, design := range fourDesigns {
			row[i] = -design[j] // smaller is better
		}
		assert.Equal(t, j < 9, s.Add(row))
	}
	for i, want := range []float64{0.142969, 6.241528, 0.394934, 2.013027, 0, 1.502803} {
		pair := AllPairs(4)[i]
		assert.InDelta(t, want, s.band(pair[0], pair[1]), 1e-6, "designs %v", pair)
		assert.InDelta(t, want, s.band(pair[1], pair[0]), 1e-6, "designs %v", pair)
	}
	assert.Equal(t, []Drop{{System: 0, By: 3, At: 10}, {System: 1, By: 2, At: 10}, {System: 3, By: 2, At: 10}}, s.Dropped())
	best, promised := s.Best()
	assert.Equal(t, 2, best)
	assert.True(t, promised)
	assert.True(t, s.Over())
	assert.True(t, s.Remains(2))
	assert.False(t, s.Remains(0))

	// The widest band closes after 72.4153 replications.
	s.done = 72
	assert.Positive(t, s.band(0, 2))
	s.done = 73
	assert.Zero(t, s.band(0, 2))
}

func TestNewSelection(t *testing.T) {
	for name, c := range map[string]struct {
		k, first          int
		worth, confidence float64
		wrong             string
	}{
		"one system":     {1, 10, 1, 0.95, "there are 1 systems to choose from, want at least 2"},
		"one first":      {2, 1, 1, 0.95, "the first replications are 1, want at least 2"},
		"nothing worth":  {2, 10, 0, 0.95, "the difference worth finding is 0, want more than 0"},
		"worth NaN":      {2, 10, math.NaN(), 0.95, "the difference worth finding is NaN, want more than 0"},
		"worth infinite": {2, 10, math.Inf(1), 0.95, "the difference worth finding is +Inf, want more than 0"},
		"by chance":      {4, 10, 1, 0.25, "confidence is 0.25, want above 0.25 and below 1"},
		"certain":        {4, 10, 1, 1, "confidence is 1, want above 0.25 and below 1"},
		"confidence NaN": {4, 10, 1, math.NaN(), "confidence is NaN, want above 0.25 and below 1"},
		"two wrong": {
			2, 0, 1, 95,
			"the first replications are 0, want at least 2\nconfidence is 95, want above 0.5 and below 1",
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := NewSelection(c.k, c.first, c.worth, c.confidence)
			assert.EqualError(t, err, c.wrong)
		})
	}
	assert.Positive(t, selectionFactor(2, 10, 0.500001), "just above what chance gives")
}

// The figures differ by the same amount each time: there is no uncertainty, the first look
// decides, however small the difference.
func TestSelectionNoSpread(t *testing.T) {
	s := newSelection(t, 3, 3, 1e-200, 0.95)
	assert.True(t, s.Add([]float64{5, 6, 4}))
	assert.True(t, s.Add([]float64{7, 8, 6}))
	assert.False(t, s.Add([]float64{1, 2, 0}))
	assert.Equal(t, []Drop{{System: 0, By: 1, At: 3}, {System: 2, By: 1, At: 3}}, s.Dropped())
}

// Two of three are the same system. The third, far behind, leaves first or with the
// second, which is reported as a tie.
func TestSelectionTie(t *testing.T) {
	s := newSelection(t, 3, 2, 10, 0.95)
	s.Cap(1000)
	assert.True(t, s.Add([]float64{1, 7, 7}))
	assert.True(t, s.Add([]float64{3, 6, 6}), "the first is not shown to be behind")
	for s.Add([]float64{2, 7, 7}) {
	}
	drops := s.Dropped()
	require.Len(t, drops, 2)
	assert.Equal(t, 0, drops[0].System)
	assert.False(t, drops[0].Tie)
	assert.Equal(t, Drop{System: 2, By: 1, At: s.Done(), Tie: true}, drops[1])
	best, promised := s.Best()
	assert.Equal(t, 1, best)
	assert.True(t, promised)

	drops[0].System = 9
	assert.Equal(t, 0, s.Dropped()[0].System, "the race keeps its own list")
}

// Equal means are no tie as long as there is uncertainty.
func TestSelectionUncertainty(t *testing.T) {
	s := newSelection(t, 2, 2, 0.1, 0.95)
	assert.True(t, s.Add([]float64{1, 2}))
	assert.True(t, s.Add([]float64{2, 1}))
	assert.Empty(t, s.Dropped())
}

func TestSelectionCap(t *testing.T) {
	for name, c := range map[string]struct {
		first, most int
	}{
		"at the first look": {3, 3},
		"before it":         {10, 3},
		"after it":          {2, 3},
	} {
		t.Run(name, func(t *testing.T) {
			s := newSelection(t, 3, c.first, 1e-3, 0.95)
			s.Cap(c.most)
			assert.True(t, s.Add([]float64{0, 2, 1}))
			assert.True(t, s.Add([]float64{1, 0, 4}))
			assert.False(t, s.Add([]float64{3, 3, 0}))
			assert.True(t, s.Over())
			best, promised := s.Best()
			assert.Equal(t, 1, best, "the first of equals")
			assert.False(t, promised)
			assert.False(t, s.Add([]float64{9, 9, 9}), "too late")
			assert.Equal(t, 3, s.Done())
		})
	}
	s := newSelection(t, 2, 2, 1, 0.95)
	assert.Panics(t, func() { s.Cap(0) })
	s.Cap(2)
	s.Add([]float64{0, 9})
	assert.False(t, s.Add([]float64{0, 9}))
	_, promised := s.Best()
	assert.True(t, promised, "decided by the last replication allowed")
}

func TestSelectionRows(t *testing.T) {
	s := newSelection(t, 3, 2, 1, 0.95)
	assert.Panics(t, func() { s.Add([]float64{1, 2}) })
	assert.Panics(t, func() { s.Add([]float64{1, 2, math.NaN()}) })

	s = newSelection(t, 3, 2, 1, 0.95)
	s.Add([]float64{-100, 2, 1})
	s.Add([]float64{-100, 1, 2})
	require.False(t, s.Remains(0))
	assert.NotPanics(t, func() { s.Add([]float64{math.NaN(), 1, 1}) }, "those dropped are not looked at")
	assert.Panics(t, func() { s.Add([]float64{0, math.Inf(1), 1}) })
}

// pick runs a selection on normals and returns the system chosen. A factor of 0 or more
// stands in for h².
func pick(t *testing.T, r *rand.Rand, means []float64, worth, factor float64) int {
	t.Helper()
	s := newSelection(t, len(means), 10, worth, 0.95)
	if factor >= 0 {
		s.h2 = factor
	}
	s.Cap(100_000)
	row := make([]float64, len(means))
	for ok := true; ok; ok = s.Add(row) {
		normals(r, means, 0.6, row)
	}
	best, promised := s.Best()
	require.True(t, promised)
	return best
}

// The best is ahead of all others by what is worth finding, or the systems lie so far
// apart each: it is chosen in at least 95 of 100 selections. If h² were 0, as it is when its
// exponent is worked out in whole numbers, it would not be: this must be seen.
func TestSelectionKeepsItsPromise(t *testing.T) {
	const selections = 500
	for name, means := range map[string][]float64{
		"two":        {0, 0.3},
		"ten, alike": {0, 0, 0, 0, 0, 0, 0, 0, 0, 0.3},
		"ten, apart": {0, 0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7},
	} {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(33, 1))
			right, hasty := 0, 0
			for range selections {
				if pick(t, r, means, 0.3, -1) == len(means)-1 {
					right++
				}
				if pick(t, r, means, 0.3, 0) == len(means)-1 {
					hasty++
				}
			}
			assert.True(t, enough(right, selections, 0.95), "%d of %d", right, selections)
			assert.False(t, enough(hasty, selections, 0.95), "a hasty choice goes unseen: %d of %d", hasty, selections)
		})
	}
}

// A selection run in batches on several cores drops the same systems at the same
// replication as one run row by row.
func TestSelectionInBatches(t *testing.T) {
	means := []float64{0, 0.1, 0.2, 0.5, 0.6}
	draw := func(replication int, row []float64) {
		normals(rand.New(rand.NewPCG(34, uint64(replication))), means, 0.6, row)
	}
	alone := newSelection(t, len(means), 20, 0.1, 0.95)
	row := make([]float64, len(means))
	draw(0, row)
	for i := 1; alone.Add(row); i++ {
		draw(i, row)
	}
	require.Greater(t, alone.Done(), 2*64, "a race of several batches")

	for _, workers := range []int{1, 3} {
		selection := newSelection(t, len(means), 20, 0.1, 0.95)
		ctx, stop := context.WithCancel(context.Background())
		_, ending, err := sim.Resume(ctx, sim.Plan{Min: 1, Max: 100_000, Workers: workers}, nil,
			func() (func(int, *[]float64) error, error) {
				return func(replication int, row *[]float64) error {
					*row = make([]float64, len(means))
					draw(replication, *row)
					for i := range *row {
						if !selection.Remains(i) {
							(*row)[i] = math.NaN() // not run
						}
					}
					return nil
				}, nil
			},
			func(_ int, row *[]float64) float64 {
				if !selection.Add(*row) {
					stop()
				}
				return 0
			}, true)
		stop()
		require.NoError(t, err)
		assert.Equal(t, sim.Cancelled, ending)
		assert.Equal(t, alone.Dropped(), selection.Dropped())
		assert.Equal(t, alone.Done(), selection.Done())
	}
}

// Of thousands of systems each is judged against a few: the choice is right as often as
// promised all the same. The best is ahead of all others by just what matters, the least
// favourable case of the promise. (With bands an eighth as wide half of the choices are wrong.)
func TestSelectionOfMany(t *testing.T) {
	const k, rounds, confidence = 250, 40, 0.8
	random := rand.New(rand.NewPCG(1, 20))
	right, taken := 0, 0
	for range rounds {
		best := random.IntN(k)
		s := newSelection(t, k, 16, 1, confidence)
		row := make([]float64, k)
		for {
			shared := random.NormFloat64()
			for i := range row {
				row[i] = shared + float64(2*random.NormFloat64())
			}
			row[best]++
			taken += len(s.racing)
			if !s.Add(row) {
				break
			}
		}
		if chosen, promised := s.Best(); chosen == best {
			assert.True(t, promised)
			right++
		}
	}
	assert.GreaterOrEqual(t, right, int(confidence*rounds), "of %d", rounds)
	assert.Less(t, taken, rounds*k*100, "most are dropped early")
}

// What is foreseen is about what happens: over many selections of five systems far apart enough, what
// was foreseen after the first look is on the average within a third of what was needed.
func TestSelectionForeseesItsEnd(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	var foreseen, needed float64
	for range 200 {
		s := newSelection(t, 5, 20, 1, 0.95)
		assert.Zero(t, s.Ahead(), "nothing is known yet")
		runs, from := 0, 0
		for more := true; more; {
			row := make([]float64, 5)
			for i := range row {
				row[i] = 3*r.NormFloat64() + 1.5*float64(i)
			}
			left := 0
			for i := range row {
				if s.Remains(i) {
					left++
				}
			}
			runs += left
			if more = s.Add(row); s.Done() == 20 {
				from, foreseen = runs, foreseen+float64(s.Ahead())
			}
		}
		assert.Zero(t, s.Ahead(), "it is over")
		needed += float64(runs - from)
	}
	assert.InDelta(t, 1, foreseen/needed, 1.0/3, "foreseen %v, needed %v", foreseen, needed)
}
