package plots

// A stack is a bar of several parts, laid out.
type stack struct {
	total float64
	parts []stacked
	below []string // lines below the bar: the parts too short for their numbers
}

// A stacked is a part of a bar.
type stacked struct {
	span
	fill      colour
	says, tip string // says is empty if it has no room
}

// stack lays out a bar; lines below it are wide at most. Its numbers have the given
// decimals, the smallest more.
func (d FatesData) stack(b FateBar, a axis, looks []colour, signs []string, wide float64, places int) stack {
	s := stack{total: b.total()}
	var short []string
	at := 0.0
	for i, x := range b.Amounts {
		if x == 0 {
			continue
		}
		p := stacked{span: span{at, at + x}, fill: looks[i]}
		at += x
		n := number(x, max(places, decimals(x, 2)))
		full, brief := d.Parts[i].says()+" "+n, signs[i]+" "+n
		p.tip = b.Name + ": " + full
		switch room := a.at(p.to) - a.at(p.from) - 6; {
		case smallFace.width(full) <= room:
			p.says = full
		case smallFace.width(brief) <= room:
			p.says = brief
		default:
			short = append(short, brief)
		}
		s.parts = append(s.parts, p)
	}
	s.below = flow(smallFace, short, wide, 3)
	return s
}

// flow sets items one after the other in at most most lines no wider than wide. What
// does not fit ends in "…".
func flow(face face, items []string, wide float64, most int) (lines []string) {
	for _, item := range items {
		last := len(lines) - 1
		switch {
		case last < 0 || face.width(lines[last]+" · "+item) > wide && len(lines) < most:
			lines = append(lines, item)
		default:
			lines[last] += " · " + item
		}
	}
	for i := range lines {
		lines[i] = face.shorten(lines[i], wide)
	}
	return lines
}

// stack draws a bar around y, with the lines below it.
func (f *Figure) stack(s stack, a axis, y float64, total string) {
	const high = 16.0
	for _, p := range s.parts {
		from, to := a.at(p.from), max(a.at(p.to), a.at(p.from)+narrowest)
		f.bar(from, to, y, high, p.fill, p.tip)
		if to-from > 3 { // a white edge between neighbours
			f.upright(to-0.3, y-high/2, y+high/2, pen{colour: paper, width: 0.6})
		}
		if p.says != "" {
			f.draw(label{at: point{(from + to) / 2, y + smallFace.middle()}, align: 0.5, text: p.says, face: smallFace, colour: textOn(p.fill)})
		}
	}
	f.beside(a.at(s.total)+5, y, 0, total, nameFace)
	for i, line := range s.below {
		f.beside(a.from+4, y+high/2+(float64(i)+0.6)*smallFace.leading(), 0, line, smallFace)
	}
}
