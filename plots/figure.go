package plots

import (
	"errors"
	"strings"
)

// A Head is what stands above a chart.
type Head struct {
	Title    string  // what was found, as a sentence
	Subtitle string  // what was measured, its unit, and of how many shifts
	Width    float64 // of the figure, inches, from 6 to 20; 0 for 6.6
}

// A Figure is a chart ready to be drawn.
type Figure struct {
	Title    string
	Subtitle string

	width, height float64 // points
	y             float64 // where the next thing goes, while the figure is made
	marks         []mark
	told          []string // what is said of it beyond its head to those who do not see it
	slim          *Figure  // the same for a narrow page, without a head; nil where there is none
}

// narrowWidth is that of a figure for a narrow page: on one of 360 pixels its smallest text has 11.
const narrowWidth = 3.4 * 72

var errNotMade = errors.New("plots: a figure that no chart made")

// Inches returns the size of the figure.
func (f *Figure) Inches() (width, height float64) { return f.width / 72, f.height / 72 }

// begin returns a figure with its head, the next free place below it. It returns
// what the check found as an error; without data, the figure that says so, done.
func begin(h Head, c check, some bool) (*Figure, error) {
	f := &Figure{Title: h.Title, Subtitle: h.Subtitle, width: usualWidth, y: margin}
	if h.Width != 0 {
		f.width = 72 * h.Width
		if !(h.Width >= 6 && h.Width <= 20) {
			c.note("the width is %v inches, want from 6 to 20", h.Width)
		}
	}
	if err := c.err(); err != nil {
		return nil, err
	}
	f.paragraph(h.Title, titleFace, ink, 3)
	f.y += 2
	f.paragraph(h.Subtitle, subtitleFace, muted, 4)
	f.y += 8
	if !some {
		f.nothing("no data")
	}
	return f, nil
}

// nothing says why there is nothing to show, and closes the figure.
func (f *Figure) nothing(why string) {
	const height = 60
	f.draw(
		area{corners: rect(margin, f.y, f.right(), f.y+height), fill: tint(grid, 0.4)},
		f.centred(f.width/2, f.y+height/2+textFace.middle(), why, textFace, muted))
	f.y += height
	f.end()
}

// done tells whether the figure is closed.
func (f *Figure) done() bool { return f.height > 0 }

// inner returns the width between the margins.
func (f *Figure) inner() float64 { return f.width - 2*margin }

// right returns the right-hand end of what may be drawn.
func (f *Figure) right() float64 { return f.width - margin }

func (f *Figure) draw(m ...mark) { f.marks = append(f.marks, m...) }

// paragraph sets text flush left over the whole width, in most lines at most, and
// moves on below it; on a narrow page three times as many.
func (f *Figure) paragraph(text string, face face, colour colour, most int) {
	if f.width <= narrowWidth {
		most *= 3
	}
	for _, line := range face.wrap(text, f.inner(), most) {
		f.y += face.leading()
		f.draw(label{at: point{margin, f.y - 0.25*face.size}, text: line, face: face, colour: colour})
	}
}

// end sets the notes that say how to read the chart, and closes the figure.
func (f *Figure) end(notes ...string) *Figure {
	f.y += 4
	for _, note := range notes {
		f.paragraph(note, smallFace, muted, 4)
	}
	f.height = f.y + margin - 4
	return f
}

// spoken returns what is said of the figure to those who do not see it.
func (f *Figure) spoken() string {
	var said []string
	for _, s := range append([]string{f.Title, f.Subtitle}, f.told...) {
		if s = strings.Join(strings.Fields(s), " "); s != "" {
			said = append(said, strings.TrimSuffix(s, "."))
		}
	}
	return strings.Join(said, ". ")
}
