package plots

import "fmt"

// narrowRows lists the stations of the line on a narrow page, two lines for each: its name and what
// it costs, then what it is and where, with a bar.
func (f *Figure) narrowRows(d LayoutData) {
	const high, text = 25.0, 20.0
	most := 0.0
	for _, s := range d.Stations {
		most = max(most, s.Cost)
	}
	left := margin + bold(smallFace).width(letter(len(d.Stations)-1)) + text
	f.y += smallFace.leading() + 2
	f.draw(label{at: point{f.right(), f.y}, align: 1, text: d.Cost, face: smallFace, colour: muted})
	f.y += 4
	for i, s := range d.Stations {
		above, below := f.y+high/4+1, f.y+3*high/4
		f.beside(margin, above, 0, letter(i), bold(smallFace))
		thumb := box{left - 16, above - 5.5, left - 4, above + 5.5}
		if s.Look.side() == alongTrack {
			thumb.top, thumb.bottom = above-3, above+3
		}
		f.draw(s.Look.draw(thumb, plainManner, "")...)
		cost := ""
		if d.Cost != "" {
			cost = number(s.Cost, 0)
		}
		for _, l := range []label{
			{at: point{left, above}, text: smallFace.shorten(s.Name, f.right()-left-smallFace.width(cost)-6), colour: ink},
			{at: point{f.right(), above}, align: 1, text: cost, colour: ink},
			{at: point{left, below}, text: smallFace.shorten(s.where(), 0.6*f.inner()), colour: muted},
		} {
			l.at.y += smallFace.middle()
			l.face = smallFace
			f.draw(l)
		}
		if bar := left + 0.62*f.inner(); cost != "" && s.Cost > 0 {
			f.bar(bar, bar+max(narrowest, (f.right()-bar)*s.Cost/most), below, 7, vermilion, s.Name+": "+cost)
		}
		f.told = append(f.told, fmt.Sprintf("%s: %s at pitch %s", s.Name, s.Kind, number(s.At, 0)))
		f.y += high
	}
	f.y += 2
}

// where returns what a station is, where it stands and how fast it is.
func (s Placed) where() string {
	text := fmt.Sprintf("%s, pitch %s", s.Kind, number(s.At, 0))
	if s.Rated != "" {
		text += ", " + s.Rated
	}
	return text
}
