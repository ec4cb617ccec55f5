package plots

import (
	"slices"
	"strings"
)

// FatesData shows what becomes of the sets that are not good.
type FatesData struct {
	Head
	Axis  string // what is counted, such as sets in a thousand started
	Parts []Part // from left to right, those of one fate side by side
	Bars  []FateBar
}

// A Part is a fate, and what led to it.
type Part struct {
	Fate  string // such as "diverted"
	Cause string // such as "letter, misfeed"; may be empty
}

// A FateBar is what one configuration loses.
type FateBar struct {
	Name    string
	Amounts []float64 // of each part, 0 or more
}

// fateFills are the colours of the fates, in the order in which they come. Their L*
// is 54, 34, 45, 24, 39: each is darker than the lighter shades of the one before.
var fateFills = []colour{vermilion, blue, purple, night, green}

// Fates draws a bar for each configuration, from part to part, with the total at its
// end. Each part that occurs has a letter, from a on. The causes of one fate have shades of one colour. A
// part too short for its number has it below the bar.
func Fates(d FatesData) (*Figure, error) {
	c, used := d.check()
	f, err := begin(d.Head, c, len(d.Bars) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if !slices.Contains(used, true) {
		f.nothing("no set is lost")
		return f, nil
	}
	looks, signs := d.looks(), make([]string, len(d.Parts))
	var keys []key
	for i, p := range d.Parts {
		if used[i] {
			signs[i] = letter(len(keys))
			keys = append(keys, key{name: signs[i] + "  " + p.says(), fill: looks[i]})
		}
	}
	f.legend(keys...)
	var names, totals []string
	ends := []float64{0}
	for _, b := range d.Bars {
		names, ends = append(names, b.Name), append(ends, b.total())
	}
	places := digits(ends...)
	for _, x := range ends[1:] {
		totals = append(totals, number(x, places))
	}
	_, high := spread(ends...)
	a := across(scale{0, high, f.column(names, nil, nameFace, 0).right + gap, f.right() - nameFace.widest(totals...) - 6}, number)
	col := f.column(names, nil, nameFace, 28)
	var bars []stack
	low := 0.0 // how much lower a row stands for the lines below the bars above it
	for i, b := range d.Bars {
		bars = append(bars, d.stack(b, a, looks, signs, f.right()-a.from, places))
		col.rows[i].top += low
		col.rows[i].bottom += low
		low += float64(len(bars[i].below)) * smallFace.leading()
	}
	foot := col.bottom() + float64(len(bars[len(bars)-1].below))*smallFace.leading()
	f.names(col)
	f.below(a, col.top(), foot, d.Axis)
	for i, b := range bars {
		f.stack(b, a, col.rows[i].middle(), totals[i])
	}
	f.upright(a.from, col.top(), foot, pen{colour: muted, width: 0.8})
	return f.end("Sets that are good are left out. Bold: all that is not. Letters and shades: see above the chart."), nil
}

// check also tells which parts occur.
func (d FatesData) check() (c check, used []bool) {
	const most = 26
	if n := len(d.Parts); n > most {
		c.note("%d parts, want %d at most", n, most)
	}
	if n := len(d.fates()); n > len(fateFills) {
		c.note("%d fates, want %d at most", n, len(fateFills))
	}
	used = make([]bool, len(d.Parts))
	for _, b := range d.Bars {
		if len(b.Amounts) != len(d.Parts) {
			c.note("%s: %d amounts for %d parts", b.Name, len(b.Amounts), len(d.Parts))
			continue
		}
		for i, x := range b.Amounts {
			c.number(x, "%s: %s", b.Name, d.Parts[i].says())
			if x < 0 {
				c.note("%s: %s is %v, want 0 or more", b.Name, d.Parts[i].says(), x)
			}
			used[i] = used[i] || x > 0
		}
		c.number(b.total(), "%s: the total", b.Name)
	}
	return c, used
}

// fates returns the fates in the order in which they come.
func (d FatesData) fates() (fates []string) {
	for _, p := range d.Parts {
		if !slices.Contains(fates, p.Fate) {
			fates = append(fates, p.Fate)
		}
	}
	return fates
}

// looks returns the colour of each part: of its fate, the lighter the later the
// cause comes.
func (d FatesData) looks() []colour {
	fates := d.fates()
	looks := make([]colour, len(d.Parts))
	for i, p := range d.Parts {
		before, all := 0, 0
		for k, other := range d.Parts {
			if other.Fate != p.Fate {
				continue
			}
			all++
			if k < i {
				before++
			}
		}
		looks[i] = tint(fateFills[slices.Index(fates, p.Fate)], 1-0.75*float64(before)/float64(all))
	}
	return looks
}

func (p Part) says() string { return strings.Trim(p.Fate+", "+p.Cause, ", ") }

func (b FateBar) total() (sum float64) {
	for _, x := range b.Amounts {
		sum += x
	}
	return sum
}
