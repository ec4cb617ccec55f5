package model

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestTally(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, maxStations).Draw(t, "stations")
		counts, want := newTally(n), make([]int64, n)
		for range rapid.IntRange(0, 600).Draw(t, "times") { // a byte is full after 255
			mask := rapid.Uint64().Draw(t, "mask")
			counts.add(mask)
			for i := range want {
				want[i] += int64(mask >> i & 1)
			}
		}
		for i := range want {
			require.Equal(t, want[i], counts.of(i), "station %d", i)
		}
		counts.begin()
		for i := range want {
			require.Zero(t, counts.of(i))
		}
	})
}
