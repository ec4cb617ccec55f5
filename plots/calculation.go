package plots

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A Calculation is a sheet of a workbook that works out its figures by formulas, so that who reads
// it can change what goes in and sees what comes of it.
type Calculation struct {
	Name    string // of the sheet
	Caption string // what it works out, and how far it may be off
	Columns []string
	Rows    []CalculationRow
	Chart   string // the key of the row of which the sheet shows bars; "" for none
}

// A CalculationRow is a figure of every column, in a cell each.
type CalculationRow struct {
	Key     string // by which formulas name it; not needed where none does
	Name    string // with its unit
	Values  []float64
	Formula string // instead of values; {key} is the row of that key in the same column, {key@1} in the first
	Format  string // of a spreadsheet, such as "#,##0.00"
	Head    bool   // the row is a heading of those below
}

// The first row with a figure, and the column of the first figure, counted from 1: above them stand
// the caption and the headings.
const (
	firstCalculated = 4
	firstFigure     = 2
)

// cell returns the place of a row's figure.
func (c *Calculation) cell(row, column int) string {
	name, err := excelize.CoordinatesToCellName(firstFigure+column, firstCalculated+row)
	if err != nil {
		panic("plots: a calculation of too many columns: " + err.Error())
	}
	return name
}

// formula returns the formula of a row in a column.
func (c *Calculation) formula(row, column int) string {
	text := c.Rows[row].Formula
	for k, other := range c.Rows {
		if other.Key != "" {
			text = strings.ReplaceAll(text, "{"+other.Key+"}", c.cell(k, column))
			text = strings.ReplaceAll(text, "{"+other.Key+"@1}", c.cell(k, 0))
		}
	}
	return text
}

// check notes what keeps the sheet from being written.
func (c *Calculation) check() error {
	var found check
	for i, r := range c.Rows {
		if !r.Head && r.Formula == "" && len(r.Values) != len(c.Columns) {
			found.note("calculation %q: %d values of %q for %d columns", c.Name, len(r.Values), r.Name, len(c.Columns))
		}
		if r.Formula != "" && strings.ContainsAny(c.formula(i, 0), "{}") {
			found.note("calculation %q: %q names a row that is not there: %s", c.Name, r.Name, c.formula(i, 0))
		}
	}
	return found.err()
}

// fill writes the sheet, which must be there.
func (c *Calculation) fill(book *excelize.File) error {
	s := sheet{book: book, name: c.Name}
	s.do(book.SetCellStr(c.Name, "A1", c.Caption))
	for k, name := range c.Columns {
		s.do(book.SetCellStr(c.Name, s.place(firstFigure+k, firstCalculated-1), name))
	}
	bold, err := book.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "bottom"}})
	s.do(err)
	wrapped, err := book.NewStyle(&excelize.Style{Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	s.do(err)
	last := s.place(firstFigure+len(c.Columns)-1, firstCalculated-1)
	s.do(book.SetCellStyle(c.Name, "A3", last, bold))
	s.do(book.MergeCell(c.Name, "A1", s.place(max(firstFigure+len(c.Columns)-1, 5), 1)))
	s.do(book.SetCellStyle(c.Name, "A1", "A1", wrapped))
	s.do(book.SetRowHeight(c.Name, 1, 62))
	for i, r := range c.Rows {
		at := s.place(1, firstCalculated+i)
		s.do(book.SetCellStr(c.Name, at, r.Name))
		if r.Head {
			s.do(book.SetCellStyle(c.Name, at, at, bold))
			continue
		}
		for k := range c.Columns {
			if r.Formula != "" {
				s.do(book.SetCellFormula(c.Name, c.cell(i, k), c.formula(i, k)))
			} else {
				s.do(book.SetCellFloat(c.Name, c.cell(i, k), r.Values[k], -1, 64))
			}
		}
		format := r.Format
		style := &excelize.Style{CustomNumFmt: &format}
		if r.Formula == "" { // what may be changed
			style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF7DC"}}
			style.Border = []excelize.Border{{Type: "bottom", Style: 4, Color: "8A7A3A"}}
		}
		id, err := book.NewStyle(style)
		s.do(err)
		s.do(book.SetCellStyle(c.Name, c.cell(i, 0), c.cell(i, len(c.Columns)-1), id))
	}
	s.do(book.SetColWidth(c.Name, "A", "A", 46))
	if len(c.Columns) > 0 {
		letter, err := excelize.ColumnNumberToName(firstFigure + len(c.Columns) - 1)
		s.do(err)
		s.do(book.SetColWidth(c.Name, "B", letter, 17))
	}
	s.do(book.SetPanes(c.Name, &excelize.Panes{
		Freeze: true, XSplit: 1, YSplit: firstCalculated - 1, TopLeftCell: "B4", ActivePane: "bottomRight",
	}))
	c.chart(&s)
	return s.err
}

// chart puts bars of a row below the figures.
func (c *Calculation) chart(s *sheet) {
	for i, r := range c.Rows {
		if c.Chart == "" || r.Key != c.Chart {
			continue
		}
		name := "'" + strings.ReplaceAll(c.Name, "'", "''") + "'!"
		first, last := s.place(firstFigure, firstCalculated-1), s.place(firstFigure+len(c.Columns)-1, firstCalculated-1)
		s.bars(s.place(1, firstCalculated+len(c.Rows)+1), r.Name,
			name+absolute(first)+":"+absolute(last), name+absolute(c.cell(i, 0))+":"+absolute(c.cell(i, len(c.Columns)-1)))
	}
}

// bars puts a chart of bars at a cell.
func (s *sheet) bars(at, title, names, values string) {
	off := false
	s.do(s.book.AddChart(s.name, at, &excelize.Chart{
		Type: excelize.Bar, Dimension: excelize.ChartDimension{Width: 620, Height: 280}, Legend: excelize.ChartLegend{Position: "none"},
		Title:      excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title}}},
		Series:     []excelize.ChartSeries{{Name: title, Categories: names, Values: values, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fmt.Sprintf("%02X%02X%02X", blue.R, blue.G, blue.B)}}}},
		XAxis:      excelize.ChartAxis{ReverseOrder: true},
		VaryColors: &off,
	}))
}

// absolute returns the name of a cell with its column and row fixed.
func absolute(cell string) string {
	column, row, err := excelize.CellNameToCoordinates(cell)
	if err != nil {
		panic("plots: no cell: " + cell)
	}
	name, err := excelize.CoordinatesToCellName(column, row, true)
	if err != nil {
		panic("plots: no cell: " + cell)
	}
	return name
}
