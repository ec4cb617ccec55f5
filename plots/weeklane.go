package plots

import "slices"

// A sign is what tells the job of a stint: in its bar, or a letter below it.
type sign struct {
	stint int
	says  string // the letter, and the name if there is room
	below bool
	at    float64 // middle of what is said, once it is placed
}

// signs returns what is said of the stints of a lane: of each that has room its letter,
// and of the widest of one job, one after the other, at least that.
func (l Roster) signs(a axis, j jobs) (signs []sign) {
	for i := 0; i < len(l.Stints); {
		widest, next := l.run(i, a)
		if l.Stints[i].named() != "" {
			for k := i; k < next; k++ {
				if s := l.sign(k, a, j, k == widest); k == widest || !s.below {
					signs = append(signs, s)
				}
			}
		}
		i = next
	}
	return apart(signs, a.from, a.to)
}

// sign returns what is said of stint i, with the name of its job if that is wanted and
// has room.
func (l Roster) sign(i int, a axis, j jobs, named bool) sign {
	from, to := l.clear(l.Stints[i], a)
	job := l.Stints[i].Job
	s := sign{stint: i, says: letter(j.index(job)), at: (from + to) / 2}
	room := to - from - 4
	s.below = smallFace.width(s.says) > room
	if full := s.says + "  " + job; named && smallFace.width(full) <= room {
		s.says = full
	}
	return s
}

// run returns the widest of the stints of one job from stint i on, and the first stint
// after them.
func (l Roster) run(i int, a axis) (widest, next int) {
	width := func(k int) float64 {
		from, to := l.clear(l.Stints[k], a)
		return to - from
	}
	widest = i
	for next = i + 1; next < len(l.Stints) && l.Stints[next].named() == l.Stints[i].named(); next++ {
		if width(next) > width(widest) {
			widest = next
		}
	}
	return widest, next
}

// named returns the job for which a stint is named, if it is.
func (s Stint) named() string {
	if !s.Activity.bearsJob() {
		return ""
	}
	return s.Job
}

// clear returns the widest part of a stint on the page that no end of a shift crosses.
func (l Roster) clear(s Stint, a axis) (from, to float64) {
	left, right := s.drawn(a)
	edges := []float64{left}
	for _, end := range slices.Sorted(slices.Values(l.Ends)) {
		if x := a.at(end); x > left && x < right {
			edges = append(edges, x)
		}
	}
	edges = append(edges, right)
	for i := 1; i < len(edges); i++ {
		if edges[i]-edges[i-1] > to-from {
			from, to = edges[i-1], edges[i]
		}
	}
	return from, to
}

// apart moves the letters below the bars sideways until they stand clear of each other,
// and leaves off those that have no room at all.
func apart(signs []sign, from, to float64) []sign {
	const between = 3.0
	var kept, below []sign
	wide := 0.0
	for _, s := range signs {
		switch w := smallFace.width(s.says) + between; {
		case !s.below:
			kept = append(kept, s)
		case wide+w <= to-from:
			wide += w
			below = append(below, s)
		}
	}
	free := from
	for i := range below {
		half := smallFace.width(below[i].says) / 2
		below[i].at = max(below[i].at, free+half)
		free = below[i].at + half + between
	}
	free = to
	for i := len(below) - 1; i >= 0; i-- {
		half := smallFace.width(below[i].says) / 2
		below[i].at = min(below[i].at, free-half)
		free = below[i].at - half - between
	}
	return append(kept, below...)
}

// drawn returns where a stint begins and ends on the page.
func (s Stint) drawn(a axis) (from, to float64) { return Span{From: s.From, To: s.To}.drawn(a) }

// tip returns what is said of a stint under the pointer.
func (s Stint) tip(lane string) string {
	tip := lane + ": " + activityLooks[s.Activity].name
	if s.Job != "" {
		tip += ", " + s.Job
	}
	if s.Overtime {
		tip += ", overtime"
	}
	return tip
}

// roster draws one lane.
func (f *Figure) roster(l Roster, a axis, r row, signs []sign, j jobs) {
	y := r.middle()
	f.draw(stroke{points: []point{{a.from, y}, {a.to, y}}, pen: pen{colour: grid, width: 0.6}})
	for _, s := range l.Stints {
		from, to := s.drawn(a)
		if job := j.index(s.named()); job >= 0 && s.Activity == Producing {
			half := activityLooks[Producing].high / 2
			f.draw(j.draw(job, box{from, y - half, to, y + half}, s.tip(l.Name))...)
		} else {
			f.draw(s.Activity.draw(from, to, y, 1, s.tip(l.Name))...)
		}
		if s.Activity.bearsJob() && to-from > 3 { // a white edge between neighbours
			f.upright(to-0.3, y-7.5, y+7.5, pen{colour: paper, width: 0.6})
		}
		if s.Overtime {
			f.draw(overline(from, to, y-10))
		}
	}
	for _, x := range l.Ends {
		f.draw(shiftEnd(a.at(x), y-12, y+9.5))
	}
	for _, s := range signs {
		f.sign(s, l.Stints[s.stint], a, y, j)
	}
}

// sign writes what is said of a stint. In a patterned bar it stands on a plain patch.
func (f *Figure) sign(s sign, stint Stint, a axis, y float64, j jobs) {
	if s.below {
		from, to := stint.drawn(a)
		f.draw(
			stroke{points: []point{{(from + to) / 2, y + 7.5}, {s.at, y + 10.5}}, pen: pen{colour: muted, width: 0.6}},
			label{at: point{s.at, y + 17}, align: 0.5, text: s.says, face: smallFace, colour: ink, tip: stint.Job})
		return
	}
	ground := activityLooks[stint.Activity].fill
	if stint.Activity == Producing {
		ground, _ = tintOf(j.index(stint.Job))
		half := smallFace.width(s.says)/2 + 1.5
		f.draw(area{corners: rect(s.at-half, y-5, s.at+half, y+5), fill: ground})
	}
	f.draw(label{at: point{s.at, y + smallFace.middle()}, align: 0.5, text: s.says, face: smallFace, colour: textOn(ground)})
}

// overline marks overtime.
func overline(left, right, y float64) mark {
	return stroke{points: []point{{left, y}, {right, y}}, pen: pen{colour: ink, width: 2}}
}

// shiftEnd marks the end of a shift.
func shiftEnd(x, top, bottom float64) mark {
	return stroke{points: []point{{x, top}, {x, bottom}}, pen: pen{colour: ink, width: 1.4}}
}
