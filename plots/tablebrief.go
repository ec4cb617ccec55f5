package plots

import (
	"io"
	"slices"
)

// WriteBrief writes the table for a terminal of so many characters across, 80 if width is 0, in
// as few lines as it can: without its caption, under one line of headings, and of its columns
// only those that have a heading in brief, if any has.
func (t *Table) WriteBrief(w io.Writer, width int) error {
	if err := t.check(); err != nil {
		return err
	}
	t = t.brief()
	page, blocks := briefly(t, orUsual(width))
	var out []string
	for _, block := range blocks {
		out = append(out, block.briefHeading(page.gap)...)
		for row := range t.Rows {
			out = append(out, block.briefRow(row, page.gap)...)
		}
	}
	return writeLines(w, out)
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

// briefly finds room for all columns: if need be with less between them, then with narrower
// texts, then with headings of several lines, and in the end in parts.
func briefly(t *Table, width int) (paperSize, []textBlock) {
	roomy, tight := screen(width), screen(width)
	tight.gap = 1
	for _, page := range []paperSize{roomy, tight} {
		if columns := page.headed(t); page.width(columns) <= page.wide {
			return page, []textBlock{{columns, 1}}
		}
	}
	if columns := tight.fit(tight.headed(t)); tight.width(columns) <= tight.wide {
		return tight, []textBlock{{columns, 1}}
	}
	return tight, tight.blocks(t)
}

// headed returns the columns, each heading on one line.
func (p paperSize) headed(t *Table) []textColumn {
	columns := p.columns(t)
	for k := range columns {
		columns[k].width = max(columns[k].width, p.longest(oneLine(columns[k].Title)))
	}
	return columns
}

func (b textBlock) briefHeading(gap int) []string {
	var cells [][]string
	for _, c := range b.columns {
		cells = append(cells, lines(oneLine(c.Title), c.width))
	}
	return b.set(footed(cells), gap)
}

// briefRow returns the lines of a row, the further ones of its name set in: no rule and no blank
// line parts them from the next row.
func (b textBlock) briefRow(i, gap int) []string {
	c := b.columns[0]
	name := lines(c.entries[i], c.width)
	if len(name) > 1 && c.width > 2*len(setIn) {
		name = lines(c.entries[i], c.width-len(setIn))
		for k := range name[1:] {
			name[k+1] = setIn + name[k+1]
		}
	}
	cells := [][]string{append(name, "")[:max(1, len(name))]}
	for _, c := range b.columns[1:] {
		cells = append(cells, lines(c.entries[i], c.width))
	}
	return b.set(cells, gap)
}

const setIn = "  "
