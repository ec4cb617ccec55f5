package plots

import (
	"math"
	"slices"
)

// HeatData shows a figure over two parameters.
type HeatData struct {
	Head
	Axis       string      // what is measured, with its unit
	Across, Up string      // the parameters, with their units
	Columns    []string    // values of the first parameter, from left to right
	Rows       []string    // values of the second, from top to bottom
	Cells      [][]float64 // a row for each of Rows; NaN where nothing was simulated
	Says       [][]string  // the cells as people read them; nil for their numbers
	Best       *Cell       // framed if not nil
}

// A Cell is a place in a table, counted from 0.
type Cell struct{ Row, Column int }

// Heat draws a table whose cells are the darker the larger their number. A cell
// overlaps the next by 0.3 points, so that no hairline shows between them.
func Heat(d HeatData) (*Figure, error) {
	c, known := d.check()
	f, err := begin(d.Head, c, len(known) > 0)
	if err != nil || f.done() {
		return f, err
	}
	places := digits(known...)
	low, high := slices.Min(known), slices.Max(known)
	if high > low {
		f.ramp(d.called(low, places), d.called(high, places), d.Axis)
	}
	f.paragraph(d.Up, textFace, muted, 2)
	f.y += 4
	t := d.lay(f)
	for i := range d.Rows {
		f.aside(t, i, d.Rows[i])
	}
	small := d.face(t, places)
	for i, cells := range d.Cells {
		for k, x := range cells {
			f.cell(t, i, k, x, d.Rows[i]+", "+d.Columns[k], low, high, d.says(i, k, places), small)
		}
	}
	if d.Best != nil {
		corners := rect(t.x(d.Best.Column), t.y(d.Best.Row), t.x(d.Best.Column+1), t.y(d.Best.Row+1))
		frame := append(corners, corners[0], corners[1])
		f.draw( // on white, to be seen on light cells and on dark ones
			stroke{points: frame, pen: pen{colour: paper, width: 3}},
			stroke{points: frame, pen: pen{colour: ink, width: 1.6}})
	}
	f.headings(t, d.Columns)
	for _, line := range textFace.wrap(d.Across, f.inner(), 2) {
		f.y += textFace.leading()
		f.draw(f.centred((t.left+t.x(len(d.Columns)))/2, f.y-2, line, textFace, muted))
	}
	if d.Best != nil {
		return f.end("Framed: the best cell."), nil
	}
	return f.end(), nil
}

// check also returns the numbers of the cells.
func (d HeatData) check() (c check, known []float64) {
	if len(d.Cells) != len(d.Rows) {
		c.note("%d rows of cells for %d named ones", len(d.Cells), len(d.Rows))
	}
	for i, cells := range d.Cells {
		if len(cells) != len(d.Columns) {
			c.note("%d cells in row %d, want %d", len(cells), i, len(d.Columns))
		}
		for k, x := range cells {
			if !math.IsNaN(x) {
				c.number(x, "the cell in row %d, column %d", i, k)
				known = append(known, x)
			}
		}
	}
	if b := d.Best; b != nil && (b.Row < 0 || b.Row >= len(d.Rows) || b.Column < 0 || b.Column >= len(d.Columns)) {
		c.note("the best cell %v is not in the table", *b)
	}
	return c, known
}

// says returns a cell as people read it.
func (d HeatData) says(i, k, places int) string {
	switch {
	case math.IsNaN(d.Cells[i][k]):
		return "–"
	case i < len(d.Says) && k < len(d.Says[i]):
		return d.Says[i][k]
	}
	return number(d.Cells[i][k], places)
}

// called returns a number as the first cell that has it says it.
func (d HeatData) called(x float64, places int) string {
	for i, cells := range d.Cells {
		if k := slices.Index(cells, x); k >= 0 {
			return d.says(i, k, places)
		}
	}
	return number(x, places)
}

// A table is where cells lie.
type table struct {
	left, top, wide, high float64 // wide and high is a cell
	rows                  int
}

