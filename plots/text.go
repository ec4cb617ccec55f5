package plots

import (
	"strings"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
)

// A face is a size of the one typeface, plain or bold.
type face struct {
	size float64
	bold bool
}

// The typeface is Liberation Sans, whose letters are as wide as those of Arial, so
// that a page laid out with the one is right with the other.
var typeface = sync.OnceValue(func() (faces struct{ regular, bold *opentype.Font }) {
	faces.regular = parse(liberationsansregular.TTF)
	faces.bold = parse(liberationsansbold.TTF)
	return faces
})

func parse(ttf []byte) *opentype.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic("plots: a font built into the program: " + err.Error())
	}
	return f
}

// font returns the face as the drawing library wants it.
func (f face) font() font.Face {
	kind := typeface().regular
	if f.bold {
		kind = typeface().bold
	}
	return font.Face{Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: font.Points(f.size)}, Face: kind}
}

// width returns the width of s in points.
func (f face) width(s string) float64 {
	face := f.font()
	return face.Width(s).Points()
}

// leading returns the distance from one line to the next.
func (f face) leading() float64 { return 1.25 * f.size }

// middle returns how far below the middle of a line its letters stand.
func (f face) middle() float64 { return 0.36 * f.size }

// widest returns the width of the widest of the texts, 0 of none.
func (f face) widest(texts ...string) float64 {
	w := 0.0
	for _, t := range texts {
		w = max(w, f.width(t))
	}
	return w
}

// wrap breaks s into at most most lines no wider than width, between words where
// that is possible and within a word where it is not. What does not fit is left
// off, and the last line ends in "…". White space counts as one space; of an empty
// text there are no lines.
func (f face) wrap(s string, width float64, most int) []string {
	var lines []string
	words := strings.Fields(s)
	for len(words) > 0 {
		if len(lines) == most-1 {
			return append(lines, f.shorten(strings.Join(words, " "), width))
		}
		n := 1
		for n < len(words) && f.width(strings.Join(words[:n+1], " ")) <= width {
			n++
		}
		line := strings.Join(words[:n], " ")
		words = words[n:]
		if fits := f.fitting(line, width); len(fits) < len(line) { // one word, too long
			words = append([]string{line[len(fits):]}, words...)
			line = fits
		}
		lines = append(lines, line)
	}
	return lines
}

// shorten returns s, its end replaced by "…" if it is wider than width.
func (f face) shorten(s string, width float64) string {
	if f.width(s) <= width {
		return s
	}
	return strings.TrimRight(f.fitting(s, width-f.width("…")), " ,;:") + "…"
}

// fitting returns the longest beginning of s no wider than width, one character at
// the least.
func (f face) fitting(s string, width float64) string {
	if f.width(s) <= width {
		return s
	}
	fits := ""
	for i := range s {
		if i > 0 && fits != "" && f.width(s[:i]) > width {
			break
		}
		fits = s[:i]
	}
	if fits == "" {
		fits = string([]rune(s)[:1])
	}
	return fits
}
