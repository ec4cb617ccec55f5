package plots

import "strings"

// A Condition is how a pocket stands.
type Condition int

// The conditions of a pocket.
const (
	Normal  Condition = iota
	Faulty            // a piece is wrong, missing or too many
	CatchUp           // given up so that a stream comes into step
	Gone              // leaves the track here
	Empty             // emptied before
	Reading           // read here

	conditions // how many there are
)

// A conditionLook is a word, colours, and a sign of lines in a square from 0 to 1, y
// downwards, so that no condition is shown by its colour alone.
type conditionLook struct {
	name string
	fill colour
	rim  pen
	sign [][]point
}

var conditionLooks = [conditions]conditionLook{
	{"in order", tint(blue, 0.1), pen{}, nil},
	{
		"faulty", tint(vermilion, 0.28),
		pen{colour: vermilion, width: 1.2},
		[][]point{{{0, 0}, {1, 1}}, {{0, 1}, {1, 0}}},
	},
	{
		"catch-up set", tint(sky, 0.4),
		pen{colour: blue, width: 1.2},
		[][]point{{{0, 0}, {0.5, 0.5}, {0, 1}}, {{0.5, 0}, {1, 0.5}, {0.5, 1}}},
	},
	{
		"leaves the track", paper,
		pen{colour: ink, width: 1.2, dashes: []float64{4, 2}},
		[][]point{{{0.5, 0}, {0.5, 1}}, {{0.1, 0.6}, {0.5, 1}, {0.9, 0.6}}},
	},
	{
		"empty pocket", paper,
		pen{colour: faint, width: 1, dashes: []float64{1.5, 2}},
		[][]point{{{0, 0.5}, {1, 0.5}}},
	},
	{
		"read here", tint(night, 0.22),
		pen{colour: night, width: 1.2},
		[][]point{{{0, 0.5}, {0.5, 0}, {1, 0.5}, {0.5, 1}, {0, 0.5}}, {{0.4, 0.5}, {0.6, 0.5}}},
	},
}

const signSize = 5.5

// draw returns the pocket of a condition, with its sign at the upper right.
func (c Condition) draw(b box, tip string) []mark {
	look := conditionLooks[c]
	corners := rect(b.left, b.top, b.right, b.bottom)
	marks := []mark{area{corners: corners, fill: look.fill, tip: tip}}
	if look.rim.width > 0 {
		marks = append(marks, stroke{points: append(corners, corners[0], corners[1]), pen: look.rim})
	}
	for _, line := range look.sign {
		at := make([]point, len(line))
		for i, p := range line {
			at[i] = point{b.right - 3 - signSize*(1-p.x), b.top + 2.75 + signSize*p.y}
		}
		marks = append(marks, stroke{points: at, pen: pen{colour: ink, width: 1.1}})
	}
	return marks
}

// A wording is what is said in a pocket, in lines; the first is bold if it is a set.
type wording struct {
	set   bool
	lines []string
}

// wording returns the lines of a pocket no wider than wide, most of them at most. The
// set has the first line, beside the sign; without a set, all keep clear of the sign.
func (p Pocket) wording(face face, wide float64, most int) wording {
	if p.Set == "" {
		return wording{lines: face.wrap(p.text(), wide-p.signed(), most)}
	}
	set := bold(face).shorten(p.Set, wide-p.signed())
	return wording{true, append([]string{set}, face.wrap(p.Text, wide, most-1)...)}
}

// unbroken tells whether no word is too long for a line.
func (p Pocket) unbroken(face face, wide float64) bool {
	beside := wide - p.signed()
	if p.Set == "" {
		wide = beside
	}
	return bold(face).width(p.Set) <= beside && face.widest(strings.Fields(p.text())...) <= wide
}

// text returns what is said of a pocket: of one about which nothing is, its condition.
func (p Pocket) text() string {
	if p.Set == "" && p.Text == "" && p.Condition != Normal {
		return conditionLooks[p.Condition].name
	}
	return p.Text
}

// signed returns the width of the sign.
func (p Pocket) signed() float64 {
	if len(conditionLooks[p.Condition].sign) == 0 {
		return 0
	}
	return signSize + 4
}

func bold(f face) face { return face{size: f.size, bold: true} }

// pocket draws a pocket and what is said in it.
func (f *Figure) pocket(p Pocket, b box, said wording, face face, tip string) {
	f.draw(p.Condition.draw(b, tip)...)
	y := b.top + 3
	for i, line := range said.lines {
		set := face
		set.bold = said.set && i == 0
		y += face.leading()
		f.draw(label{at: point{b.left + 4, y - 0.3*face.size}, text: line, face: set, colour: ink})
	}
}