func (t table) x(column int) float64 { return t.left + float64(column)*t.wide }
func (t table) y(row int) float64    { return t.top + float64(row)*t.high }

// lay places the table: over the whole width, but no cell wider than 72 points.
func (d HeatData) lay(f *Figure) table {
	left := margin + min(textFace.widest(d.Rows...), mostGutter/1.5) + gap/2
	return table{left, f.y, min(72, (f.right()-left)/float64(len(d.Columns))), 24, len(d.Rows)}
}

// face returns the largest face in which every number fits its cell, from 9 points
// to 7.
func (d HeatData) face(t table, places int) face {
	var said []string
	for i, cells := range d.Cells {
		for k := range cells {
			said = append(said, d.says(i, k, places))
		}
	}
	return fitted(textFace, 7, t.wide-3, said...)
}

// fitted returns the face, made smaller, though not below least points, until each
// text is no wider than width.
func fitted(f face, least, width float64, texts ...string) face {
	for f.size > least && f.widest(texts...) > width {
		f.size -= 0.5
	}
	return f
}

// aside sets the name of a row to the left of the table, in two lines at most.
func (f *Figure) aside(t table, row int, name string) {
	right := t.left - gap/2
	face := textFace
	if face.width(name) > right-margin {
		face = smallFace // two lines stand clear of those of the next row
	}
	lines := face.wrap(name, right-margin, 2)
	y := t.y(row) + t.high/2 - float64(len(lines)-1)*face.leading()/2
	for _, line := range lines {
		f.beside(right, y, 1, line, face)
		y += face.leading()
	}
}

// headings sets the names of the columns below the table, in three lines at most,
// and moves on below them.
func (f *Figure) headings(t table, names []string) {
	face := fitted(textFace, 7, t.wide-3, names...)
	foot := t.y(t.rows) + 2
	f.y = foot
	for k, name := range names {
		y := foot
		for _, line := range face.wrap(name, t.wide-3, 3) {
			y += face.leading()
			f.draw(f.centred(t.x(k)+t.wide/2, y-0.2*face.size, line, face, muted))
		}
		f.y = max(f.y, y)
	}
	f.y += 4
}

func (f *Figure) cell(t table, i, k int, x float64, name string, low, high float64, says string, face face) {
	const overlap = 0.3
	fill := tint(grid, 0.4)
	if !math.IsNaN(x) {
		fill = shade(x, low, high)
	}
	f.draw(area{corners: rect(t.x(k), t.y(i), t.x(k+1)+overlap, t.y(i+1)+overlap), fill: fill, tip: name + ": " + says})
	if face.width(says) > t.wide-1 {
		return // the tip has it, and the ramp
	}
	f.draw(label{at: point{t.x(k) + t.wide/2, t.y(i) + t.high/2 + face.middle()}, align: 0.5, text: says, face: face, colour: textOn(fill)})
}

// shade returns the colour of x, the darker the larger.
func shade(x, low, high float64) colour {
	share := 0.5
	if high > low {
		share = (x - low) / (high - low)
	}
	pale, middle, dark := tint(sky, 0.12), sky, rgb(0x003358)
	if share < 0.5 {
		return mix(pale, middle, 2*share)
	}
	return mix(middle, dark, 2*share-1)
}

// ramp draws what the shades mean, from the least number to the largest.
func (f *Figure) ramp(before, after, shows string) {
	const parts, wide = 10, 9.0
	x, y := margin, f.y+7
	f.beside(x, y, 0, before, smallFace)
	x += smallFace.width(before) + 4
	for i := range parts {
		f.bar(x, x+wide+0.3, y, 9, shade(float64(i), 0, parts-1), "")
		x += wide
	}
	f.beside(x+4, y, 0, after, smallFace)
	x += 4 + smallFace.width(after) + 12
	f.beside(x, y, 0, smallFace.shorten(shows, f.right()-x), smallFace)
	f.y += 22
}
