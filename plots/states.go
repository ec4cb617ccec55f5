package plots

// StatesData shows how lines spend their time.
type StatesData struct {
	Head
	Axis string // of time, with its unit
	Rows []StatesRow
}

// A StatesRow is the time of one line in each state; what is missing is 0.
type StatesRow struct {
	Name  string
	Times map[State]float64 // 0 or more, in the unit of the axis
}

// States draws a bar for each line, from state to state in the order of [State], all on one
// scale. A part has its number where there is room.
func States(d StatesData) (*Figure, error) {
	c, used, longest := d.check()
	f, err := begin(d.Head, c, len(d.Rows) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if longest == 0 {
		f.nothing("no time")
		return f, nil
	}
	var keys []key
	var names []string
	for s, u := range used {
		if u {
			keys = append(keys, key{name: looks[s].name, fill: looks[s].fill})
		}
	}
	f.legend(keys...)
	for _, r := range d.Rows {
		names = append(names, r.Name)
	}
	col := f.column(names, nil, nameFace, 24)
	a := across(scale{0, longest, col.right + gap, f.right() - 8}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, r := range d.Rows {
		at, y := 0.0, col.rows[i].middle()
		for s := range states {
			x := r.Times[s]
			if x == 0 {
				continue
			}
			from, to := a.at(at), a.at(at+x)
			says := number(x, digits(longest))
			f.bar(from, to, y, 15, looks[s].fill, r.Name+", "+looks[s].name+": "+says)
			if smallFace.width(says) < to-from-3 {
				f.draw(label{at: point{(from + to) / 2, y + smallFace.middle()}, align: 0.5, text: says, face: smallFace, colour: textOn(looks[s].fill)})
			}
			at += x
		}
	}
	return f.end(), nil
}

// check also tells which states occur, and how long the longest row is.
func (d StatesData) check() (c check, used [states]bool, longest float64) {
	for _, r := range d.Rows {
		whole := 0.0
		for s, x := range r.Times {
			if s < 0 || s >= states {
				c.note("%s: state %d, and there is none", r.Name, s)
				continue
			}
			c.number(x, "%s, %s", r.Name, looks[s].name)
			if x < 0 {
				c.note("%s, %s: %v, want 0 or more", r.Name, looks[s].name, x)
			}
			used[s] = used[s] || x > 0
		}
		for s := range states { // in order, so that the sum has the same bits
			whole += r.Times[s]
		}
		longest = max(longest, whole)
	}
	return c, used, longest
}
