package plots

import (
	"fmt"
	"image/color"
	"io"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// rimWidth is the width of the rim of a dot, in points.
const rimWidth = 1.0

// A canvas takes marks; its height turns our downward y into the upward y of vg.
type canvas struct {
	*vgimg.Canvas
	height float64
}

// PNG writes the figure as a picture on white. It wants from 36 to 600 dots an
// inch; a screen shows 96 or 192, paper 300.
func (f *Figure) PNG(w io.Writer, dpi int) error {
	if !f.done() {
		return errNotMade
	}
	if dpi < 36 || dpi > 600 {
		return fmt.Errorf("plots: %d dots an inch, want from 36 to 600", dpi)
	}
	c := &canvas{vgimg.NewWith(vgimg.UseWH(vg.Points(f.width), vg.Points(f.height)),
		vgimg.UseDPI(dpi), vgimg.UseBackgroundColor(color.White)), f.height}
	for _, m := range f.marks {
		m.paint(c)
	}
	_, err := vgimg.PngCanvas{Canvas: c.Canvas}.WriteTo(w)
	return err
}

func (c *canvas) at(p point) vg.Point {
	return vg.Point{X: vg.Points(p.x), Y: vg.Points(c.height - p.y)}
}

func (c *canvas) path(points []point) vg.Path {
	var path vg.Path
	path.Move(c.at(points[0]))
	for _, p := range points[1:] {
		path.Line(c.at(p))
	}
	return path
}

func (m area) paint(c *canvas) {
	path := c.path(m.corners)
	path.Close()
	c.SetColor(m.fill)
	c.Fill(path)
}

func (m stroke) paint(c *canvas) {
	c.SetColor(m.pen.colour)
	c.SetLineWidth(vg.Points(m.pen.width))
	var dashes []vg.Length
	for _, d := range m.pen.dashes {
		dashes = append(dashes, vg.Points(d))
	}
	c.SetLineDash(dashes, 0)
	c.Stroke(c.path(m.points))
}

func (m dot) paint(c *canvas) {
	var circle vg.Path
	circle.Arc(c.at(m.centre), vg.Points(m.radius), 0, 2*math.Pi)
	circle.Close()
	c.SetColor(m.fill)
	c.Fill(circle)
	c.SetColor(m.rim)
	c.SetLineWidth(vg.Points(rimWidth))
	c.SetLineDash(nil, 0)
	c.Stroke(circle)
}

func (m label) paint(c *canvas) {
	c.SetColor(m.colour)
	c.FillString(m.face.font(), c.at(point{m.box().left, m.at.y}), m.face.drawable(m.text))
}
