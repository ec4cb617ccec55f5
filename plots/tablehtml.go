package plots

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"
	"unicode/utf8"
)

//go:embed table.html.tmpl
var tableTemplate string

var tablePage = template.Must(template.New("table").Parse(tableTemplate))

// What fits on a page of A4 or Letter in the type of the report, and in
// smaller type.
var (
	sheetOfPaper = paperSize{wide: 84, gap: 3, measure: digitsWide}
	smallType    = paperSize{wide: 116, gap: 2, measure: digitsWide}
)

// digitsWide returns how many digits are as wide as the text.
func digitsWide(s string) int {
	const digit = 0.556 // of the size, in the one typeface
	return int(math.Ceil(textFace.width(s)/(digit*textFace.size) - 1e-6))
}

// WriteHTML writes the table as an element of a page. One that is too wide for a sheet
// of paper has the class "small"; columns that find no room even so stand in a second
// table below, beside those that name the rows. Numbers have the class "number", units
// the class "unit", a form "form", texts with a word too long for a line "long", and those of a column in which
// all are as short as a moment "brief"; the style is the page's.
func (t *Table) WriteHTML(w io.Writer) error {
	return t.html(w, "", "")
}

// onPaper returns the parts of the table, and whether they need the smaller type.
func (t *Table) onPaper() (parts []textBlock, small bool) {
	parts = sheetOfPaper.blocks(t)
	if len(parts) > 1 {
		if fewer := smallType.blocks(t); len(fewer) < len(parts) {
			return fewer, true
		}
	}
	return parts, false
}

// html writes the table under an id and after a label such as "Table 2", if given.
func (t *Table) html(w io.Writer, id, label string) error {
	if err := t.check(); err != nil {
		return err
	}
	t = t.read()
	more := 0
	if t.Most > 0 && len(t.Rows) > t.Most {
		more = len(t.Rows) - t.Most
		t.Rows = t.Rows[:t.Most]
	}
	grid := htmlTable{ID: id, Label: label, Name: oneLine(t.Name), Caption: firm(t.Caption), Form: t.Form}
	switch {
	case len(t.Rows) == 0:
		grid.Zero = noRows
	case t.zero():
		grid.Zero = allZero
	default:
		parts, small := t.onPaper()
		grid.Small = small
		for _, part := range parts {
			grid.Blocks = append(grid.Blocks, part.html(t))
		}
	}
	if more > 0 {
		grid.More = number(float64(more), 0) + " more stand in the workbook."
	}
	var b bytes.Buffer
	if err := tablePage.Execute(&b, grid); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}

// firm returns the text on one line, each percent sign kept beside its number.
func firm(s string) string { return strings.ReplaceAll(oneLine(s), " %", "\u00A0%") }

// briefText is how many characters a column has at most that is best kept on one line: moments, names of lines.
const briefText = 22

// shortName is how many characters the name of a row has at most that stays on one line.
const shortName = 8

// html returns the columns as a table of its own.
func (b textBlock) html(t *Table) (block htmlBlock) {
	for _, c := range b.columns {
		unit := c.unit()
		if utf8.RuneCountInString(unit) <= narrowText { // stays on one line
			unit = strings.ReplaceAll(unit, " ", "\u00A0")
		}
		block.Head = append(block.Head, htmlHeading{firm(c.Title), unit, c.counts()})
	}
	briefs := make([]bool, len(b.columns))
	for k, c := range b.columns {
		briefs[k] = paperSize{}.longest(c.entries...) <= briefText
	}
	for i := range t.Rows {
		row := htmlRow{Strong: i < len(t.Roles) && t.Roles[i] == Recommended}
		for k, c := range b.columns {
			class := ""
			switch {
			case c.counts():
				class = "number"
			case sheetOfPaper.longest(strings.Fields(c.entries[i])...) > wideText:
				class = "long"
			case briefs[k]:
				class = "brief"
			}
			text := c.entries[i]
			if k < b.names && utf8.RuneCountInString(text) <= shortName {
				text = strings.ReplaceAll(text, " ", "\u00A0") // G (best) stays on one line
			}
			row.Entries = append(row.Entries, htmlEntry{Text: text, Class: class, Names: k < b.names, Bar: t.barOf(c.of, i)})
		}
		block.Body = append(block.Body, row)
	}
	return block
}

// barOf returns the bar of a row in a column, from zero on; nil if there is none.
func (t *Table) barOf(column, row int) *htmlBar {
	if !t.Columns[column].Bar || !t.Columns[column].numeric(t.Rows[row][column]) {
		return nil
	}
	low, high := 0.0, 0.0
	for _, entries := range t.Rows {
		if t.Columns[column].numeric(entries[column]) {
			low, high = min(low, entries[column].Number), max(high, entries[column].Number)
		}
	}
	if !(high > low) || math.IsInf(high-low, 0) {
		return nil
	}
	fill := Base
	if row < len(t.Roles) {
		fill = t.Roles[row]
	}
	x, c := t.Rows[row][column].Number, fill.pen().colour
	at := func(x float64) float64 { return 100 * (x - low) / (high - low) }
	return &htmlBar{
		From: short(at(min(x, 0))), Wide: short(at(max(x, 0)) - at(min(x, 0))), Zero: short(at(0)),
		Fill: fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B),
	}
}

// What the template of a table fills in.
type (
	htmlTable struct {
		ID, Label, Name, Caption string
		Zero                     string // stands in the place of the rows
		More                     string // said below the rows
		Small, Form              bool
		Blocks                   []htmlBlock
	}
	htmlBlock struct {
		Head []htmlHeading
		Body []htmlRow
	}
	htmlRow struct {
		Strong  bool
		Entries []htmlEntry
	}
	htmlHeading struct {
		Title, Unit string
		Counts      bool // numbers stand below it
	}
	htmlEntry struct {
		Text, Class string
		Names       bool // names its row
		Bar         *htmlBar
	}
	htmlBar struct {
		From, Wide, Zero string // percent of the width
		Fill             string
	}
)
