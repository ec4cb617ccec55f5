package plots

import (
	"fmt"
	"math"
)

// LayoutData shows a line to its pitches: the line itself, and how others differ from it.
type LayoutData struct {
	Head
	Stations []Placed // of the line, along the track
	Cost     string   // the heading of what stations cost, with its unit; "" where that is not known
	Others   []OtherLayout
	Brief    bool // only the tracks, with the names of the stations below the first
}

// OtherLayout is another line: its stations along the track, those that it has taken away among
// them.
type OtherLayout struct {
	Name     string
	Says     string // what is different, in words; may be empty
	Stations []Placed
}

// Placed is a station in its place.
type Placed struct {
	Name   string
	Kind   string // what it is, in words: stations of one kind have one look
	Look   Look
	At     float64 // pitches
	Rated  string  // its rated speed; may be empty
	Cost   float64
	Change LayoutChange // against the line itself
	Before float64      // where it stood, of one that was moved

	Otherwise bool // something else was changed of one that was moved
}

// A LayoutChange is what another line has done with a station.
type LayoutChange int

// The changes.
const (
	Kept LayoutChange = iota
	Altered
	Moved
	Added
	TakenAway
	layoutChanges
)

// Layout draws the track from left to right, each station in its place and with a letter, and
// below it a row for each. Of other lines what is like the first is quiet.
func Layout(d LayoutData) (*Figure, error) {
	c := d.check()
	f, err := begin(d.Head, c, len(d.Stations) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.slim = &Figure{Title: f.Title, Subtitle: f.Subtitle, width: narrowWidth, y: margin}
	d.drawOn(f.slim)
	return d.drawOn(f), nil
}

// drawOn draws the track and what stands below it on a figure that has its head, and closes it.
func (d LayoutData) drawOn(f *Figure) *Figure {
	t := d.trackOn(f)
	f.strip(t, d.Stations, true)
	switch {
	case d.Brief:
		var names letters
		for _, s := range d.Stations {
			names.words = append(names.words, s.Name)
		}
		f.list(names)
	case f.width <= narrowWidth:
		f.narrowRows(d)
	default:
		f.stationRows(d)
	}
	for _, o := range d.Others {
		f.y += 8
		f.paragraph(o.Name, nameFace, ink, 2)
		f.paragraph(o.Says, smallFace, muted, 4)
		f.strip(t, o.Stations, false)
	}
	if d.Brief {
		if len(d.Others) > 0 {
			return f.end("+ added, × taken away, ←2 moved by two pitches; a thick rim: changed otherwise; pale: as in the line itself.")
		}
		return f.end()
	}
	notes := []string{"The track runs from left to right, a pitch a tick. Above it stands what feeds and what reads, below it what takes sets off, and a reader at the place of another station."}
	if len(d.Others) > 0 {
		notes = append(notes, "Of the other lines: + added, × taken away, ←2 moved by two pitches from the dotted place; a thick rim: changed otherwise; pale: as in the line itself. What was taken away is below the track where something else has its place.")
	}
	return f.end(notes...)
}

func (d LayoutData) check() (c check) {
	placed := func(stations []Placed) {
		for _, s := range stations {
			c.number(s.At, "%s: its place", s.Name)
			c.number(s.Before, "%s: its place before", s.Name)
			c.number(s.Cost, "%s: its cost", s.Name)
			if s.Look < 0 || s.Look >= looksOfStations {
				c.note("%s: look %d, and there is none", s.Name, s.Look)
			}
			if s.Change < 0 || s.Change >= layoutChanges {
				c.note("%s: change %d, and there is none", s.Name, s.Change)
			}
		}
	}
	placed(d.Stations)
	for _, o := range d.Others {
		placed(o.Stations)
	}
	return c
}

// trackPlace is where the track is on the page.
type trackPlace struct {
	scale
	first float64 // pitches
	last  float64
	wide  float64 // of a station
}

// The heights of a strip, points.
const (
	stripLetter = 11.0
	stripAbove  = 21.0
	stripBelow  = 19.0
	widestSign  = 24.0
	leastSign   = 7.0
)

// trackOn lays the track out over the width, so that all lines have one scale.
func (d LayoutData) trackOn(f *Figure) trackPlace {
	first, last, closest := d.Stations[0].At, d.Stations[0].At, math.Inf(1)
	reach := func(stations []Placed) {
		for i, s := range stations {
			first, last = min(first, s.At), max(last, s.At)
			if s.Change == Moved {
				first, last = min(first, s.Before), max(last, s.Before)
			}
			for _, t := range stations[:i] {
				if d := math.Abs(s.At - t.At); d > 0 && s.Look.side() == t.Look.side() {
					closest = min(closest, d)
				}
			}
		}
	}
	reach(d.Stations)
	for _, o := range d.Others {
		reach(o.Stations)
	}
	if last == first {
		last = first + 1
	}
	t := trackPlace{first: first, last: last}
	t.scale = scale{first, last, margin + widestSign/2 + 2, f.right() - widestSign/2 - 8}
	t.wide = max(leastSign, min(widestSign, 0.86*closest*t.pitch()))
	return t
}

// pitch returns the width of one pitch on the page.
func (t trackPlace) pitch() float64 { return t.at(t.first+1) - t.at(t.first) }

// strip draws a line along its track; that of the figure has letters and ticks.
func (f *Figure) strip(t trackPlace, stations []Placed, own bool) {
	y := f.y + stripLetter + stripAbove
	const half = 2.5 // of the track
	left, right := t.at(t.first)-t.wide/2-2, t.at(t.last)+t.wide/2+2
	f.draw(
		area{corners: rect(left, y-half, right, y+half), fill: tint(night, 0.12)},
		area{corners: []point{{right, y - half - 2}, {right + 6, y}, {right, y + half + 2}}, fill: tint(night, 0.45)})
	if t.pitch() >= 3 {
		for at := math.Ceil(t.first); at <= t.last; at++ {
			x := t.at(at)
			f.draw(stroke{points: []point{{x, y - half}, {x, y + half}}, pen: pen{colour: paper, width: 0.8}})
		}
	}
	f.places(t, y, stations, own)
	f.y = y + stripBelow + 6
	if own {
		f.y += stripLetter - 4
	}
}

// places draws the stations of a strip: first those that are no longer where they are drawn.
func (f *Figure) places(t trackPlace, y float64, stations []Placed, own bool) {
	taken := map[placeOnTrack]bool{}
	for _, s := range stations {
		if s.Change == Moved {
			f.draw(s.Look.draw(t.around(t.at(s.Before), y, s.Look.side()), ghostManner, "")...)
		}
		if s.Change != TakenAway {
			taken[placeOnTrack{s.At, s.Look.side()}] = true
		}
	}
	used := map[placeOnTrack]bool{}
	for i, s := range stations {
		side := s.Look.side()
		if at := (placeOnTrack{s.At, side}); side == aboveTrack && (used[at] || s.Change == TakenAway && taken[at]) {
			side = belowTrack // a reader at the place of a feeder looks from below
		}
		used[placeOnTrack{s.At, side}] = true
		b := t.around(t.at(s.At), y, side)
		f.draw(s.Look.draw(b, s.manner(own), fmt.Sprintf("%s: %s, pitch %s", s.Name, s.Kind, number(s.At, 0)))...)
		f.signs(b, side, s, letter(i), own)
	}
}

// placeOnTrack is a pitch and a side of the track.
type placeOnTrack struct {
	at   float64
	side trackSide
}

// around returns the box of a sign at a place.
func (t trackPlace) around(x, y float64, side trackSide) box {
	switch side {
	case aboveTrack:
		return box{x - t.wide/2, y - stripAbove, x + t.wide/2, y - 3.5}
	case belowTrack:
		return box{x - t.wide/2, y + 3.5, x + t.wide/2, y + stripBelow}
	case alongTrack:
		return box{x - t.wide/2, y - 7, x + t.wide/2, y + 7}
	case acrossTrack:
	}
	return box{x - t.wide/2, y - stripAbove + 5, x + t.wide/2, y + stripBelow - 3}
}

// signs writes the letter of a station, or the sign of what was done with it.
func (f *Figure) signs(b box, side trackSide, s Placed, letter string, own bool) {
	text := letter
	if !own {
		text = s.done()
	}
	y := b.top - 2.5
	if side == belowTrack {
		y = b.bottom + 8
	}
	if text != "" {
		middle, wide := (b.left+b.right)/2, bold(smallFace).width(text)/2+1
		if !own { // a dotted place may be behind it
			f.draw(area{corners: rect(middle-wide, y-6.5, middle+wide, y+1.5), fill: paper})
		}
		f.draw(label{at: point{middle, y}, align: 0.5, text: text, face: bold(smallFace), colour: ink, tip: s.Name})
	}
}

// done returns the sign of what was done with a station; one that was moved says by how many
// pitches.
func (s Placed) done() string {
	switch by := s.At - s.Before; {
	case s.Change == Added:
		return "+"
	case s.Change == TakenAway:
		return "×"
	case s.Change == Moved && by < 0:
		return "←" + number(-by, 0)
	case s.Change == Moved:
		return number(by, 0) + "→"
	}
	return ""
}

// A columnOfRows is a column of the rows of stations.
type columnOfRows struct {
	head  string
	align float64
	most  float64 // width, as a share of the figure
	x     float64
	texts []string
}

// stationRows lists the stations of the line below its track.
func (f *Figure) stationRows(d LayoutData) {
	const high, look, between = 14.0, 18.0, 14.0
	most := 0.0
	cols := []columnOfRows{
		{head: "station", most: 0.27},
		{head: "kind", most: 0.18},
		{head: "pitch", align: 1, most: 0.1},
		{head: "rated", align: 1, most: 0.12},
		{head: smallFace.shorten(d.Cost, 0.15*f.inner()), align: 1, most: 0.15},
	}
	if d.Cost == "" {
		cols = cols[:4]
	}
	for _, s := range d.Stations {
		most = max(most, s.Cost)
		for k, text := range []string{s.Name, s.Kind, number(s.At, 0), s.Rated, number(s.Cost, 0)}[:len(cols)] {
			cols[k].texts = append(cols[k].texts, smallFace.shorten(text, cols[k].most*f.inner()))
		}
	}
	letters := bold(smallFace).width(letter(len(d.Stations)-1)) + 5
	x := margin + letters + look + 4
	f.y += smallFace.leading() + 2
	for k := range cols {
		c := &cols[k]
		wide := smallFace.widest(append(c.texts, c.head)...)
		c.x = x + c.align*wide
		x += wide + between
		f.draw(label{at: point{c.x, f.y}, align: c.align, text: c.head, face: smallFace, colour: muted})
	}
	f.y += 4
	for i, s := range d.Stations {
		middle := f.y + high/2
		f.beside(margin, middle, 0, letter(i), bold(smallFace))
		thumb := box{margin + letters + 2, middle - 5.5, margin + letters + 14, middle + 5.5}
		if s.Look.side() == alongTrack {
			thumb.top, thumb.bottom = middle-3, middle+3
		}
		f.draw(s.Look.draw(thumb, plainManner, "")...)
		for _, c := range cols {
			l := label{at: point{c.x, middle + smallFace.middle()}, align: c.align, text: c.texts[i], face: smallFace, colour: ink}
			if c.head == "kind" {
				l.colour = muted
			}
			f.draw(l)
		}
		if bar := x - between + 6; d.Cost != "" && s.Cost > 0 && f.right() > bar {
			f.bar(bar, bar+max(narrowest, (f.right()-bar)*s.Cost/most), middle, 8, vermilion, s.Name+": "+number(s.Cost, 0))
		}
		f.told = append(f.told, fmt.Sprintf("%s: %s at pitch %s", s.Name, s.Kind, number(s.At, 0)))
		f.y += high
	}
	f.y += 2
}
