package plots

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"strings"
)

//go:embed table.html.tmpl
var tableTemplate string

var tablePage = template.Must(template.New("table").Parse(tableTemplate))

// sheetOfPaper is what fits on a page of A4 or Letter in the type of the report.
var sheetOfPaper = paperSize{wide: 84, gap: 3}

// WriteHTML writes the table as an element of a page. Columns that find no room on a
// sheet of paper stand in a second table below, beside the first column once
// more. Numbers have the class "number", units the class "unit"; the style is the
// page's.
func (t *Table) WriteHTML(w io.Writer) error {
	return t.html(w, "", "")
}

// html writes the table under an id and after a label such as "Table 2", if given.
func (t *Table) html(w io.Writer, id, label string) error {
	if err := t.check(); err != nil {
		return err
	}
	grid := htmlTable{ID: id, Label: label, Name: oneLine(t.Name), Caption: oneLine(t.Caption)}
	for _, columns := range t.blocks(sheetOfPaper) {
		grid.Blocks = append(grid.Blocks, columns.html(len(t.Rows)))
	}
	var b bytes.Buffer
	if err := tablePage.Execute(&b, grid); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}

// html returns the columns as a table of its own.
func (b textBlock) html(rows int) (block htmlBlock) {
	for _, c := range b {
		unit := c.unit()
		if longest(unit) <= narrowText { // stays on one line
			unit = strings.ReplaceAll(unit, " ", "\u00A0")
		}
		block.Head = append(block.Head, htmlHeading{oneLine(c.Title), unit, c.counts()})
	}
	for i := range rows {
		var row []htmlEntry
		for k, c := range b {
			row = append(row, htmlEntry{Text: c.entries[i], Counts: c.counts(), Names: k == 0 && !c.counts()})
		}
		block.Body = append(block.Body, row)
	}
	return block
}

// What the template of a table fills in.
type (
	htmlTable struct {
		ID, Label, Name, Caption string
		Blocks                   []htmlBlock
	}
	htmlBlock struct {
		Head []htmlHeading
		Body [][]htmlEntry
	}
	htmlHeading struct {
		Title, Unit string
		Counts      bool // numbers stand below it
	}
	htmlEntry struct {
		Text   string
		Counts bool // stands in a column of numbers
		Names  bool // names its row
	}
)
