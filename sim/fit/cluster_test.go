package fit

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: of 10 stops in 1,000 feeds four lie in 10 feeds, where 0.1 are expected; the logarithm
// of the likelihood ratio is 4 ln 40 + 6 ln (6/9.9) = 11.75.
func TestClosenessByHand(t *testing.T) {
	r := newRow(Stretch{Gaps: []int64{100, 150, 150, 3, 3, 3, 141, 150, 150, 100}, Rest: 50})
	var best candidate
	r.close(func(c candidate) {
		if c.closeness > best.closeness {
			best = c
		}
	})
	assert.Equal(t, 2, best.First)
	assert.Equal(t, 5, best.Last)
	assert.InDelta(t, 0.1, best.Expected, 1e-12)
	assert.InDelta(t, 11.75, best.closeness, 0.01)
}

// hasBelow reports whether a cluster has a P below the given one.
func hasBelow(all []Cluster, p float64) bool {
	return slices.ContainsFunc(all, func(c Cluster) bool { return c.P < p })
}

// Independent stops have a cluster in one record of twenty; twenty stops in a twentieth of the
// feeds of forty are found where they are.
func TestClusters(t *testing.T) {
	const records = 60
	false0, found := 0, 0
	for i := range records {
		steady := Stretch{Gaps: independent(40, i), Rest: 500}
		if hasBelow(Clusters([]Stretch{steady, {Gaps: independent(30, 500+i), Rest: 10}}, 0.05, uint64(i)), 0.05) {
			false0++
		}
		bad := Stretch{Gaps: append([]int64{}, steady.Gaps...), Rest: 500}
		for k := 10; k < 30; k++ {
			bad.Gaps[k] = max(1, bad.Gaps[k]/20)
		}
		all := Clusters([]Stretch{steady, bad}, 0.05, uint64(i))
		if len(all) > 0 && all[len(all)-1].Stretch == 1 && all[len(all)-1].First >= 7 && all[len(all)-1].Last <= 33 && all[len(all)-1].Stops() >= 12 {
			found++
		}
	}
	assert.True(t, shared(false0, records, 0.05, 1), "%d of %d", false0, records)
	assert.Greater(t, found, 50)
	require.Nil(t, Clusters([]Stretch{{Gaps: []int64{5}}}, 0.05, 1))
}
