package plots

// asides are notes at the right of rows, in two lines at most.
type asides struct {
	left  float64 // where they begin
	lines [][]string
}

// asides lays out notes, one for each row, and returns where what they are beside may end.
func (f *Figure) asides(notes []string) (a asides, to float64) {
	const most = 100
	widest := 0.0
	for _, note := range notes {
		lines := smallFace.wrap(note, most, 2)
		a.lines = append(a.lines, lines)
		widest = max(widest, smallFace.widest(lines...))
	}
	a.left = f.right() - widest
	if widest == 0 {
		return a, f.right() - 4
	}
	return a, a.left - gap
}

// draw sets the note of row i, level with y.
func (a asides) draw(f *Figure, i int, y float64) { f.block(a.left, y, a.lines[i], smallFace) }
