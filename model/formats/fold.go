package formats

import (
	"fmt"
	"slices"
	"strings"
)

// Fold is how a sheet is folded.
type Fold int

// The folds; any other value panics where it is used. All but QuarterFold have parallel
// creases, across the height of the sheet.
const (
	NoFold             Fold = iota
	HalfFold                // in two
	LetterFold              // in three, the last panel tucked in
	ZFold                   // in three, as an accordion
	DoubleParallelFold      // in two, and in two again the same way
	QuarterFold             // in two, and in two again the other way
)

// folding is what a fold does to a sheet.
type folding struct {
	names  []string // the first is the one that is printed
	height int      // panels along the height of the sheet
	width  int      // panels along its width
}

// Folds as the trade names them: common practice, no source.
var folds = [...]folding{
	NoFold:             {[]string{"none", "no fold", "flat", "unfolded"}, 1, 1},
	HalfFold:           {[]string{"half", "single", "v", "bifold"}, 2, 1},
	LetterFold:         {[]string{"letter", "c", "trifold"}, 3, 1},
	ZFold:              {[]string{"z", "zigzag", "accordion"}, 3, 1},
	DoubleParallelFold: {[]string{"double parallel"}, 4, 1},
	QuarterFold:        {[]string{"quarter", "cross", "right angle"}, 2, 2},
}

// ParseFold returns the fold of that name: none, half, letter, z, double parallel or
// quarter, or another name of the trade for one of them. Case, spaces, hyphens and the
// word "fold" do not matter. No fold is "none", not an empty text, which is an error.
func ParseFold(name string) (Fold, error) {
	word := plainFold(name)
	for f := range folds {
		if slices.ContainsFunc(folds[f].names, func(n string) bool { return plainFold(n) == word }) {
			return Fold(f), nil
		}
	}
	return 0, fmt.Errorf("fold is %q, want none, half, letter, z, double parallel or quarter", name)
}

var foldSpelling = strings.NewReplacer(" ", "", "-", "", "_", "", "folded", "", "fold", "")

// plainFold returns the name without the differences that nobody remembers. "No fold" and
// "unfolded" keep their meaning: what is left of them is "no" and "un".
func plainFold(name string) string { return foldSpelling.Replace(strings.ToLower(name)) }

// String returns the name of the fold, "half" for instance.
func (f Fold) String() string {
	if f.known() {
		return folds[f].names[0]
	}
	return fmt.Sprintf("Fold(%d)", int(f))
}

func (f Fold) known() bool { return f >= 0 && int(f) < len(folds) }

// panels returns what the fold does; one that is none of the list panics.
func (f Fold) panels() folding {
	if !f.known() {
		panic(fmt.Sprintf("formats: %v is none of the folds", f))
	}
	return folds[f]
}

// Layers returns how many layers of one sheet lie on each other.
func (f Fold) Layers() int { return f.panels().height * f.panels().width }

// Size returns the size of a folded sheet, in mm: its width and height with equal panels.
// In a letter fold the panel tucked in is made a few millimetres shorter (common practice,
// no source) and the two others longer by half of that, which this sum leaves out.
func (f Fold) Size(s Sheet) (width, height float64) {
	return s.Width / float64(f.panels().width), s.Height / float64(f.panels().height)
}
