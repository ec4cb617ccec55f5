package plots

import "image/color"

// fewListed is how many points are listed in one column, mostNameLines how many lines a name may
// have (one that is cut does not say what it stands for), and widestLabel how much of a label is
// shown, points.
const fewListed, mostNameLines, widestLabel = 6, 8, 40.0

// roll lists the names of the points below the chart: those within the limit, then those over it.
func (f *Figure) roll(d FrontierData) {
	f.y += 8
	var within, over []FrontierPoint
	for _, p := range d.Points {
		if d.refused(p) {
			over = append(over, p)
		} else {
			within = append(within, p)
		}
	}
	f.entries(d, within)
	if len(over) > 0 {
		f.y += 4
		f.paragraph("Over the limit:", textFace, muted, 1)
		f.entries(d, over)
	}
	f.y += 3
}

// entries lists the names of some points, in two columns where there are many.
func (f *Figure) entries(d FrontierData, points []FrontierPoint) {
	const between = 12.0
	columns, wide := 1, f.inner()
	if len(points) > fewListed && f.width > narrowWidth {
		columns, wide = 2, (f.inner()-between)/2
	}
	rows := (len(points) + columns - 1) / columns
	top, bottom := f.y, f.y
	for i, p := range points {
		if i%rows == 0 { // a new column
			f.y = top
		}
		left := margin + float64(i/rows)*(wide+between)
		f.entry(d, p, left, left+wide)
		bottom = max(bottom, f.y)
	}
	f.y = bottom
}

// entry lists one point between left and right: its dot, its letter and its name.
func (f *Figure) entry(d FrontierData, p FrontierPoint, left, right float64) {
	face, c, name := textFace, ink, p.Name
	switch {
	case p.Best:
		face, name = nameFace, "best: "+name
	case d.refused(p):
		c = muted
	}
	names := left + d.indent()
	lines := face.wrap(name, right-names, mostNameLines)
	if len(lines) == 0 && p.Label == "" {
		return
	}
	y := f.y + face.leading()
	at := point{left + 6, y - 0.33*face.size}
	f.draw(p.dots(at, "")...)
	if d.refused(p) {
		f.bar(at.x-4, at.x+4, at.y, 8, color.NRGBA{R: 255, G: 255, B: 255, A: veil.A}, "")
	}
	f.draw(label{at: point{left + 16, y}, text: nameFace.shorten(p.Label, widestLabel), face: nameFace, colour: c})
	for k, line := range lines {
		f.draw(label{at: point{names, y + float64(k)*face.leading()}, text: line, face: face, colour: c})
	}
	f.y += float64(max(1, len(lines)))*face.leading() + 2
}

// indent is how far right of its dot a name begins.
func (d FrontierData) indent() float64 {
	widest := 0.0
	for _, p := range d.Points {
		widest = max(widest, nameFace.width(nameFace.shorten(p.Label, widestLabel)))
	}
	return 16 + widest + 6
}
