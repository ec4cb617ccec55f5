package plots

import (
	"math"
	"slices"
)

// A scale puts numbers on the page: low at from, high at to, in points.
type scale struct{ low, high, from, to float64 }

// at returns where x stands.
func (s scale) at(x float64) float64 {
	return s.from + (x-s.low)/(s.high-s.low)*(s.to-s.from)
}

// spread returns the range of xs with a little room on both sides. A range of no
// width is widened, so that what stands in it has a place. It does not cross zero
// unless the data do.
func spread(xs ...float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, x := range xs {
		low, high = min(low, x), max(high, x)
	}
	size := max(math.Abs(low), math.Abs(high))
	room := 0.04 * (high - low)
	switch {
	case size < smallest:
		return 0, 1
	case !(high-low > 1e-9*size):
		room = 0.05 * size
	}
	from, to := low-room, high+room
	if low >= 0 {
		from = max(0, from)
	}
	if high <= 0 {
		to = min(0, to)
	}
	return from, to
}

// ticks returns round numbers from low to high, at most most of them, in steps of 1,
// 2 or 5 times a power of ten, and the decimals they need. high must be above low
// by more than rounding, and most 2 or more.
func ticks(low, high float64, most int) (at []float64, places int) {
	power := math.Floor(math.Log10((high - low) / float64(most)))
	for ; ; power++ {
		for _, digit := range []float64{1, 2, 5} {
			step := digit * math.Pow(10, power)
			first, last := math.Ceil(low/step-1e-9), math.Floor(high/step+1e-9)
			if last-first >= float64(most) {
				continue
			}
			for k := first; k <= last; k++ {
				at = append(at, k*step)
			}
			return at, int(min(max(0, -power), 12))
		}
	}
}

// An axis is a scale with its ticks.
type axis struct {
	scale
	ticks  []float64
	labels []string
}

// across returns a horizontal axis with as many ticks as have room, up to eight. A
// lone tick says nothing of the scale, but it is what a very short axis gets.
func across(s scale, write func(x float64, decimals int) string) (a axis) {
	for most := 8; most >= 2; most-- {
		at, places := ticks(s.low, s.high, most)
		if len(at) < 2 && len(a.ticks) > 0 {
			break
		}
		a = axis{scale: s, ticks: at, labels: written(at, places, write)}
		if a.roomy() {
			return a
		}
	}
	few := min(1, len(a.ticks))
	if zero := slices.Index(a.ticks, 0); zero > 0 {
		a.ticks, a.labels = a.ticks[zero:], a.labels[zero:]
	}
	a.ticks, a.labels = a.ticks[:few], a.labels[:few]
	return a
}

// roomy tells whether the numbers stand clear of each other, and are two or more.
func (a axis) roomy() bool {
	return len(a.ticks) > 1 && textFace.widest(a.labels...)+14 <= a.at(a.ticks[1])-a.at(a.ticks[0])
}

// upward returns a vertical axis.
func upward(s scale, write func(x float64, decimals int) string) axis {
	at, places := ticks(s.low, s.high, max(2, int((s.from-s.to)/30)))
	return axis{scale: s, ticks: at, labels: written(at, places, write)}
}

func written(at []float64, places int, write func(float64, int) string) []string {
	labels := make([]string, len(at))
	for i, x := range at {
		labels[i] = write(x, places)
	}
	return labels
}

// percent writes a share as a percentage.
func percent(x float64, decimals int) string { return number(100*x, max(0, decimals-2)) + " %" }

// below draws a horizontal axis under what lies between top and bottom: its grid,
// its line, its numbers and what it shows. It moves on below them.
func (f *Figure) below(a axis, top, bottom float64, shows string) {
	for _, x := range a.ticks {
		f.draw(stroke{points: []point{{a.at(x), top}, {a.at(x), bottom}}, pen: pen{colour: grid, width: 0.6}})
	}
	f.foot(a, bottom, shows)
}

// foot draws a horizontal axis without a grid.
func (f *Figure) foot(a axis, bottom float64, shows string) {
	thin := pen{colour: muted, width: 0.5}
	f.draw(stroke{points: []point{{a.from, bottom}, {a.to, bottom}}, pen: thin})
	taken := 0.0
	for i, x := range a.ticks {
		f.draw(stroke{points: []point{{a.at(x), bottom}, {a.at(x), bottom + 3}}, pen: thin})
		l := f.centred(a.at(x), bottom+13, a.labels[i], textFace, muted)
		if b := l.box(); b.left >= taken { // one at the edge of the page may have moved
			f.draw(l)
			taken = b.right + 3
		}
	}
	f.y = bottom + 16
	for _, line := range textFace.wrap(shows, min(f.inner(), 1.3*(a.to-a.from)), 2) {
		f.y += textFace.leading()
		f.draw(f.centred((a.from+a.to)/2, f.y-2, line, textFace, muted))
	}
}

// centred returns a label in the middle of x, or as near to it as the page allows.
func (f *Figure) centred(x, y float64, text string, face face, colour colour) label {
	half := face.width(text) / 2
	x = max(margin/2+half, min(x, f.width-margin/2-half))
	return label{at: point{x, y}, align: 0.5, text: text, face: face, colour: colour}
}

// A panel is a field with an axis on the left and one below.
type panel struct{ x, y axis }

// field draws an empty panel for the given ranges, with the ticks given below it, or
// with numbers if there are none. What the vertical axis shows stands above it, so that
// nothing has to be read sideways.
func (f *Figure) field(x scale, ticks []Tick, y scale, height float64, showsX, showsY string, writeY func(float64, int) string) panel {
	f.paragraph(showsY, textFace, muted, 2)
	up, left := f.rise(y, height, writeY)
	x.from, x.to = left, f.right()-4
	p := panel{marked(x, ticks), up}
	f.foot(p.x, up.from, showsX)
	return p
}

// rise draws a vertical axis with its grid, and returns it and the left-hand end of
// the field beside it.
func (f *Figure) rise(y scale, height float64, write func(float64, int) string) (up axis, left float64) {
	f.y += 9
	y.from, y.to = f.y+height, f.y
	up = upward(y, write)
	left = margin + textFace.widest(up.labels...) + 6
	for i, v := range up.ticks {
		f.draw(
			stroke{points: []point{{left, up.at(v)}, {f.right() - 4, up.at(v)}}, pen: pen{colour: grid, width: 0.6}},
			label{
				at: point{left - 6, up.at(v) + textFace.middle()}, align: 1,
				text: up.labels[i], face: textFace, colour: muted,
			})
	}
	return up, left
}

// at returns where the point (x, y) of the data stands.
func (p panel) at(x, y float64) point { return point{p.x.at(x), p.y.at(y)} }
