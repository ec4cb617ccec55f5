package formats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sides of an ISO size follow from its letter and number, rounded down to the
// millimetre: 1000 mm × 2 to the power of an eighth, a quarter and a half, and of half the
// number. Source: construction of ISO 216 (A and B) and ISO 269 (C); computed.
func construct(letter byte, number int, round func(float64) float64) (short, long float64) {
	start := map[byte]float64{'A': -0.25, 'B': 0, 'C': -0.125}[letter]
	side := func(power float64) float64 { return round(1000 * math.Exp2(power-float64(number)/2)) }
	return side(start), side(start + 0.5)
}

func TestISOConstruction(t *testing.T) {
	type size struct {
		name        string
		short, long float64
	}
	var sizes []size
	for _, s := range Sheets() {
		if s.Source == iso216 {
			sizes = append(sizes, size{s.Name, s.Width, s.Height})
		}
	}
	for _, name := range []string{"C7", "C6", "C5", "C4", "C3", "B6", "B5", "B4"} {
		e, ok := Named(name)
		require.True(t, ok, name)
		sizes = append(sizes, size{name, e.Height, e.Length})
	}
	require.Len(t, sizes, 12)
	differ := 0
	for _, s := range sizes {
		number := int(s.name[1] - '0')
		t.Run(s.name, func(t *testing.T) {
			short, long := construct(s.name[0], number, math.Floor)
			assert.Equal(t, short, s.short)
			assert.Equal(t, long, s.long)
		})
		if short, long := construct(s.name[0], number, math.Round); short != s.short || long != s.long {
			differ++
		}
	}
	assert.GreaterOrEqual(t, differ, 3, "rounding to the nearest would pass as well: this test cannot fail")
}

// The slips between two sizes have the short side of one and the long side of the other.
func TestISOSlips(t *testing.T) {
	side := func(name string) Envelope {
		e, ok := Named(name)
		require.True(t, ok, name)
		return e
	}
	assert.Equal(t, side("C6").Height, side("C6/C5").Height)
	assert.Equal(t, side("C5").Length, side("C6/C5").Length)
	assert.Equal(t, side("C7").Height, side("C7/6").Height)
	assert.Equal(t, side("C6").Length, side("C7/6").Length)
}
