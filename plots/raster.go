package plots

import "fmt"

// RasterData shows when something happened, a row for each day or other stretch of time.
type RasterData struct {
	Head
	Axis     string  // of time within a row, with its unit
	From, To float64 // what the axis has room for
	Ticks    []Tick  // of the axis; numbers if there are none
	Once     string  // what a mark is, such as "a stop"
	Span     string  // what a shaded stretch is, such as "a burst"
	Rows     []RasterRow
	LeftOut  int // rows that are not drawn
}

// A RasterRow is one row, with a mark for each time at which it happened.
type RasterRow struct {
	Name  string
	Note  string // said on the right; may be empty
	At    []float64
	Spans []PlannedRange // shaded
}

// Raster draws the marks of each row, in front of what is shaded.
func Raster(d RasterData) (*Figure, error) {
	f, err := begin(d.Head, d.check(), len(d.Rows) > 0)
	if err != nil || f.done() {
		return f, err
	}
	once := pen{colour: blue, width: 0.9}
	f.legend(
		key{name: d.Once, look: func(b box) []mark {
			return []mark{stroke{points: []point{{(b.left + b.right) / 2, b.top}, {(b.left + b.right) / 2, b.bottom}}, pen: once}}
		}},
		key{name: d.Span, fill: bandFill})
	var names, notes []string
	for _, r := range d.Rows {
		names, notes = append(names, r.Name), append(notes, smallFace.shorten(r.Note, 110))
	}
	col := f.column(names, nil, textFace, 18)
	a := marked(scale{d.From, d.To, col.right + gap, f.right() - smallFace.widest(notes...) - gap}, d.Ticks)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, r := range d.Rows {
		at := col.rows[i]
		for _, s := range r.Spans {
			from, to := a.at(s.Low), a.at(s.High)
			f.draw(area{corners: rect(from-1.5, at.top+1, to+1.5, at.bottom-1), fill: bandFill, tip: s.Name})
			f.told = append(f.told, s.Name)
		}
		for _, x := range r.At {
			f.upright(a.at(x), at.top+3, at.bottom-3, once)
		}
		f.beside(f.right(), at.middle(), 1, notes[i], smallFace)
	}
	if d.LeftOut > 0 {
		return f.end(fmt.Sprintf("Rows without %s are left out: %s.", d.Span, number(float64(d.LeftOut), 0))), nil
	}
	return f.end(), nil
}

func (d RasterData) check() (c check) {
	c.number(d.From, "the beginning of the axis")
	c.number(d.To, "the end of the axis")
	if !(d.To-d.From >= smallest) {
		c.note("the axis is from %v to %v", d.From, d.To)
	}
	within := func(x float64) bool { return d.From <= x && x <= d.To }
	for _, r := range d.Rows {
		for _, x := range r.At {
			if !within(x) {
				c.note("%s: a mark at %v, from %v to %v", r.Name, x, d.From, d.To)
			}
		}
		for _, s := range r.Spans {
			if !(within(s.Low) && within(s.High) && s.Low <= s.High) {
				c.note("%s: shaded from %v to %v, from %v to %v", r.Name, s.Low, s.High, d.From, d.To)
			}
		}
	}
	return c
}
