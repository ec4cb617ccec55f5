package plots

import (
	"fmt"
	"strconv"
)

// A key is an entry of a legend: a line, if its pen has a width, over a swatch, if
// its fill can be seen; or what look draws.
type key struct {
	name string
	fill colour
	pen  pen
	look func(within box) []mark
}

// fewLines is how many lines in one field are told apart by their dashes alone.
const fewLines = 4

// tagged returns the keys, numbered if they are too many for dashes alone.
func tagged(keys []key) []key {
	if len(keys) > fewLines {
		for i := range keys {
			keys[i].name = fmt.Sprintf("%d  %s", i+1, keys[i].name)
		}
	}
	return keys
}

// tag writes the number of line i of n onto it, if they are too many.
func (f *Figure) tag(at point, i, n int, of Role) {
	if n <= fewLines {
		return
	}
	f.draw(
		dot{centre: at, radius: 6.2, fill: paper, rim: of.pen().colour},
		label{at: point{at.x, at.y + tagFace.middle()}, align: 0.5, text: strconv.Itoa(i + 1), face: tagFace, colour: ink})
}

// legend sets keys above the chart, as many in a line as have room.
func (f *Figure) legend(keys ...key) {
	const thumb, between, line = 24.0, 16.0, 14.0
	x, y := margin, f.y
	for _, k := range keys {
		name := smallFace.shorten(k.name, f.inner()-thumb-5)
		wide := thumb + 5 + smallFace.width(name)
		if x > margin && x+wide > f.right() {
			x, y = margin, y+line
		}
		middle := y + line/2
		if k.fill.A > 0 {
			f.bar(x, x+thumb, middle, 8, k.fill, "")
		}
		if k.pen.width > 0 {
			f.draw(stroke{points: []point{{x, middle}, {x + thumb, middle}}, pen: k.pen})
		}
		if k.look != nil {
			f.draw(k.look(box{x, middle - 5.5, x + thumb, middle + 5.5})...)
		}
		l := label{
			at: point{x + thumb + 5, middle + smallFace.middle()}, text: name,
			face: smallFace, colour: ink,
		}
		if name != k.name {
			l.tip = k.name
		}
		f.draw(l)
		x += wide + between
	}
	f.y = y + line + 8
}
