package plots

import (
	"bytes"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A name in characters that the typeface lacks does not vanish from a PNG, and what is lacking is
// told; the SVG has the name.
func TestNamesDoNotVanish(t *testing.T) {
	of := func(name string) (*Figure, int) {
		f := made(t)(Boxes(BoxesData{Rows: []Box{{Name: name, Spread: Percentiles{1, 2, 3, 4, 5}, Min: 0, Max: 6}}}))
		var b bytes.Buffer
		require.NoError(t, f.PNG(&b, 96))
		picture, err := png.Decode(&b)
		require.NoError(t, err)
		dark := 0
		for x := 18; x < 34; x++ { // where the names stand
			for y := range picture.Bounds().Dy() / 2 {
				if r, _, _, _ := picture.At(x, y).RGBA(); r < 0xC000 {
					dark++
				}
			}
		}
		return f, dark
	}
	_, none := of("  ")
	for name, lacks := range map[string]string{"line": "", "Zuführ−1 ±": "", "Ω": "", "封筒": "封筒", "ظرف": ""} {
		f, dark := of(name)
		assert.Greater(t, dark, none+3, name)
		if lacks != "" {
			assert.Equal(t, lacks, f.Lacking())
		}
		svg, err := f.SVG()
		require.NoError(t, err)
		assert.Contains(t, string(svg), name)
	}
	assert.True(t, textFace.has(noGlyph))
}
