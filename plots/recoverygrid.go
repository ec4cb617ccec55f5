package plots

import "strings"

// A pocketTable is where the pockets of a recovery stand.
type pocketTable struct {
	left, wide float64 // of the first column; of each column
	between    float64 // rows
	names      float64 // width of the names of the cycles
	notes      float64 // width of the notes; they stand below if it is 0
	face       face
	rows       []pocketRow
}

// A pocketRow is a cycle.
type pocketRow struct {
	top, bottom, high float64
	pockets           []wording
	notes             []string
}

// padding is what a pocket leaves free at its left and right, together.
const padding = 10

// x returns where column k begins.
func (t pocketTable) x(k int) float64 { return t.left + float64(k)*t.wide }

// cell returns the place of a pocket.
func (t pocketTable) cell(row, k int) box {
	return box{t.x(k) + 2, t.rows[row].top, t.x(k+1) - 2, t.rows[row].bottom}
}

// under returns the room for notes below a row.
func (t pocketTable) under(row int) float64 {
	if t.notes > 0 {
		return 0
	}
	return float64(len(t.rows[row].notes)) * textFace.leading()
}

// lay gives every column and row its size.
func (d RecoveryData) lay(f *Figure) pocketTable {
	var names, notes []string
	for _, c := range d.Cycles {
		names, notes = append(names, c.Name), append(notes, c.Note)
	}
	t := pocketTable{between: 11, names: min(nameFace.widest(names...), 0.12*f.width)}
	t.left = margin + t.names + gap/2
	across := f.right() - t.left
	if w := textFace.widest(notes...); w > 0 {
		t.notes = min(w, 0.27*f.inner())
	}
	if n := float64(len(d.Stations)); (across-t.notes-gap)/n >= 54 {
		t.wide = min(96, (across-t.notes-gap)/n)
	} else {
		t.notes, t.wide = 0, across/n
	}
	t.face = textFace
	for t.face.size > 6 && !d.unbroken(t) {
		t.face.size -= 0.5
	}
	for _, c := range d.Cycles {
		t.rows = append(t.rows, t.row(c, across))
	}
	return t
}

// unbroken tells whether no word of a pocket has to be broken.
func (d RecoveryData) unbroken(t pocketTable) bool {
	for _, c := range d.Cycles {
		for _, p := range c.Pockets {
			if !p.unbroken(t.face, t.wide-padding) {
				return false
			}
		}
	}
	return true
}

// row returns a cycle laid out: as high as its fullest pocket needs, and its note.
func (t pocketTable) row(c Cycle, across float64) pocketRow {
	const most = 4
	r := pocketRow{}
	lines := 1
	for _, p := range c.Pockets {
		said := p.wording(t.face, t.wide-padding, most)
		r.pockets = append(r.pockets, said)
		lines = max(lines, len(said.lines))
	}
	r.high = float64(lines)*t.face.leading() + 7
	name := float64(len(nameFace.wrap(c.Name, t.names, 2))) * nameFace.leading()
	if t.notes > 0 {
		r.notes = textFace.wrap(c.Note, t.notes, 6)
		r.high = max(r.high, float64(len(r.notes))*textFace.leading())
	} else {
		r.notes = textFace.wrap(c.Note, across, 3)
	}
	r.high = max(r.high, name)
	return r
}

// heads draws the names of columns, which begin at left and are wide each, above a
// table.
func (f *Figure) heads(names []string, left, wide float64) {
	face := fitted(nameFace, 6, wide-4, strings.Fields(strings.Join(names, " "))...)
	most := 1
	var set [][]string
	for _, name := range names {
		set = append(set, face.wrap(name, wide-4, 3))
		most = max(most, len(set[len(set)-1]))
	}
	foot := f.y + float64(most)*face.leading()
	for k, lines := range set {
		for i, line := range lines {
			y := foot - float64(len(lines)-1-i)*face.leading()
			f.draw(f.centred(left+(float64(k)+0.5)*wide, y-2, line, face, ink))
		}
	}
	f.y = foot + 5
}

// stand places the rows one below the other, and moves on below them.
func (t pocketTable) stand(f *Figure) {
	for i := range t.rows {
		r := &t.rows[i]
		r.top, r.bottom = f.y, f.y+r.high
		f.y = r.bottom + t.under(i) + t.between
	}
	f.y -= t.between - 4
}

// trails draws a line from each set to where it stands next.
func (f *Figure) trails(d RecoveryData, t pocketTable) {
	last := map[string]point{}
	for i, c := range d.Cycles {
		for k, p := range c.Pockets {
			if p.Set == "" {
				continue
			}
			b := t.cell(i, k)
			middle := (b.left + b.right) / 2
			if from, ok := last[p.Set]; ok {
				f.draw(stroke{points: []point{from, {middle, b.top}}, pen: pen{colour: muted, width: 0.8}})
			}
			last[p.Set] = point{middle, b.bottom}
		}
	}
}

// cycle draws row i.
func (f *Figure) cycle(d RecoveryData, c Cycle, t pocketTable, i int) {
	r := t.rows[i]
	middle := (r.top + r.bottom) / 2
	f.block(margin, middle, nameFace.wrap(c.Name, t.names, 2), nameFace)
	for k, p := range c.Pockets {
		if p != (Pocket{}) {
			f.pocket(p, t.cell(i, k), r.pockets[k], t.face, p.tip(c.Name, d.Stations[k]))
		}
	}
	if t.notes > 0 {
		f.block(f.right()-t.notes, middle, r.notes, textFace)
		return
	}
	middle = r.bottom + 2 + t.under(i)/2
	if w := textFace.widest(r.notes...); w > 0 { // hides the trails
		f.bar(t.left, t.left+w+4, middle, t.under(i), paper, "")
	}
	f.block(t.left+2, middle, r.notes, textFace)
}

// block draws lines flush left, the middle of them level with y.
func (f *Figure) block(x, y float64, lines []string, face face) {
	y -= float64(len(lines)-1) * face.leading() / 2
	for _, line := range lines {
		f.beside(x, y, 0, line, face)
		y += face.leading()
	}
}
