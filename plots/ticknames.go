package plots

// A Tick is a named place on an axis.
type Tick struct {
	At   float64 // in the unit of the axis
	Name string
}

// thinned returns a horizontal axis with the ticks given, or as many of them, evenly
// thinned, as have room for their names. A long name is shortened.
func thinned(s scale, ticks []Tick) (a axis) {
	for step := 1; ; step++ {
		a = axis{scale: s}
		for i := 0; i < len(ticks); i += step {
			a.ticks = append(a.ticks, ticks[i].At)
			a.labels = append(a.labels, textFace.shorten(ticks[i].Name, 140))
		}
		if step >= len(ticks) || a.clear() {
			return a
		}
	}
}

// marked returns a horizontal axis with the ticks given, or with numbers if there are
// none.
func marked(s scale, ticks []Tick) axis {
	if len(ticks) == 0 {
		return across(s, number)
	}
	return thinned(s, ticks)
}
