package plots

import "math"

// CompletionData shows when jobs are finished.
type CompletionData struct {
	Head
	Axis string // of time, with its unit
	Of   Runs
	Jobs []Finish
}

// A Finish is when one job is finished. A time of +Inf is later than what was
// simulated.
type Finish struct {
	Box
	Due  float64 // 0 if the job is never late
	Note string  // said on the right, such as "in time in 93 %"; may be empty
}

// Completion draws a box for each job, as Boxes does. What lies after the job is due
// is shaded. A job that some runs do not finish ends in an arrow.
func Completion(d CompletionData) (*Figure, error) {
	c, times := d.check()
	f, err := begin(d.Head, c, len(d.Jobs) > 0)
	if err != nil || f.done() {
		return f, err
	}
	var names, notes []string
	due, open := false, false
	for _, j := range d.Jobs {
		names, notes = append(names, j.Name), append(notes, j.Note)
		due, open = due || j.Due > 0, open || j.open()
		if j.Note != "" {
			f.told = append(f.told, j.Name+": "+j.Note)
		}
	}
	if due {
		f.legend(key{name: "due", look: keyDue}, key{name: "late", fill: lateFill})
	}
	col := f.column(names, nil, nameFace, 26)
	beside, to := f.asides(notes)
	low, high := 0.0, 1.0
	if len(times) > 0 {
		low, high = spread(times...)
	}
	a := across(scale{low, high, col.right + gap, to}, number)
	f.names(col)
	for i, j := range d.Jobs {
		if r := col.rows[i]; j.Due > 0 {
			f.draw(area{corners: rect(a.at(j.Due), r.top+1, a.to, r.bottom-1), fill: lateFill})
		}
	}
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, j := range d.Jobs {
		f.finish(j, a, col.rows[i])
		beside.draw(f, i, col.rows[i].middle())
	}
	if open {
		_, many := d.Of.words()
		return f.end(d.Of.boxed(), "Arrow: in some "+many+" the job is not finished in the time simulated."), nil
	}
	return f.end(d.Of.boxed()), nil
}

// check also returns the times that must have room.
func (d CompletionData) check() (c check, times []float64) {
	for _, j := range d.Jobs {
		known := j.list()
		for n := len(known); n > 0 && math.IsInf(known[n-1], 1); n-- {
			known = known[:n-1]
		}
		c.rising(append([]float64{0}, known...), "%s: a time", j.Name)
		c.number(j.Due, "%s: when it is due", j.Name)
		if j.Due < 0 {
			c.note("%s is due at %v, want a time after 0, or 0 for none", j.Name, j.Due)
		}
		times = append(times, known...)
		if j.Due > 0 {
			times = append(times, j.Due)
		}
	}
	return c, times
}

// open tells whether some runs do not finish the job.
func (j Finish) open() bool { return math.IsInf(j.Max, 1) }

// lateFill is behind what is late.
var lateFill = tint(vermilion, 0.13)

// dueMark returns the mark of the time when a job is due: a line with a foot and a head.
func dueMark(x, top, bottom float64) []mark {
	line := pen{colour: ink, width: 1.6}
	return []mark{
		stroke{points: []point{{x, top}, {x, bottom}}, pen: line},
		area{corners: []point{{x - 3, top}, {x + 3, top}, {x, top + 4.5}}, fill: ink},
	}
}

func keyDue(b box) []mark { return dueMark((b.left+b.right)/2, b.top, b.bottom) }

// finish draws one job. What is not finished stands at the end of the axis, with an
// arrow.
func (f *Figure) finish(j Finish, a axis, r row) {
	y := r.middle()
	if j.Due > 0 {
		f.draw(dueMark(a.at(j.Due), r.top+1, r.bottom-1)...)
	}
	if j.open() {
		f.draw(area{corners: []point{{a.to, y - 4}, {a.to + 6, y}, {a.to, y + 4}}, fill: blue, tip: j.Name + ": not always finished"})
	}
	if math.IsInf(j.Spread.P5, 1) {
		return // hardly ever finished
	}
	b := j.Box
	for _, x := range []*float64{&b.Spread.P25, &b.Spread.P50, &b.Spread.P75, &b.Spread.P95} {
		*x = min(*x, a.high)
	}
	if j.open() {
		b.Max = b.Spread.P95
	}
	f.box(b, a, y, blue)
}
