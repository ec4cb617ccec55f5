package plots

// TornadoData ranks inputs by what changing them does.
type TornadoData struct {
	Head
	Axis   string // what changes, with its unit
	Inputs []Input
}

// An Input is a row of a tornado: what happens to the figure when one input is set
// lower and when it is set higher.
type Input struct {
	Name          string
	Lower, Higher string  // the settings, such as "5 s" and "30 s"; may be empty
	IfLower       float64 // change of the figure
	IfHigher      float64
}

// Tornado draws two bars for each input from a line at zero, the inputs in the
// order given. Where both settings change the figure in the same direction, one bar
// stands above the other.
func Tornado(d TornadoData) (*Figure, error) {
	var c check
	var names []string
	var changes []float64
	for _, in := range d.Inputs {
		c.number(in.IfLower, "%s, set lower", in.Name)
		c.number(in.IfHigher, "%s, set higher", in.Name)
		names, changes = append(names, in.Name), append(changes, in.IfLower, in.IfHigher)
	}
	f, err := begin(d.Head, c, len(d.Inputs) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.legend(key{name: "input set lower", fill: lowerFill}, key{name: "input set higher", fill: higherFill})
	places := digits(changes...)
	var left, right float64 // room for what is said beside the bars
	for _, in := range d.Inputs {
		for _, b := range in.bars(places) {
			if w := textFace.width(b.says) + 5; b.change < 0 {
				left = max(left, w)
			} else {
				right = max(right, w)
			}
		}
	}
	col := f.column(names, nil, textFace, 30)
	low, high := spread(append(changes, 0)...)
	a := across(scale{low, high, col.right + gap + left, f.right() - right}, signed)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, in := range d.Inputs {
		for _, b := range in.bars(places) {
			y := col.rows[i].middle() + b.off
			f.bar(a.at(0), a.at(b.change), y, b.high, b.fill, in.Name+": "+b.says)
			if b.change < 0 {
				f.beside(a.at(b.change)-4, y, 1, b.says, textFace)
			} else {
				f.beside(a.at(b.change)+4, y, 0, b.says, textFace)
			}
		}
	}
	f.upright(a.at(0), col.top(), col.bottom(), pen{colour: ink, width: 1})
	return f.end(), nil
}

var lowerFill, higherFill = sky, blue

// A change is one bar of an input: how far below the middle of the row it stands,
// and how high it is.
type change struct {
	change, off, high float64
	fill              colour
	says              string
}

// bars returns the two bars of an input.
func (in Input) bars(places int) [2]change {
	says := func(x float64, setting string) string {
		if setting == "" {
			return signed(x, places)
		}
		return signed(x, places) + " (" + textFace.shorten(setting, 40) + ")"
	}
	bars := [2]change{
		{in.IfLower, 0, 15, lowerFill, says(in.IfLower, in.Lower)},
		{in.IfHigher, 0, 15, higherFill, says(in.IfHigher, in.Higher)},
	}
	if (in.IfLower < 0) == (in.IfHigher < 0) {
		bars[0].off, bars[1].off = -6.5, 6.5
		bars[0].high, bars[1].high = 10, 10
	}
	return bars
}
