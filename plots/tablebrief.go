package plots

import (
	"io"
	"slices"
)

// WriteBrief writes the table for a terminal width characters wide, 80 if width is 0, in
// as few lines as it can: without its caption, under one line of headings, and of its columns
// only those that have a heading in brief, if any has.
func (t *Table) WriteBrief(w io.Writer, width int) error {
	if err := t.check(); err != nil {
		return err
	}
	return writeLines(w, t.brief().briefLines(orUsual(width)))
}

// briefLines returns the table with two blanks between its columns and texts as narrow as that
// wants; or with one blank, if that saves a line and no text would run into the next. If its
// columns find no room even so, it is parted.
func (t *Table) briefLines(width int) (least []string) {
	roomy, tight := screen(width), screen(width)
	tight.gap = 1
	pages := []paperSize{roomy}
	if !slices.ContainsFunc(t.Columns[1:], func(c Column) bool { return !c.counts() }) {
		pages = append(pages, tight)
	}
	for _, page := range pages {
		columns := page.fit(page.headed(t))
		if page.width(columns) > page.wide {
			continue
		}
		if all := (textBlock{columns, 1}).brief(len(t.Rows), page.gap); least == nil || len(all) < len(least) {
			least = all
		}
	}
	if least != nil {
		return least
	}
	for _, block := range pages[len(pages)-1].blocks(t) {
		least = append(least, block.brief(len(t.Rows), pages[len(pages)-1].gap)...)
	}
	return least
}

// brief returns the columns that have a heading in brief, under it; if none has, all that people
// read.
func (t *Table) brief() *Table {
	if !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Brief != "" }) {
		return t.read()
	}
	brief := Table{Rows: make([][]Entry, len(t.Rows)), Names: 1}
	for k, c := range t.Columns {
		if c.Brief == "" {
			continue
		}
		c.Title, c.Unit = c.Brief, ""
		brief.Columns = append(brief.Columns, c)
		for i, entries := range t.Rows {
			brief.Rows[i] = append(brief.Rows[i], entries[k])
		}
	}
	return &brief
}

// headed returns the columns, each heading on one line.
func (p paperSize) headed(t *Table) []textColumn {
	columns := p.columns(t)
	for k := range columns {
		columns[k].width = max(columns[k].width, p.longest(oneLine(columns[k].Title)))
	}
	return columns
}

// brief returns the headings and all rows.
func (b textBlock) brief(rows, gap int) []string {
	var cells [][]string
	for _, c := range b.columns {
		cells = append(cells, lines(oneLine(c.Title), c.width))
	}
	return append(b.set(footed(cells), gap), b.briefRows(rows, gap)...)
}

// briefRows returns the lines of all rows, the further ones of a name set in: no rule and no blank
// line parts them from the next row. Beside rows without a name goes on the one above.
func (b textBlock) briefRows(n, gap int) (out []string) {
	var name []string // what is left of it
	for i := range n {
		if own := b.columns[0].briefName(i); len(own) > 0 || i == 0 {
			out = append(out, b.set([][]string{name}, gap)...)
			name = own
		}
		high, cells := 1, [][]string{nil}
		for _, c := range b.columns[1:] {
			cell := lines(c.entries[i], c.width)
			cells, high = append(cells, cell), max(high, len(cell))
		}
		cells[0] = append(name, "")[:max(1, min(high, len(name)))]
		name = name[min(high, len(name)):]
		out = append(out, b.set(cells, gap)...)
	}
	return append(out, b.set([][]string{name}, gap)...)
}

// briefName returns the lines of an entry that names a row.
func (c textColumn) briefName(i int) []string {
	name := lines(c.entries[i], c.width)
	if len(name) < 2 || c.width <= 2*len(setIn) {
		return name
	}
	name = lines(c.entries[i], c.width-len(setIn))
	for k := range name[1:] {
		name[k+1] = setIn + name[k+1]
	}
	return name
}

const setIn = "  "
