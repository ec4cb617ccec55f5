package sim

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The draws are those of the library, which made every published figure: a million of each
// reach every layer, its overhang and the tails.
func TestZiggurats(t *testing.T) {
	own, other := NewStream("ziggurat", "draws"), NewStream("ziggurat", "draws")
	own.Seed(1, 0)
	other.Seed(1, 0)
	library := rand.New(other)
	for range 1_000_000 {
		require.Equal(t, library.ExpFloat64(), own.Exponential())
		require.Equal(t, library.NormFloat64(), own.Normal())
	}
}
