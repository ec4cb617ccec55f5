package plots

import (
	"slices"
	"strings"
)

// WeekData shows what runs when. A lane is one day of a line, or a line over the whole
// week; then the nights are best left out of the axis, and Ticks say where days begin. Below
// the lanes there may be people, by the same axis.
type WeekData struct {
	Head
	Axis   string  // of time, with its unit
	Length float64 // of a lane, in the unit of the axis
	Ticks  []Tick  // such as the days; numbers if there are none
	Lanes  []Roster
	People []Attendance // who is there, below the lanes; may be empty
	NoList bool         // leaves out the list of the jobs: what stands beside the chart has their letters
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

// Week draws a row for each lane. Each job has a letter, and where it runs a tint and a
// pattern of its own; all are listed below the chart. A bar has the letter of its job if
// that has room, and where there is room the name too; of bars of one job, one after the
// other, the widest is named. If none of those has room, the letter stands below.
func Week(d WeekData) (*Figure, error) {
	c := d.check()
	f, err := begin(d.Head, c, len(d.Lanes)+len(d.People) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if len(d.People) > 0 {
		f.slim = &Figure{Title: f.Title, Subtitle: f.Subtitle, width: narrowWidth, y: margin}
		d.drawOn(f.slim)
	}
	return d.drawOn(f), nil
}

// drawOn draws the lanes on a figure that has its head, and closes it.
func (d WeekData) drawOn(f *Figure) *Figure {
	j := d.jobs()
	wide := d.shiftsOn(f)
	f.legend(d.keys(j, wide)...)
	beside, to, col := d.rows(f)
	a := marked(scale{0, d.Length, col.right + gap, to}, d.Ticks)
	signs := make([][]sign, len(d.Lanes))
	high := 26.0
	for i, l := range d.Lanes {
		signs[i] = l.signs(a, j)
		if slices.ContainsFunc(signs[i], func(s sign) bool { return s.below }) {
			high = 40 // for the letters
		}
	}
	col.spread(len(d.Lanes), high)
	f.names(col)
	for _, t := range d.Ticks { // also of those whose names have no room
		f.upright(a.at(t.At), col.top(), col.bottom(), pen{colour: grid, width: 0.6})
	}
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, l := range d.Lanes {
		f.roster(l, a, col.rows[i], signs[i], j)
		beside.draw(f, i, col.rows[i].middle())
		f.told = append(f.told, l.says())
	}
	for i, l := range d.People {
		r := col.rows[len(d.Lanes)+i]
		f.attendance(l, a, r, wide)
		beside.draw(f, len(d.Lanes)+i, r.middle())
		f.told = append(f.told, l.says())
	}
	if !d.NoList {
		f.jobs(j)
	}
	return f.end("The shortest bars are drawn a little longer than they were, so that they can be seen.")
}

// rows lays out the names of the lanes and of the people, and the notes beside them; on a narrow page
// notes stand below the names.
func (d WeekData) rows(f *Figure) (beside asides, to float64, col column) {
	var names, notes, below []string
	for _, l := range d.Lanes {
		names, notes = append(names, l.Name), append(notes, l.Note)
	}
	for _, l := range d.People {
		names, notes = append(names, l.Name), append(notes, l.Note)
	}
	if f.width <= narrowWidth {
		notes, below = make([]string, len(names)), notes
	}
	beside, to = f.asides(notes)
	return beside, to, f.column(names, below, nameFace, 0)
}

// spread sets the rows anew, one below the other: the first n at least so high, those of people as high as
// their names and notes need.
func (c column) spread(n int, high float64) {
	y := c.top()
	for i := range c.rows {
		r := &c.rows[i]
		tall := max(high, r.high(c.face)+12)
		if i >= n {
			tall = max(presenceHigh+9, r.high(c.face)+3)
		}
		r.top, r.bottom = y, y+tall
		y = r.bottom
	}
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
	for _, l := range d.People {
		l.check(&c, d.Length)
	}
	return c
}

// Letter returns the letter that stands for a job in the chart, or nothing if it has none.
func (d WeekData) Letter(job string) string {
	j := d.jobs()
	if i := j.index(job); i >= 0 {
		return letter(i)
	}
	return ""
}

// jobs returns the jobs that are named, in the order in which they come.
func (d WeekData) jobs() (j jobs) {
	for _, l := range d.Lanes {
		for _, s := range l.Stints {
			if job := s.named(); job != "" {
				j.of(job)
			}
		}
	}
	return j
}

// keys returns the legend of what occurs. Running is shown as the first jobs are. The width is that of shifts.
func (d WeekData) keys(j jobs, wide float64) (keys []key) {
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
	if used[Producing] && len(j.words) > 0 {
		keys[0].look = func(b box) []mark {
			middle := (b.left + b.right) / 2
			second := min(1, len(j.words)-1)
			return append(j.draw(0, box{b.left, b.top, middle, b.bottom}, ""),
				j.draw(second, box{middle, b.top, b.right, b.bottom}, "")...)
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
	return append(keys, presenceKeys(d.People, wide)...)
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
