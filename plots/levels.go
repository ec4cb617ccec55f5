package plots

// LevelsData shows what is left in stocks in the course of one shift.
type LevelsData struct {
	Head
	Axis   string  // of time, with its unit
	Length float64 // of the shift, in the unit of the axis
	Stocks []StockLevels
}

// StockLevels is what is left in one stock.
type StockLevels struct {
	Name     string
	Note     string  // said on the right; may be empty
	Capacity float64 // pieces or places, above 0
	Warn     float64 // somebody is called when this much is left
	Levels   []LevelAt
}

// A LevelAt is what is left at one time: before something was put in, and after; alike where nothing
// was.
type LevelAt struct{ At, Before, After float64 }

// Levels draws a row for each stock, from nothing at its foot to the capacity at its top, with a
// dotted line where somebody is called and a triangle where nothing was left, which of a bin or a
// belt means that it was full.
func Levels(d LevelsData) (*Figure, error) {
	f, err := begin(d.Head, d.check(), len(d.Stocks) > 0)
	if err != nil || f.done() {
		return f, err
	}
	call := pen{colour: muted, width: 0.8, dashes: []float64{1.5, 2}}
	f.legend(key{name: "left", fill: levelFill}, key{name: "somebody is called", pen: call},
		key{name: "used up, or full", look: func(b box) []mark { return usedUp((b.left+b.right)/2, b.bottom) }})
	var names, notes []string
	for _, s := range d.Stocks {
		names, notes = append(names, s.Name), append(notes, smallFace.shorten(s.Note, 110))
	}
	col := f.column(names, nil, textFace, 30)
	to := f.right() - 4
	if w := smallFace.widest(notes...); w > 0 {
		to = f.right() - w - gap
	}
	a := across(scale{0, d.Length, col.right + gap, to}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, s := range d.Stocks {
		f.stock(s, a, col.rows[i], call)
		f.beside(f.right(), col.rows[i].middle(), 1, notes[i], smallFace)
	}
	return f.end("Each row: from nothing at its foot to full at its top, straight from one look to the next; of a bin or a belt, the free places."), nil
}

var levelFill = tint(blue, 0.35)

// usedUp returns the mark of a stock of which nothing is left, at the foot of its row.
func usedUp(x, foot float64) []mark {
	return []mark{area{corners: []point{{x, foot - 7}, {x + 3.5, foot}, {x - 3.5, foot}}, fill: ink}}
}

// stock draws what is left in one stock over the foot of its row.
func (f *Figure) stock(s StockLevels, a axis, r row, call pen) {
	up := scale{0, s.Capacity, r.bottom - 3, r.top + 4}
	foot := up.from
	outline := []point{{a.at(s.Levels[0].At), foot}}
	for _, l := range s.Levels {
		outline = append(outline, point{a.at(l.At), up.at(l.Before)})
		if l.After > l.Before {
			outline = append(outline, point{a.at(l.At), up.at(l.After)})
		}
	}
	outline = append(outline, point{a.at(s.Levels[len(s.Levels)-1].At), foot})
	f.draw(area{corners: outline, fill: levelFill, tip: s.Name},
		stroke{points: []point{{a.from, foot}, {a.to, foot}}, pen: pen{colour: muted, width: 0.5}})
	if s.Warn > 0 {
		f.draw(stroke{points: []point{{a.from, up.at(s.Warn)}, {a.to, up.at(s.Warn)}}, pen: call})
	}
	for _, l := range s.Levels {
		if l.Before <= 0 {
			f.draw(usedUp(a.at(l.At), foot)...)
		}
	}
}

func (d LevelsData) check() (c check) {
	c.number(d.Length, "the length of the shift")
	if !(d.Length >= smallest) {
		c.note("the shift is %v long, want more than 0", d.Length)
	}
	for _, s := range d.Stocks {
		if !(s.Capacity > 0) || len(s.Levels) == 0 {
			c.note("%s: %d levels of a stock of %v, want one and more of one that holds something", s.Name, len(s.Levels), s.Capacity)
		}
		var times []float64
		for _, l := range s.Levels {
			times = append(times, l.At)
			if !(0 <= l.Before && l.Before <= l.After && l.After <= s.Capacity*(1+1e-9)) {
				c.note("%s: at %v it goes from %v to %v, in a stock of %v", s.Name, l.At, l.Before, l.After, s.Capacity)
			}
			if !(l.At >= 0 && l.At <= d.Length*(1+1e-9)) {
				c.note("%s: a level at %v, in a shift of %v", s.Name, l.At, d.Length)
			}
		}
		c.rising(times, "%s: the time", s.Name)
		if !(s.Warn >= 0 && s.Warn <= s.Capacity) {
			c.note("%s: somebody is called at %v of %v", s.Name, s.Warn, s.Capacity)
		}
	}
	return c
}
