package plots

import (
	"math"
	"slices"
)

// A crowd is a field in which labels look for a place beside the points they name.
type crowd struct {
	within       box
	dots, labels []box // no label may lie on one
	lines        []box // crossed only where there is no other place
}

// Directions in which a place is looked for, degrees on the page, clockwise from the
// right. The upper left comes first: above a frontier that rises to the right it is
// empty.
var directions = []float64{-135, -45, -90, 135, 45, 180, 0, 90, -112, -158, -68, -22, 158, 22, 112, 68}

// place returns the free place for a label nearest to the dot at a point, and takes
// it. ok is false if there is none. Where there is room, the label lies on no line, and
// the way to it from the dot leads over no other label.
func (c *crowd) place(at point, radius, wide, high float64) (found box, ok bool) {
	firm := slices.Concat(c.dots, c.labels)
	for _, try := range []struct{ avoided, passed []box }{
		{slices.Concat(firm, c.lines), c.labels}, {firm, c.labels}, {firm, nil},
	} {
		for away := radius + 1; away < 200; away += 4 {
			for _, degrees := range directions {
				sin, cos := math.Sincos(degrees * math.Pi / 180)
				x, y := at.x+(away+wide/2)*cos, at.y+(away+high/2)*sin
				b := box{x - wide/2, y - high/2, x + wide/2, y + high/2}
				if b.inside(c.within) && !b.hits(try.avoided) && !crosses(at, b.nearest(at), try.passed) {
					c.labels = append(c.labels, b)
					return b, true
				}
			}
		}
	}
	return box{}, false
}

func (b box) inside(outer box) bool {
	return b.left >= outer.left && b.right <= outer.right && b.top >= outer.top && b.bottom <= outer.bottom
}

func (b box) hits(others []box) bool {
	for _, o := range others {
		if min(b.right, o.right) > max(b.left, o.left) && min(b.bottom, o.bottom) > max(b.top, o.top) {
			return true
		}
	}
	return false
}

// strange tells whether a label lies nearer to another dot than to its own.
func (c *crowd) strange(at point, b box) bool {
	apart := func(p point) float64 {
		near := b.nearest(p)
		return math.Hypot(near.x-p.x, near.y-p.y)
	}
	return slices.ContainsFunc(c.dots, func(d box) bool {
		return apart(point{(d.left + d.right) / 2, (d.top + d.bottom) / 2}) < apart(at)-0.01
	})
}

// crosses tells whether the way from a to b leads over a box, looking every 2 points.
func crosses(a, b point, boxes []box) bool {
	n := math.Ceil(math.Hypot(b.x-a.x, b.y-a.y) / 2)
	for i := 1.0; i < n; i++ {
		on := point{a.x + (b.x-a.x)*i/n, a.y + (b.y-a.y)*i/n}
		if around([]point{on}, 0.5).hits(boxes) {
			return true
		}
	}
	return false
}

// nearest returns the point of the box nearest to p.
func (b box) nearest(p point) point {
	return point{max(b.left, min(p.x, b.right)), max(b.top, min(p.y, b.bottom))}
}
