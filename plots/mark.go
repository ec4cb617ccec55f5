package plots

import "image/color"

type colour = color.NRGBA

// A mark is one thing drawn: an area, a stroke, a dot or a label. A figure is a
// list of them, each over those before it.
type mark interface {
	svg(w *svgWriter)
	paint(c *canvas)
	box() box
}

type point struct{ x, y float64 }

// A box is a rectangle along the page.
type box struct{ left, top, right, bottom float64 }

// A pen draws strokes.
type pen struct {
	colour colour
	width  float64
	dashes []float64 // lengths drawn and left out in turn; nil for an unbroken line
}

// An area is a filled polygon.
type area struct {
	corners []point
	fill    colour
	tip     string // shown by a browser under the pointer
}

// A stroke is a line through points.
type stroke struct {
	points []point
	pen    pen
	tip    string
}

// A dot is a disc with a rim.
type dot struct {
	centre point
	radius float64
	fill   colour
	rim    colour
	tip    string
}

// A label is one line of text.
type label struct {
	at     point   // on the foot of the letters
	align  float64 // share of the text left of at: 0, ½ or 1
	text   string
	face   face
	colour colour
	tip    string
}

// rect returns the corners of a rectangle.
func rect(left, top, right, bottom float64) []point {
	return []point{{left, top}, {right, top}, {right, bottom}, {left, bottom}}
}

func (m area) box() box   { return around(m.corners, 0) }
func (m stroke) box() box { return around(m.points, m.pen.width/2) }
func (m dot) box() box    { return around([]point{m.centre}, m.radius+rimWidth/2) }

func (m label) box() box {
	w := m.face.width(m.text)
	left := m.at.x - m.align*w
	return box{left, m.at.y - 0.75*m.face.size, left + w, m.at.y + 0.22*m.face.size}
}

// around returns the box of points, wider by grow on each side.
func around(points []point, grow float64) box {
	b := box{points[0].x, points[0].y, points[0].x, points[0].y}
	for _, p := range points[1:] {
		b.left, b.right = min(b.left, p.x), max(b.right, p.x)
		b.top, b.bottom = min(b.top, p.y), max(b.bottom, p.y)
	}
	return box{b.left - grow, b.top - grow, b.right + grow, b.bottom + grow}
}
