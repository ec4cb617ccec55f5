package plots

import (
	"fmt"
	"strings"
)

// An Attendance is one lane of people below the lines of a week: a person, or a place in a crew.
type Attendance struct {
	Name   string
	Note   string    // said on the right; may be empty
	Breaks []float64 // where one is that the axis leaves out
	Own    []Span    // breaks within shifts while others work on: the axis has their time
	Shifts []Attended
}

// Attended is a shift, or what the axis has of it; where there is none, nobody is wanted.
type Attended struct {
	From, To float64 // in the unit of the axis
	Presence Presence
	By       string // why, such as "one is sick"; may be empty
	Extra    bool   // whether the whole shift is worked by choice alone
}

// A Presence is whether somebody is there, and why.
type Presence int

// The presences.
const (
	OfCrew     Presence = iota // there, as the crew is
	BeyondCrew                 // there, and the crew has not so many
	Chosen                     // there, since that is chosen
	Absent                     // not there, and the crew would be
	presences                  // how many there are
)

// A presenceLook is a word, a ground and a pattern, so that no presence is shown by its colour alone.
type presenceLook struct {
	name   string
	fill   colour
	rim    pen     // none if it has no width
	ruled  bool    // along the bar
	aslant float64 // of a zigzag, how far it goes along the bar each way; 0 for none
	zigzag pen
}

var presenceLooks = [presences]presenceLook{
	{name: "there, of the crew", fill: tint(night, 0.62)},
	{name: "there, beyond the crew", fill: tint(green, 0.22), rim: pen{colour: night, width: 0.7}, ruled: true},
	{
		name: "there, optional and chosen", fill: tint(purple, 0.22), rim: pen{colour: night, width: 0.7},
		aslant: 2.5, zigzag: pen{colour: night, width: 0.8},
	},
	{
		name: "absent", fill: paper, rim: pen{colour: night, width: 0.7, dashes: []float64{2, 1.5}},
		aslant: 7, zigzag: pen{colour: night, width: 0.5},
	},
}

// presenceHigh is the height of a bar.
const presenceHigh = 9

// draw returns a bar.
func (p Presence) draw(b box, tip string) []mark {
	look, corners := presenceLooks[p], rect(b.left, b.top, b.right, b.bottom)
	marks := []mark{area{corners: corners, fill: look.fill, tip: tip}}
	if look.ruled {
		for _, share := range []float64{1. / 3, 2. / 3} {
			y := b.top + (b.bottom-b.top)*share
			marks = append(marks, stroke{points: []point{{b.left, y}, {b.right, y}}, pen: look.rim})
		}
	}
	if look.aslant > 0 {
		marks = append(marks, zigzag(b, 0, look.aslant, look.zigzag))
	}
	if look.rim.width > 0 {
		marks = append(marks, stroke{points: append(corners, corners[0]), pen: look.rim})
	}
	return marks
}

// restMark marks a break that the axis leaves out: a gap with a stem above the bar.
func restMark(x, top, bottom float64) []mark {
	return []mark{
		stroke{points: []point{{x, top}, {x, bottom}}, pen: pen{colour: paper, width: 2.2}},
		stroke{points: []point{{x, top - 3}, {x, top}}, pen: pen{colour: ink, width: 1}},
	}
}

// ownMark draws a break that one has alone: a gap in the bar, with its lower edge.
func ownMark(b box, tip string) []mark {
	return []mark{
		area{corners: rect(b.left, b.top-0.5, b.right, b.bottom+0.5), fill: paper, tip: tip},
		stroke{points: []point{{b.left, b.bottom}, {b.right, b.bottom}}, pen: pen{colour: ink, width: 1}},
	}
}

// check notes what is wrong with a lane in an axis of a length.
func (l Attendance) check(c *check, length float64) {
	most := length * (1 + 1e-9)
	for _, x := range l.Breaks {
		if !(x >= 0 && x <= most) {
			c.note("%s: a break at %v, in a lane of %v", l.Name, x, length)
		}
	}
	for _, s := range l.Own {
		if !(s.From >= 0 && s.From <= s.To && s.To <= most) {
			c.note("%s: a break from %v to %v, in a lane of %v", l.Name, s.From, s.To, length)
		}
	}
	last := 0.0
	for _, s := range l.Shifts {
		if !(s.From >= last-1e-9*length && s.From <= s.To && s.To <= most) {
			c.note("%s: a shift from %v to %v, want it from %v to %v", l.Name, s.From, s.To, last, length)
		}
		last = s.To
		if s.Presence < 0 || s.Presence >= presences {
			c.note("%s: presence %d, and there is none", l.Name, s.Presence)
		}
	}
}

// Shifts that are narrower have no room for what is within them.
const (
	restsFrom = 12 // points, for breaks to be seen
	edgesFrom = 6  // for an edge between shifts
)

// shiftsOn returns about how wide a shift of people is on a figure, in points.
func (d WeekData) shiftsOn(f *Figure) float64 {
	most := 1
	for _, l := range d.People {
		most = max(most, len(l.Shifts))
	}
	return f.inner() / 2 / float64(most) // the other half has names and notes
}

