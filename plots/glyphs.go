package plots

import (
	"slices"
	"strings"

	"golang.org/x/image/font/sfnt"
)

// noGlyph stands in a PNG for a character that the typeface lacks: a box, so that a name does not
// vanish. An SVG has the character, and whoever reads it the typeface.
const noGlyph = '□'

// Lacking returns the characters of the texts of a figure that its typeface lacks, each once and in
// order; "" if it has all.
func (f *Figure) Lacking() string {
	var all []rune
	for _, m := range f.marks {
		if l, ok := m.(label); ok {
			for _, r := range l.text {
				if !l.face.has(r) && !slices.Contains(all, r) {
					all = append(all, r)
				}
			}
		}
	}
	slices.Sort(all)
	return string(all)
}

// has reports whether the typeface has a character.
func (f face) has(r rune) bool {
	kind := typeface().regular
	if f.bold {
		kind = typeface().bold
	}
	var buffer sfnt.Buffer
	i, err := kind.GlyphIndex(&buffer, r)
	return err == nil && i != 0
}

// drawable returns a text with boxes in the place of what the typeface lacks.
func (f face) drawable(text string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x250 || f.has(r) { // Latin, which it has
			return r
		}
		return noGlyph
	}, text)
}
