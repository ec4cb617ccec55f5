package plots

import "strings"

// A coverageTable is where the cells of a coverage stand, and what is said in them.
type coverageTable struct {
	column  column // of the jobs
	left    float64
	wide    float64 // of a column
	face    face
	cells   [][]wording
	reasons letters // the reasons that stand below; none if all have room in their cells
}

// place returns the place of a cell.
func (t coverageTable) place(row, k int) box {
	r := t.column.rows[row]
	left := t.left + float64(k)*t.wide
	return box{left + 1.5, r.top + 1.5, left + t.wide - 1.5, r.bottom - 1.5}
}

// lay chooses the largest face in which every cell has room for its words; if there is
// none, letters stand for the reasons.
func (d CoverageData) lay(f *Figure) coverageTable {
	notes := make([]string, len(d.Jobs))
	for i := range d.Jobs {
		if said := d.runsOn(i); strings.HasPrefix(said, "no ") {
			notes[i] = said
		}
	}
	names := min(mostGutter, 0.31*f.width)
	if len(d.Lines) > 4 {
		names *= 0.7 // the cells need the width
	}
	t := coverageTable{column: f.narrow(d.Jobs, notes, nameFace, 0, names)}
	t.left = max(t.column.right, margin+textFace.width(jobsItRuns)) + gap/2
	t.wide = min(110, (f.right()-t.left)/float64(len(d.Lines)))
	for t.face = textFace; t.face.size >= 7; t.face.size -= 0.5 {
		if d.roomy(t) {
			t.cells = d.worded(t, func(why string) string { return why })
			return t
		}
	}
	t.face = smallFace
	for t.face.size > 5.5 && !d.brief(t) {
		t.face.size -= 0.5
	}
	t.cells = d.worded(t, t.reasons.of)
	return t
}

// mostCellLines is how many lines a cell has at most.
const mostCellLines = 4

// inside returns the room for words in a cell.
func (t coverageTable) inside() float64 { return t.wide - 9 }

// roomy tells whether every cell has room for all its words, and breaks none.
func (d CoverageData) roomy(t coverageTable) bool {
	for _, cells := range d.Cells {
		for _, a := range cells {
			_, why := a.words()
			lines := t.face.wrap(why, t.inside(), mostCellLines)
			if len(lines) == mostCellLines || t.face.widest(strings.Fields(why)...) > t.inside() {
				return false
			}
		}
	}
	return d.brief(t)
}

// brief tells whether every cell has room for the words in bold.
func (d CoverageData) brief(t coverageTable) bool {
	for _, cells := range d.Cells {
		for _, a := range cells {
			if says, _ := a.words(); bold(t.face).width(says) > t.inside() {
				return false
			}
		}
	}
	return true
}

// worded returns the lines of each cell, the reason as reason gives it.
func (d CoverageData) worded(t coverageTable, reason func(why string) string) [][]wording {
	all := make([][]wording, len(d.Cells))
	for i, cells := range d.Cells {
		for _, a := range cells {
			says, why := a.words()
			w := wording{set: true, lines: []string{bold(t.face).shorten(says, t.inside())}}
			if why = strings.Join(strings.Fields(why), " "); why != "" {
				w.lines = append(w.lines, t.face.wrap(reason(why), t.inside(), mostCellLines-1)...)
			}
			all[i] = append(all[i], w)
		}
	}
	return all
}

// stand gives each row the height that its name and its cells need, and moves on below
// them.
func (t coverageTable) stand(f *Figure) {
	for i := range t.column.rows {
		r := &t.column.rows[i]
		high := r.high(t.column.face)
		for _, w := range t.cells[i] {
			high = max(high, float64(len(w.lines))*t.face.leading())
		}
		r.top, r.bottom = f.y, f.y+high+9
		f.y = r.bottom
	}
}

// draw returns the cell of an ability.
func (a Ability) draw(b box, tip string) []mark {
	corners := rect(b.left, b.top, b.right, b.bottom)
	if a.Runs {
		return []mark{area{corners: corners, fill: tint(sky, 0.38), tip: tip}}
	}
	return []mark{
		area{corners: corners, fill: paper, tip: tip},
		stroke{points: append(corners, corners[0]), pen: pen{colour: faint, width: 0.8, dashes: []float64{2, 2}}},
	}
}

// ability draws a cell and what is said in it.
func (f *Figure) ability(a Ability, said wording, b box, face face, tip string) {
	f.draw(a.draw(b, tip)...)
	y := (b.top+b.bottom)/2 - float64(len(said.lines))*face.leading()/2
	for i, line := range said.lines {
		line := label{at: point{b.left + 3, y + 0.78*face.leading()}, text: line, face: face, colour: ink}
		line.face.bold = i == 0
		f.draw(line)
		y += face.leading()
	}
}
