package plots

import (
	"math"
	"slices"
)

// A Role is the part that a line plays in a report: it gives the line one colour, one mark and
// one kind of stroke, in every figure alike. The zero Role is that of what is recommended, or
// of what stands alone.
type Role int

// The roles. What is neither recommended nor the base has a quiet look: see [Other].
const (
	Recommended Role = iota // strong
	Base                    // neutral
	others
)

// Other returns the role of the i-th line, counted from 0, that is neither recommended nor the base.
func Other(i int) Role { return others + Role(max(0, i)) }

// quiet are the colours of other lines: each paler than what is recommended, and 3 : 1 on paper.
var quiet = []colour{rgb(0x3D9CD2), rgb(0x5B9A84), rgb(0xA97FA0), rgb(0x8C8B55)}

// pen returns how a line of the role is drawn. The first fourteen roles differ in colour or
// dashes.
func (r Role) pen() pen {
	switch {
	case r <= Recommended:
		return pen{colour: blue, width: 2}
	case r == Base:
		return pen{colour: neutral, width: 1.6}
	}
	i := int(r - others)
	return pen{colour: quiet[i%len(quiet)], width: 1.4, dashes: dashing[1+i%3]}
}

// corners of the marks of the roles, from the top and clockwise: a disc has none. The first
// turn, as a share of a whole one, sets a square apart from a diamond.
var marks = []struct {
	corners int
	turn    float64
}{{}, {4, 0.125}, {3, 0}, {4, 0}, {3, 0.5}, {5, 0}, {6, 0.25}}

// mark returns the mark of the role around a point, hollow or filled.
func (r Role) mark(at point, radius float64, hollow bool, tip string) []mark {
	c := r.pen().colour
	fill := c
	if hollow {
		fill = paper
	}
	shape := marks[max(0, int(r))%len(marks)]
	if shape.corners == 0 {
		return []mark{dot{centre: at, radius: radius, fill: fill, rim: c, tip: tip}}
	}
	var outline []point
	radius *= 1.35 // as large to the eye as a disc
	for k := range shape.corners {
		sin, cos := math.Sincos(2 * math.Pi * (float64(k)/float64(shape.corners) + shape.turn))
		outline = append(outline, point{at.x + radius*sin, at.y - radius*cos})
	}
	closed := append(slices.Clip(outline), outline[0], outline[1])
	return []mark{area{corners: outline, fill: fill, tip: tip}, stroke{points: closed, pen: pen{colour: c, width: rimWidth}}}
}

// roles returns the roles of curves or rows: those given, or, of several of which none is given
// one, the first is strong, the second neutral and the rest quiet.
func roles(given []Role) []Role {
	for _, r := range given {
		if r != Recommended {
			return given
		}
	}
	all := make([]Role, len(given))
	for i := range all {
		all[i] = Role(i)
	}
	return all
}
