package plots

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// WriteXLSX writes a workbook with a sheet for each table, named after it as far as
// sheets can be. Numbers are numbers, with a format that shows their decimals; a
// share is a percentage. Text stays text, also if it begins with "=". The headings
// stay in sight, and are repeated on each page of a print. The same tables give the
// same bytes. It wants one table at least.
//
// Sheets that work out their figures stand behind those of the tables.
func WriteXLSX(w io.Writer, tables []Table, calculations ...Calculation) error {
	if len(tables) == 0 {
		return errors.New("plots: a workbook needs a table")
	}
	var c check
	for i := range tables {
		if err := tables[i].check(); err != nil {
			c.errs = append(c.errs, err)
		}
	}
	for i := range calculations {
		if err := calculations[i].check(); err != nil {
			c.errs = append(c.errs, err)
		}
	}
	if err := c.err(); err != nil {
		return err
	}
	book := excelize.NewFile()
	fill := func() error {
		if err := fixProperties(book); err != nil {
			return err
		}
		named := slices.Clone(tables)
		for _, x := range calculations {
			named = append(named, Table{Name: x.Name})
		}
		for i, name := range sheetNames(named) {
			if i < len(tables) {
				if err := addSheet(book, i, name, &tables[i]); err != nil {
					return err
				}
				continue
			}
			x := calculations[i-len(tables)]
			x.Name = name
			if _, err := book.NewSheet(name); err != nil {
				return err
			}
			if err := x.fill(book); err != nil {
				return err
			}
		}
		if types := book.ContentTypes; types != nil { // which a chart adds to in no order
			sort.Slice(types.Defaults, func(i, k int) bool { return types.Defaults[i].Extension < types.Defaults[k].Extension })
		}
		return book.Write(w)
	}
	if err := errors.Join(fill(), book.Close()); err != nil {
		return fmt.Errorf("plots: workbook: %w", err)
	}
	return nil
}

// fixProperties sets what the library would otherwise take from elsewhere. The date
// says nothing; the format wants one.
func fixProperties(book *excelize.File) error {
	const day = "2000-01-01T00:00:00Z"
	return book.SetDocProps(&excelize.DocProperties{
		Creator: "netrate", LastModifiedBy: "netrate", Created: day, Modified: day, Language: "en",
	})
}

// addSheet fills sheet i; the first one is there in a new workbook.
func addSheet(book *excelize.File, i int, name string, t *Table) error {
	if i == 0 {
		if err := book.SetSheetName(book.GetSheetName(0), name); err != nil {
			return err
		}
	} else if _, err := book.NewSheet(name); err != nil {
		return err
	}
	s := sheet{book: book, name: name, rows: len(t.Rows)}
	for k, c := range t.Columns {
		column := make([]Entry, len(t.Rows))
		for r, entries := range t.Rows {
			column[r] = entries[k]
		}
		s.column(k+1, c, column)
	}
	s.finish(t)
	s.chartOf(t)
	return s.err
}

// A sheet is a page of a workbook that is being filled. It keeps the first error.
type sheet struct {
	book *excelize.File
	name string
	rows int // below the headings
	err  error
}

func (s *sheet) do(err error) {
	if s.err == nil {
		s.err = err
	}
}

// column fills column k, counted from 1, and formats it.
func (s *sheet) column(k int, c Column, entries []Entry) {
	heading := c.heading()
	s.do(s.book.SetCellStr(s.name, s.place(k, 1), heading))
	widest := 0
	for r, e := range entries {
		at := s.place(k, r+2)
		if c.numeric(e) {
			s.do(s.book.SetCellFloat(s.name, at, e.Number, -1, 64))
		} else if text := oneLine(e.Text); text != "" {
			s.do(s.book.SetCellStr(s.name, at, text))
		}
		widest = max(widest, utf8.RuneCountInString(c.shown(e)))
	}
	letter, err := excelize.ColumnNumberToName(k)
	s.do(err)
	width := min(60, max(10, widest, min(utf8.RuneCountInString(heading), 22))) + 2
	s.do(s.book.SetColWidth(s.name, letter, letter, float64(width)))
	s.look(k, 1, 1, &excelize.Style{
		Font:      &excelize.Font{Bold: true},
		Border:    []excelize.Border{{Type: "bottom", Style: 1, Color: "000000"}},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "bottom", Horizontal: side(c)},
	})
	if s.rows > 0 {
		format := c.format()
		s.look(k, 2, s.rows+1, &excelize.Style{
			CustomNumFmt: &format,
			Alignment:    &excelize.Alignment{Horizontal: side(c), Vertical: "top", WrapText: !c.counts()},
		})
	}
}

// look sets the style of column k from one row to another.
func (s *sheet) look(k, from, to int, style *excelize.Style) {
	id, err := s.book.NewStyle(style)
	s.do(err)
	s.do(s.book.SetCellStyle(s.name, s.place(k, from), s.place(k, to), id))
}

// place returns the name of a cell, as in B3.
func (s *sheet) place(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	s.do(err)
	return name
}

// finish keeps the headings in sight and sets how the sheet is printed.
func (s *sheet) finish(t *Table) {
	s.do(s.book.SetPanes(s.name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	s.do(s.book.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Titles", RefersTo: "'" + strings.ReplaceAll(s.name, "'", "''") + "'!$1:$1", Scope: s.name,
	}))
	fit, across, down := true, 1, 0
	s.do(s.book.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	s.do(s.book.SetPageLayout(s.name, &excelize.PageLayoutOptions{FitToWidth: &across, FitToHeight: &down}))
	if caption := lines(oneLine(t.Caption), 120); len(caption) > 0 { // a header holds 255 characters
		s.do(s.book.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddHeader: "&L" + strings.ReplaceAll(caption[0], "&", "&&")}))
	}
}

// chartOf puts a chart below the rows of the first column that has bars in a page.
func (s *sheet) chartOf(t *Table) {
	for k, c := range t.Columns {
		if c.Bar && s.rows > 0 {
			name := "'" + strings.ReplaceAll(s.name, "'", "''") + "'!"
			span := func(column int) string {
				return name + absolute(s.place(column, 2)) + ":" + absolute(s.place(column, s.rows+1))
			}
			s.bars(s.place(1, s.rows+3), oneLine(c.heading()), span(1), span(k+1))
			return
		}
	}
}

// format returns how a spreadsheet shows the numbers of the column; "@" is text.
func (c Column) format() string {
	decimals := ""
	if c.Decimals > 0 {
		decimals = "." + strings.Repeat("0", c.Decimals)
	}
	switch c.Kind {
	case Number:
		return "#,##0" + decimals
	case Share:
		return "0" + decimals + "%"
	default:
		return "@"
	}
}

// side returns the side on which the entries of a column stand.
func side(c Column) string {
	if c.counts() {
		return "right"
	}
	return "left"
}