// presenceKeys returns the legend of what occurs among people, in shifts of a width.
func presenceKeys(people []Attendance, wide float64) (keys []key) {
	var used [presences]bool
	extra, rests, own := false, false, false
	for _, l := range people {
		if wide >= restsFrom {
			rests, own = rests || len(l.Breaks) > 0, own || len(l.Own) > 0
		}
		for _, s := range l.Shifts {
			used[s.Presence], extra = true, extra || s.Extra
		}
	}
	bar := func(b box) box {
		middle := (b.top + b.bottom) / 2
		return box{b.left, middle - presenceHigh/2, b.right, middle + presenceHigh/2}
	}
	for p, u := range used {
		if u {
			keys = append(keys, key{name: presenceLooks[p].name, look: func(b box) []mark { return Presence(p).draw(bar(b), "") }})
		}
	}
	if extra {
		keys = append(keys, key{name: "extra shift", look: func(b box) []mark { return []mark{overline(b.left, b.right, (b.top+b.bottom)/2)} }})
	}
	if rests {
		keys = append(keys, key{name: "break, no time on the axis", look: func(b box) []mark {
			own := bar(b)
			return append(OfCrew.draw(own, ""), restMark((b.left+b.right)/2, own.top, own.bottom)...)
		}})
	}
	if own {
		keys = append(keys, key{name: "break, the others work on", look: func(b box) []mark {
			gap := bar(b)
			marks, third := OfCrew.draw(gap, ""), (b.right-b.left)/3
			gap.left, gap.right = gap.left+third, gap.right-third
			return append(marks, ownMark(gap, "")...)
		}})
	}
	return keys
}

// tip returns what is said of a shift under the pointer.
func (s Attended) tip(lane string) string {
	tip := lane + ": " + presenceLooks[s.Presence].name
	if s.By != "" {
		tip += " (" + s.By + ")"
	}
	if s.Extra {
		tip += ", extra shift"
	}
	return tip
}

// says tells a lane by how many shifts it has of each presence.
func (l Attendance) says() string {
	var parts []string
	for p := range presences {
		n, why := 0, ""
		for _, s := range l.Shifts {
			if s.Presence == p {
				n++
				if s.By != "" && !strings.Contains(why, s.By) {
					why += ", " + s.By
				}
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%s in %d of %d shifts%s", presenceLooks[p].name, n, len(l.Shifts), why))
		}
	}
	if n := len(l.Own); n == 1 {
		parts = append(parts, "one break while the others work on")
	} else if n > 1 {
		parts = append(parts, fmt.Sprintf("%d breaks while the others work on", n))
	}
	said := l.Name + ": " + strings.Join(parts, "; ")
	if l.Note != "" {
		said += "; " + l.Note
	}
	return said
}

// stretches returns the shifts of a lane, those in a row that are alike as one.
func (l Attendance) stretches() (all []Attended) {
	for _, s := range l.Shifts {
		if last := len(all) - 1; last >= 0 && all[last].To == s.From && all[last].Presence == s.Presence && all[last].By == s.By && all[last].Extra == s.Extra {
			all[last].To = s.To
			continue
		}
		all = append(all, s)
	}
	return all
}

// attendance draws one lane of people, with breaks and edges between shifts where these are wide enough.
func (f *Figure) attendance(l Attendance, a axis, r row, wide float64) {
	if wide < restsFrom {
		l.Breaks, l.Own = nil, nil
	}
	if wide < edgesFrom {
		l.Shifts = l.stretches()
	}
	y := r.middle()
	f.draw(stroke{points: []point{{a.from, y}, {a.to, y}}, pen: pen{colour: grid, width: 0.6}})
	top, bottom := y-presenceHigh/2, y+presenceHigh/2
	for _, s := range l.Shifts {
		from, to := Span{From: s.From, To: s.To}.drawn(a)
		f.draw(s.Presence.draw(box{from, top, to, bottom}, s.tip(l.Name))...)
		if s.Extra {
			f.draw(overline(from, to, top-3.5))
		}
	}
	for _, s := range l.Own {
		from, to := s.drawn(a)
		f.draw(ownMark(box{from, top, to, bottom}, l.Name+": break, the others work on")...)
	}
	for _, x := range l.Breaks {
		f.draw(restMark(a.at(x), top, bottom)...)
	}
	for i := 1; i < len(l.Shifts); i++ { // a white edge between shifts
		f.upright(a.at(l.Shifts[i].From), top-0.5, bottom+0.5, pen{colour: paper, width: 1})
	}
	f.reasons(l, a, y)
}

// reasons writes on bars why they are as they are, once where it holds for shifts in a row, where there
// is room.
func (f *Figure) reasons(l Attendance, a axis, y float64) {
	for i := 0; i < len(l.Shifts); {
		k := i
		for k+1 < len(l.Shifts) && l.Shifts[k+1].Presence == l.Shifts[i].Presence && l.Shifts[k+1].By == l.Shifts[i].By {
			k++
		}
		from, to := a.at(l.Shifts[i].From), a.at(l.Shifts[k].To)
		if by := l.Shifts[i].By; by != "" && smallFace.width(by)+12 <= to-from {
			middle, half := (from+to)/2, smallFace.width(by)/2+3
			f.draw(
				area{corners: rect(middle-half, y-5.2, middle+half, y+5.2), fill: paper},
				label{at: point{middle, y + smallFace.middle()}, align: 0.5, text: by, face: smallFace, colour: ink})
		}
		i = k + 1
	}
}
