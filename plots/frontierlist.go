package plots

import "image/color"

// roll lists the names of the points below the chart.
func (f *Figure) roll(d FrontierData) {
	f.y += 8
	var labels []string
	for _, p := range d.Points {
		labels = append(labels, nameFace.shorten(p.Label, 40))
	}
	left := margin + 16
	names := left + nameFace.widest(labels...) + 6
	for i, p := range d.Points {
		face, c, name := textFace, ink, p.Name
		switch {
		case p.Best:
			face, name = nameFace, "best: "+name
		case d.refused(p):
			c, name = muted, "over the limit: "+name
		}
		lines := face.wrap(name, f.right()-names, 2)
		if len(lines) == 0 && labels[i] == "" {
			continue
		}
		y := f.y + face.leading()
		at := point{margin + 6, y - 0.33*face.size}
		f.draw(p.dots(at, "")...)
		if d.refused(p) {
			f.bar(at.x-4, at.x+4, at.y, 8, color.NRGBA{R: 255, G: 255, B: 255, A: veil.A}, "")
		}
		f.draw(label{at: point{left, y}, text: labels[i], face: nameFace, colour: c})
		for k, line := range lines {
			f.draw(label{at: point{names, y + float64(k)*face.leading()}, text: line, face: face, colour: c})
		}
		f.y += float64(max(1, len(lines)))*face.leading() + 2
	}
	f.y += 3
}
