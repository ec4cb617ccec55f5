package plots

import (
	"fmt"
	"image/color"
	"math"
	"strings"
)

// A plane is where risk and gain have their place.
type plane struct {
	x riskAxis
	y axis
}

func (g plane) at(p FrontierPoint) point { return point{g.x.at(p.X.Value), g.y.at(p.Y.Mean)} }

// strategies draws what stands in the plane, which begins at left. What is over the
// limit comes first and is then veiled.
func (f *Figure) strategies(d FrontierData, g plane, left float64) {
	steps := g.steps(d.edge())
	if len(steps) > 1 {
		f.draw(stroke{points: steps, pen: pen{colour: tint(sky, 0.55), width: 2.6}})
	}
	for _, p := range d.Points {
		if d.refused(p) {
			f.strategy(p, g)
		}
	}
	crowd := &crowd{within: box{left, g.y.to, g.x.to, g.y.from}}
	if d.Limit != nil {
		crowd.lines = append(crowd.lines, f.limit(*d.Limit, g))
	}
	for _, p := range d.Points {
		if !d.refused(p) {
			f.strategy(p, g)
		}
		crowd.dots = append(crowd.dots, around([]point{g.at(p)}, p.radius()+1))
		crowd.lines = append(crowd.lines, p.cross(g)...)
	}
	for i := 1; i < len(steps); i++ {
		crowd.lines = append(crowd.lines, around(steps[i-1:i+1], 1))
	}
	f.tags(d, g, crowd)
}

// tags writes the labels of the points where there is room, those of the frontier
// nearest to their dots.
func (f *Figure) tags(d FrontierData, g plane, crowd *crowd) {
	var labels []mark
	for _, first := range []bool{true, false} {
		for _, p := range d.Points {
			if (p.Frontier || p.Best) == first {
				labels = append(labels, f.tagged(p, g, crowd, d.refused(p))...)
			}
		}
	}
	f.draw(labels...) // over all lines
}

// steps returns the corners of the frontier: level up to the risk of the next
// point, then up to what it earns.
func (g plane) steps(edge []FrontierPoint) (line []point) {
	for i, p := range edge {
		at := g.at(p)
		if i > 0 {
			line = append(line, point{at.x, line[len(line)-1].y})
		}
		line = append(line, at)
	}
	return line
}

// veil makes pale what it lies over.
var veil = color.NRGBA{R: 0xF1, G: 0xF3, B: 0xF6, A: 165}

// limit veils what is over the limit, draws its line and its label, and returns the
// place of the line.
func (f *Figure) limit(l Limit, g plane) box {
	x, top := g.x.end(l.X), g.y.to
	f.draw(area{corners: rect(x, top, g.x.to, g.y.from), fill: veil})
	line := stroke{points: []point{{x, top - 1}, {x, g.y.from}}, pen: pen{colour: ink, width: 1, dashes: []float64{3, 2}}, tip: l.Label}
	said := textFace.shorten(l.Label, g.x.to-g.x.from)
	half := textFace.width(said) / 2
	middle := max(g.x.from+half, min(x, g.x.to-half))
	f.draw(line, label{at: point{middle, top - 6}, align: 0.5, text: said, face: textFace, colour: ink})
	return line.box()
}

// cross returns the places of the intervals of a point.
func (p FrontierPoint) cross(g plane) (bars []box) {
	for _, s := range p.bars(g) {
		bars = append(bars, around(s, 1))
	}
	return bars
}

// bars returns the ends of its intervals: of what is earned, then of the risk.
func (p FrontierPoint) bars(g plane) (bars [][]point) {
	at := g.at(p)
	if !math.IsInf(p.Y.Half, 1) {
		bars = append(bars, []point{{at.x, g.y.at(p.Y.Low())}, {at.x, g.y.at(p.Y.High())}})
	}
	if p.X.known() {
		bars = append(bars, []point{{g.x.at(p.X.Low), at.y}, {g.x.at(p.X.High), at.y}})
	}
	return bars
}

// radius returns the size of its dot, or of the ring around it.
func (p FrontierPoint) radius() float64 {
	if p.Best {
		return 6
	}
	return 3
}

// dots returns its dot: full on the frontier, ringed if it is the best.
func (p FrontierPoint) dots(at point, tip string) []mark {
	d := dot{centre: at, radius: 2.6, fill: paper, rim: muted, tip: tip}
	if p.Frontier {
		d.fill, d.rim = blue, blue
	}
	if !p.Best {
		return []mark{d}
	}
	var ring []point // not a disc, which would hide what is near
	for k := range 25 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 24)
		ring = append(ring, point{at.x + 5.5*cos, at.y + 5.5*sin})
	}
	return []mark{stroke{points: ring, pen: pen{colour: ink, width: 1.1}}, d}
}

// strategy draws one point.
func (f *Figure) strategy(p FrontierPoint, g plane) {
	c := muted
	if p.Frontier {
		c = blue
	}
	for _, ends := range p.bars(g) {
		f.draw(stroke{points: ends, pen: pen{colour: c, width: 1}})
		for _, end := range ends { // a cap across the bar
			if ends[0].x == ends[1].x {
				f.bar(end.x-2, end.x+2, end.y, 1, c, "")
			} else {
				f.upright(end.x, end.y-2, end.y+2, pen{colour: c, width: 1})
			}
		}
	}
	f.draw(p.dots(g.at(p), p.tip())...)
}

// tip returns what is said of a point under the pointer.
func (p FrontierPoint) tip() string {
	x := number(p.X.Value, digits(p.X.list()...))
	if p.X.known() {
		places := digits(p.X.High)
		x = fmt.Sprintf("%s (%s to %s)", number(p.X.Value, places), number(p.X.Low, places), number(p.X.High, places))
	}
	name := strings.TrimSpace(p.Label + " " + p.Name)
	return fmt.Sprintf("%s: %s at a risk of %s", name, uncertainty(p.Y, number), x)
}

// tagged returns the label of a point; if it stands far from the dot, or nearer to
// another, a thin line leads there.
func (f *Figure) tagged(p FrontierPoint, g plane, crowd *crowd, refused bool) []mark {
	said := nameFace.shorten(p.Label, 40)
	if p.Best {
		said = strings.TrimSpace(said + " best")
	}
	if said == "" {
		return nil
	}
	at, c := g.at(p), ink
	if refused {
		c = muted
	}
	b, ok := crowd.place(at, p.radius(), nameFace.width(said)+3, nameFace.size)
	if !ok {
		return nil // the list below the chart has it, and the tip
	}
	near := b.nearest(at)
	if math.Hypot(near.x-at.x, near.y-at.y) > p.radius()+4.5 || crowd.strange(at, b) {
		f.draw(stroke{points: []point{at, near}, pen: pen{colour: faint, width: 0.6}})
	}
	return []mark{label{at: point{b.left + 1.5, b.bottom - 0.12*nameFace.size}, text: said, face: nameFace, colour: c}}
}
