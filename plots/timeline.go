package plots

import "slices"

// TimelineData shows one shift.
type TimelineData struct {
	Head
	Axis   string  // of time, with its unit
	Length float64 // of the shift, in the unit of the axis
	Lanes  []Lane  // the line itself, then a lane for each station and cause
	Close  *Closeup
}

// A Closeup is a part of the shift enlarged, below the whole of it.
type Closeup struct {
	From, To float64 // in the unit of the axis
	Axis     string  // of time, with its unit
	Lanes    []Lane  // such as the line, each operator, and the calls that wait
}

// A Lane is a row of a timeline.
type Lane struct {
	Name  string
	Note  string // said on the right, such as stops and minutes; may be empty
	Spans []Span
	Queue []Count // how many wait, from one moment to the next; drawn as steps
}

// A Count is a number from a moment on.
type Count struct {
	At     float64 // in the unit of the axis
	Number int
}

// A Span is a stretch of time in one state.
type Span struct {
	From, To float64 // in the unit of the axis
	State    State
}

// A State is what the line, or a station of it, does.
type State int

// The states. A stop goes through waiting, working and restarting.
const (
	Running    State = iota
	Waiting          // for an operator, his walk included
	Working          // an operator clears, refills or empties
	Restarting       // run-up after a stop
	Starved          // of documents, for a channel too slow
	Planned          // breaks and changeovers
	states           // how many there are
)

// looks are the words, colours and heights of the states, so that none is shown by its colour alone. Their L* lie nine and more apart;
// the two lightest never stand for a stop.
var looks = [states]struct {
	name string
	fill colour
	high float64
}{
	{"running", tint(blue, 0.13), 5},
	{"waiting and walking", ink, 12},
	{"operator at work", rgb(0x3A82BD), 12},
	{"restarting", tint(sky, 0.83), 8},
	{"channel too slow", rgb(0x7C3A66), 12},
	{"break, changeover", tint(night, 0.32), 8},
}

// narrowest is the least width at which a span is drawn, so that it is seen.
const narrowest = 0.6

// Timeline draws a row for each lane. A span must lie within the shift.
func Timeline(d TimelineData) (*Figure, error) {
	c, used := d.check()
	f, err := begin(d.Head, c, len(d.Lanes) > 0)
	if err != nil || f.done() {
		return f, err
	}
	var keys []key
	for s, u := range used {
		if u {
			keys = append(keys, key{name: looks[s].name, fill: looks[s].fill})
		}
	}
	f.legend(keys...)
	a, rows := f.lanes(d.Lanes, 0, d.Length, d.Axis)
	if c := d.Close; c != nil {
		top := f.y + 1
		f.y += 18
		b, _ := f.lanes(c.Lanes, c.From, c.To, c.Axis)
		f.bracket(a.at(c.From), b.from, rows, top)
		f.bracket(a.at(c.To), b.to, rows, top)
	}
	return f.end("The shortest stops are drawn a little longer than they were, so that they can be seen."), nil
}

// lanes draws lanes from one time to another, and returns their axis and their rows.
func (f *Figure) lanes(lanes []Lane, begin, end float64, shows string) (axis, column) {
	var names, notes []string
	for _, l := range lanes {
		names, notes = append(names, l.Name), append(notes, smallFace.shorten(l.Note, 100))
	}
	col := f.column(names, nil, textFace, 18)
	to := f.right() - 4
	if w := smallFace.widest(notes...); w > 0 {
		to = f.right() - w - gap
	}
	a := across(scale{begin, end, col.right + gap, to}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), shows)
	for i, l := range lanes {
		r := col.rows[i]
		f.draw(stroke{points: []point{{a.from, r.middle()}, {a.to, r.middle()}}, pen: pen{colour: grid, width: 0.6}})
		for _, s := range l.Spans {
			if s.To < begin || s.From > end {
				continue
			}
			from, to := Span{max(s.From, begin), min(s.To, end), s.State}.drawn(a)
			f.bar(from, to, r.middle(), looks[s.State].high, looks[s.State].fill, "")
		}
		f.queue(l, a, r, begin, end)
		f.beside(f.right(), r.middle(), 1, notes[i], smallFace)
	}
	return a, col
}

// queue draws how many wait as steps up from the foot of the row.
func (f *Figure) queue(l Lane, a axis, r row, begin, end float64) {
	most := 1
	for _, c := range l.Queue {
		most = max(most, c.Number)
	}
	foot, unit := r.bottom-2, (r.bottom-r.top-4)/float64(most)
	for i, c := range l.Queue {
		from, to := max(c.At, begin), end
		if i+1 < len(l.Queue) {
			to = min(end, l.Queue[i+1].At)
		}
		if c.Number > 0 && to > from {
			f.draw(area{corners: rect(a.at(from), foot-unit*float64(c.Number), max(a.at(to), a.at(from)+narrowest), foot), fill: ink})
		}
	}
}

// bracket draws a time through the lanes above, and leads from below their axis and its title to
// where it stands in the part enlarged.
func (f *Figure) bracket(above, below float64, lanes column, top float64) {
	thin := pen{colour: muted, width: 0.6}
	f.upright(above, lanes.top(), lanes.bottom(), thin)
	f.draw(stroke{points: []point{{above, top}, {below, top + 12}, {below, top + 20}}, pen: thin})
}

// check also tells which states occur.
func (d TimelineData) check() (c check, used [states]bool) {
	c.number(d.Length, "the length of the shift")
	if !(d.Length >= smallest) {
		c.note("the shift is %v long, want more than 0", d.Length)
	}
	lanes := d.Lanes
	if x := d.Close; x != nil {
		if !(x.From >= 0 && x.To > x.From && x.To <= d.Length*(1+1e-9)) {
			c.note("the part enlarged is from %v to %v, in a shift of %v", x.From, x.To, d.Length)
		}
		lanes = slices.Concat(d.Lanes, x.Lanes)
	}
	for _, l := range lanes {
		for i, q := range l.Queue {
			c.number(q.At, "%s: a time", l.Name)
			if q.Number < 0 || i > 0 && q.At < l.Queue[i-1].At {
				c.note("%s: %d wait at %v, want a number of 0 or more and times that rise", l.Name, q.Number, q.At)
			}
		}
		for _, s := range l.Spans {
			if !(s.From >= 0 && s.From <= s.To && s.To <= d.Length*(1+1e-9)) {
				c.note("%s: a span from %v to %v, in a shift of %v", l.Name, s.From, s.To, d.Length)
			}
			if s.State < 0 || s.State >= states {
				c.note("%s: state %d, and there is none", l.Name, s.State)
				continue
			}
			used[s.State] = true
		}
	}
	return c, used
}

// drawn returns where a span begins and ends on the page.
func (s Span) drawn(a axis) (from, to float64) {
	from, to = a.at(s.From), min(a.at(s.To), a.to)
	if to-from < narrowest {
		from = min(from, a.to-narrowest)
		to = from + narrowest
	}
	return from, to
}
