package plots

import (
	"slices"
	"strings"
)

// WeekData shows what runs when. A lane is one day of a line, or a line over the whole
// week; then the nights are best left out of the axis, and Ticks say where days begin.
type WeekData struct {
	Head
	Axis   string  // of time, with its unit
	Length float64 // of a lane, in the unit of the axis
	Ticks  []Tick  // such as the days; numbers if there are none
	Lanes  []Roster
}

// A Roster is one lane of a week.
type Roster struct {
	Name   string    // of the line, or of the day
	Note   string    // said on the right; may be empty
	Ends   []float64 // where shifts end
	Stints []Stint   // in the order of time; where there is none, the line is not manned
}

// A Stint is a stretch of one activity.
type Stint struct {
	From, To float64 // in the unit of the axis
	Activity Activity
	Job      string // may be empty; not said of breaks and idle time
	Overtime bool   // whether it lies after the end of the shift
}

// Week draws a row for each lane. A job is named in its bar; where that has no room, a
// letter stands in the bar or below it, and the names stand below the chart. Of bars of
// one job, one after the other, the widest is named.
func Week(d WeekData) (*Figure, error) {
	c := d.check()
	f, err := begin(d.Head, c, len(d.Lanes) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.legend(d.keys()...)
	var names, notes []string
	for _, l := range d.Lanes {
		names, notes = append(names, l.Name), append(notes, l.Note)
		f.told = append(f.told, l.says())
	}
	beside, to := f.asides(notes)
	col := f.column(names, nil, nameFace, 0)
	a := marked(scale{0, d.Length, col.right + gap, to}, d.Ticks)
	var jobs letters
	signs := make([][]sign, len(d.Lanes))
	high := 26.0
	for i, l := range d.Lanes {
		signs[i] = l.signs(a, &jobs)
		if slices.ContainsFunc(signs[i], func(s sign) bool { return s.below }) {
			high = 40 // for the letters
		}
	}
	col = f.column(names, nil, nameFace, high)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, l := range d.Lanes {
		f.roster(l, a, col.rows[i], signs[i])
		beside.draw(f, i, col.rows[i].middle())
	}
	f.list(jobs)
	return f.end("The shortest bars are drawn a little longer than they were, so that they can be seen."), nil
}

func (d WeekData) check() (c check) {
	c.number(d.Length, "the length of a lane")
	if !(d.Length >= smallest) {
		c.note("a lane is %v long, want more than 0", d.Length)
	}
	most := d.Length * (1 + 1e-9)
	for _, t := range d.Ticks {
		if !(t.At >= 0 && t.At <= most) {
			c.note("the tick %q at %v, in a lane of %v", t.Name, t.At, d.Length)
		}
	}
	for _, l := range d.Lanes {
		for _, x := range l.Ends {
			if !(x >= 0 && x <= most) {
				c.note("%s: a shift ends at %v, in a lane of %v", l.Name, x, d.Length)
			}
		}
		last := 0.0
		for _, s := range l.Stints {
			if !(s.From >= last-1e-9*d.Length && s.From <= s.To && s.To <= most) {
				c.note("%s: a stint from %v to %v, want it from %v to %v", l.Name, s.From, s.To, last, d.Length)
			}
			last = s.To
			if s.Activity < 0 || s.Activity >= activities {
				c.note("%s: activity %d, and there is none", l.Name, s.Activity)
			}
		}
	}
	return c
}

// keys returns the legend of what occurs.
func (d WeekData) keys() (keys []key) {
	var used [activities]bool
	over, ends := false, false
	for _, l := range d.Lanes {
		ends = ends || len(l.Ends) > 0
		for _, s := range l.Stints {
			used[s.Activity], over = true, over || s.Overtime
		}
	}
	for k, u := range used {
		if u {
			keys = append(keys, Activity(k).key())
		}
	}
	if over {
		keys = append(keys, key{name: "overtime", look: func(b box) []mark {
			return []mark{overline(b.left, b.right, (b.top+b.bottom)/2)}
		}})
	}
	if ends {
		keys = append(keys, key{name: "end of a shift", look: func(b box) []mark {
			return []mark{shiftEnd((b.left+b.right)/2, b.top, b.bottom)}
		}})
	}
	return keys
}

// says names the jobs of a lane in their order.
func (l Roster) says() string {
	var jobs []string
	for _, s := range l.Stints {
		if job := s.named(); job != "" && !slices.Contains(jobs, job) {
			jobs = append(jobs, job)
		}
	}
	said := l.Name + ": " + strings.Join(jobs, ", ")
	if len(jobs) == 0 {
		said = l.Name + ": no jobs"
	}
	if l.Note != "" {
		said += "; " + l.Note
	}
	return said
}
