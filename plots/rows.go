package plots

import "strings"

// A row is a named line of a chart, from top to bottom on the page.
type row struct {
	name        string   // in full
	lines       []string // the name as set
	notes       []string // said below the name
	top, bottom float64
}

func (r row) middle() float64 { return (r.top + r.bottom) / 2 }

// A column is the names of the rows, and where it ends.
type column struct {
	face  face
	right float64 // of the names
	rows  []row
}

// column lays out the rows of a chart below the head: each as high as its name
// needs, and height at least. notes may be nil, or have a line for each name.
func (f *Figure) column(names, notes []string, face face, height float64) column {
	return f.narrow(names, notes, face, height, min(mostGutter, 0.31*f.width))
}

// narrow is column with the names most wide at most.
func (f *Figure) narrow(names, notes []string, face face, height, most float64) column {
	widest := max(face.widest(names...), textFace.widest(notes...))
	width := min(widest, most)
	c := column{face: face, right: margin + width}
	y := f.y
	for i, name := range names {
		r := row{name: name, lines: face.wrap(name, width, 3), top: y}
		if notes != nil {
			r.notes = textFace.wrap(notes[i], width, 2)
		}
		y += max(height, r.high(face)+12)
		r.bottom = y
		c.rows = append(c.rows, r)
	}
	return c
}

func (r row) high(face face) float64 {
	return float64(len(r.lines))*face.leading() + float64(len(r.notes))*textFace.leading()
}

func (c column) top() float64    { return c.rows[0].top }
func (c column) bottom() float64 { return c.rows[len(c.rows)-1].bottom }

// names draws the names of the rows, flush left, in the middle of each row.
func (f *Figure) names(c column) {
	for _, r := range c.rows {
		y := r.middle() - r.high(c.face)/2
		tip := ""
		if last := len(r.lines) - 1; last >= 0 && strings.HasSuffix(r.lines[last], "…") {
			tip = r.name
		}
		for _, line := range r.lines {
			y += c.face.leading()
			f.draw(label{at: point{margin, y - 0.27*c.face.size}, text: line, face: c.face, colour: ink, tip: tip})
		}
		for _, line := range r.notes {
			y += textFace.leading()
			f.draw(label{at: point{margin, y - 0.27*textFace.size}, text: line, face: textFace, colour: ink})
		}
	}
}

// bar draws a bar of the given height in the middle of y.
func (f *Figure) bar(from, to, y, height float64, fill colour, tip string) {
	f.draw(area{corners: rect(min(from, to), y-height/2, max(from, to), y+height/2), fill: fill, tip: tip})
}

// beside draws text level with y that ends (align 1) or begins (align 0) at x.
func (f *Figure) beside(x, y, align float64, text string, face face) {
	f.draw(label{at: point{x, y + face.middle()}, align: align, text: text, face: face, colour: ink})
}

// upright draws a vertical line.
func (f *Figure) upright(x, top, bottom float64, p pen) {
	f.draw(stroke{points: []point{{x, top}, {x, bottom}}, pen: p})
}
