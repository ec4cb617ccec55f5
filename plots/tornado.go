package plots

import (
	"math"
	"slices"

	"netrate/sim"
)

// TornadoData ranks inputs by what changing them does.
type TornadoData struct {
	Head
	Axis    string // what changes, with its unit
	Inputs  []Input
	LeftOut int // how many more there are that have no row
}

// An Input is a row of a tornado: what happens to the figure when one input is set
// lower and when it is set higher.
type Input struct {
	Name          string
	Lower, Higher Change
}

// A Change is what one setting of an input does.
type Change struct {
	Setting string // such as "5 s"; may be empty
	By      sim.Estimate
	Not     string // why there is no bar, such as "not run"; "" if there is one
}

// Tornado draws two bars for each input from a line at zero, the inputs in the
// order given, each with its interval. Where both settings change the figure in the same
// direction, one bar stands above the other. A bar whose interval holds zero is an outline.
func Tornado(d TornadoData) (*Figure, error) {
	var c check
	var names []string
	ends := []float64{0}
	for _, in := range d.Inputs {
		c.estimate(in.Lower.By, "%s, set lower", in.Name)
		c.estimate(in.Higher.By, "%s, set higher", in.Name)
		names = append(names, in.Name)
		ends = append(ends, in.Lower.ends()...)
		ends = append(ends, in.Higher.ends()...)
	}
	f, err := begin(d.Head, c, len(d.Inputs) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.legend(key{name: "input set lower", fill: lowerFill}, key{name: "input set higher", fill: higherFill})
	col := f.column(names, nil, textFace, rowHeight(d.Inputs))
	inputs, long := spelled(d.Inputs, widestSetting)
	low, high := spread(ends...)
	s := widest(inputs, scale{low, high, col.right + gap, f.right()})
	if s.to-s.from < leastTornado {
		inputs, long = spelled(d.Inputs, 0)
		s = widest(inputs, scale{low, high, col.right + gap, f.right()})
	}
	a := across(s, signed)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, in := range inputs {
		for _, b := range in.bars() {
			f.change(b, a, col.rows[i].middle()+b.off, in.Name)
		}
	}
	f.upright(a.at(0), col.top(), col.bottom(), pen{colour: ink, width: 1})
	f.list(long)
	notes := []string{"Thin line: confidence interval. An outline: no change is shown. In brackets: what the input is set to."}
	if d.LeftOut > 0 {
		notes = append(notes, number(float64(d.LeftOut), 0)+" more, which change less, have no row.")
	}
	return f.end(notes...), nil
}

// widestSetting is how long a setting may be beside its bar, and leastTornado how much room the
// bars need at least, points.
const widestSetting, leastTornado = 100, 90

// spelled returns the inputs with letters in the place of settings too long to stand beside their
// bars, and what they mean: a setting is never cut.
func spelled(inputs []Input, widest float64) (all []Input, long letters) {
	all = slices.Clone(inputs)
	for i := range all {
		for _, c := range []*Change{&all[i].Lower, &all[i].Higher} {
			if textFace.width(c.Setting) > widest {
				c.Setting = long.of(c.Setting)
			}
		}
	}
	return all, long
}

// widest returns the largest scale on which each bar has room for what is said beside it: s is that
// of the whole field, and low or high of it is 0 or beyond.
func widest(inputs []Input, s scale) scale {
	room := func(unit float64) (left, right float64) { // that is needed on either side of zero
		left, right = -s.low*unit, s.high*unit
		for _, in := range inputs {
			for _, b := range in.bars() {
				ends := append(b.ends(), 0)
				if w := textFace.width(b.says()) + 6; b.By.Mean < 0 {
					left = max(left, w-slices.Min(ends)*unit)
				} else {
					right = max(right, w+slices.Max(ends)*unit)
				}
			}
		}
		return left, right
	}
	fits := func(unit float64) bool { left, right := room(unit); return left+right <= s.to-s.from }
	least, most := 0.0, (s.to-s.from)/(s.high-s.low)
	if !fits(most) {
		for range 40 {
			if unit := (least + most) / 2; fits(unit) {
				least = unit
			} else {
				most = unit
			}
		}
		most = least
	}
	left, _ := room(most)
	zero := s.from + left
	return scale{s.low, s.high, zero + s.low*most, zero + s.high*most}
}

var lowerFill, higherFill = sky, blue

// A changeBar is one bar of an input: how far below the middle of the row it stands,
// and how high it is.
type changeBar struct {
	Change
	off, high float64
	fill      colour
}

// rowHeight is that of a row: lower where no input has one bar above the other.
func rowHeight(inputs []Input) float64 {
	if slices.ContainsFunc(inputs, Input.stacked) {
		return 30
	}
	return 22
}

// stacked tells whether both settings change the figure in the same direction.
func (in Input) stacked() bool { return (in.Lower.By.Mean < 0) == (in.Higher.By.Mean < 0) }

// bars returns the two bars of an input.
func (in Input) bars() [2]changeBar {
	bars := [2]changeBar{{in.Lower, 0, 15, lowerFill}, {in.Higher, 0, 15, higherFill}}
	if in.stacked() {
		bars[0].off, bars[1].off = -6.5, 6.5
		bars[0].high, bars[1].high = 10, 10
	}
	return bars
}

// ends returns the numbers that must have room.
func (c Change) ends() []float64 {
	if math.IsInf(c.By.Half, 1) {
		return []float64{c.By.Mean}
	}
	return []float64{c.By.Mean, c.By.Low(), c.By.High()}
}

// says returns the label of a bar, in full: a number that is cut misleads.
func (c Change) says() string {
	text := c.Not
	if text == "" {
		text = uncertainty(c.By, signed)
	}
	if c.Setting == "" {
		return text
	}
	return text + " (" + c.Setting + ")"
}

// change draws one bar with its interval, and its label beyond both.
func (f *Figure) change(b changeBar, a axis, y float64, name string) {
	zero, end := a.at(0), a.at(b.By.Mean)
	far := []float64{end}
	switch {
	case b.Not != "":
	case b.By.Low() > 0 || b.By.High() < 0:
		f.bar(zero, end, y, b.high, b.fill, name+": "+b.says())
	default:
		corners := rect(min(zero, end), y-b.high/2, max(zero, end), y+b.high/2)
		f.draw(area{corners: corners, fill: paper, tip: name + ": " + b.says()},
			stroke{points: append(corners, corners[0], corners[1]), pen: pen{colour: b.fill, width: 0.8}})
	}
	if b.Not == "" && !math.IsInf(b.By.Half, 1) && b.By.Half > 0 {
		from, to := a.at(b.By.Low()), a.at(b.By.High())
		for _, p := range []pen{{colour: paper, width: 2.6}, {colour: ink, width: 0.9}} { // on white, to be seen on a dark bar
			f.bar(from, to, y, p.width, p.colour, "")
			f.upright(from, y-2.5, y+2.5, p)
			f.upright(to, y-2.5, y+2.5, p)
		}
		far = append(far, from, to)
	}
	if b.By.Mean < 0 {
		least := far[0]
		for _, x := range far {
			least = min(least, x)
		}
		f.beside(least-4, y, 1, b.says(), textFace)
		return
	}
	most := far[0]
	for _, x := range far {
		most = max(most, x)
	}
	f.beside(most+4, y, 0, b.says(), textFace)
}
