package plots

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// reopened returns the workbook of the tables as another program reads it.
func reopened(t *testing.T, tables ...Table) *excelize.File {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteXLSX(&b, tables))
	book, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, book.Close()) })
	return book
}

func TestWorkbookCells(t *testing.T) {
	book := reopened(t, variantsTable())
	for _, c := range []struct {
		at, raw, shown string
		kind           excelize.CellType
	}{
		{"A1", "Variant", "Variant", excelize.CellTypeSharedString},
		{"B1", "Net rate (envelopes/h)", "Net rate (envelopes/h)", excelize.CellTypeSharedString},
		{"D1", "Waiting (of the shift)", "Waiting (of the shift)", excelize.CellTypeSharedString},
		{"E1", "OEE", "OEE", excelize.CellTypeSharedString},
		{"A3", "=1+1", "=1+1", excelize.CellTypeSharedString},
		{"B2", "11480.4", "11,480", excelize.CellTypeUnset}, // a number has no type in the file
		{"B3", "1234567", "1,234,567", excelize.CellTypeUnset},
		{"C2", "", "", excelize.CellTypeUnset},
		{"C3", "-590.26", "-590.3", excelize.CellTypeUnset},
		{"D2", "0.1234", "12.3%", excelize.CellTypeUnset},
		{"D3", "not known", "not known", excelize.CellTypeSharedString},
		{"E4", "-0.02", "-2%", excelize.CellTypeUnset},
		{"B4", "0", "0", excelize.CellTypeUnset},
		{"F1", "", "", excelize.CellTypeUnset},
	} {
		t.Run(c.at, func(t *testing.T) {
			raw, err := book.GetCellValue("Variants", c.at, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			assert.Equal(t, c.raw, raw)
			shown, err := book.GetCellValue("Variants", c.at)
			require.NoError(t, err)
			assert.Equal(t, c.shown, shown)
			kind, err := book.GetCellType("Variants", c.at)
			require.NoError(t, err)
			assert.Equal(t, c.kind, kind)
			formula, err := book.GetCellFormula("Variants", c.at)
			require.NoError(t, err)
			assert.Empty(t, formula)
		})
	}
}

func TestWorkbookLook(t *testing.T) {
	odd := variantsTable()
	odd.Name = "it's 5 % & more"
	odd.Caption = strings.Repeat("caption & more ", 30)
	book := reopened(t, variantsTable(), odd)
	require.Equal(t, []string{"Variants", odd.Name}, book.GetSheetList())
	for _, sheet := range book.GetSheetList() {
		panes, err := book.GetPanes(sheet)
		require.NoError(t, err)
		assert.True(t, panes.Freeze)
		assert.Equal(t, 1, panes.YSplit)
		assert.Equal(t, "A2", panes.TopLeftCell)
		for letter, least := range map[string]float64{"A": 50, "B": 12, "E": 12} {
			width, err := book.GetColWidth(sheet, letter)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, width, least, letter)
			assert.LessOrEqual(t, width, 62.0, letter)
		}
		header, err := book.GetHeaderFooter(sheet)
		require.NoError(t, err)
		assert.Contains(t, header.OddHeader, " && ")
	}
	var repeated []string
	for _, n := range book.GetDefinedName() {
		repeated = append(repeated, n.Name+" "+n.RefersTo)
	}
	assert.Equal(t, []string{"_xlnm.Print_Titles 'Variants'!$1:$1", "_xlnm.Print_Titles 'it''s 5 % & more'!$1:$1"}, repeated)
}

func TestWorkbookIsAlwaysTheSame(t *testing.T) {
	tables := []Table{variantsTable(), variantsTable(), variantsTable()}
	var first bytes.Buffer
	require.NoError(t, WriteXLSX(&first, tables))
	for range 5 {
		var again bytes.Buffer
		require.NoError(t, WriteXLSX(&again, tables))
		require.Equal(t, first.Bytes(), again.Bytes())
	}
	tables[1].Rows[0][1].Number++
	var other bytes.Buffer
	require.NoError(t, WriteXLSX(&other, tables))
	require.NotEqual(t, first.Bytes(), other.Bytes(), "a comparison that cannot fail")
}

func TestSheetNames(t *testing.T) {
	long := strings.Repeat("feeder ", 6)
	for _, c := range []struct{ given, want []string }{
		{[]string{"Stops", "Crew"}, []string{"Stops", "Crew"}},
		{[]string{"Stops", "stops", "Stops"}, []string{"Stops", "stops 2", "Stops 3"}},
		{[]string{"", " ", "'"}, []string{"Table", "Table 2", "Table 3"}},
		{[]string{`a:b\c/d?e*f[g]`}, []string{"a-b-c-d-e-f-g-"}},
		{[]string{"'quoted'", "it's"}, []string{"quoted", "it's"}},
		{[]string{"History", "history"}, []string{"History 2", "history 3"}},
		{[]string{long, long}, []string{"feeder feeder feeder feeder fee", "feeder feeder feeder feeder f 2"}},
		{[]string{strings.Repeat("a", 30) + "'b"}, []string{strings.Repeat("a", 30)}},
		{[]string{strings.Repeat("🙂", 20)}, []string{strings.Repeat("🙂", 15)}},
		{[]string{"two\nlines\x00"}, []string{"two lines"}},
		{[]string{"Stops 2", "Stops", "Stops"}, []string{"Stops 2", "Stops", "Stops 3"}},
	} {
		var tables []Table
		for _, name := range c.given {
			table := variantsTable()
			table.Name = name
			tables = append(tables, table)
		}
		assert.Equal(t, c.want, sheetNames(tables), "%q", c.given)
		assert.Equal(t, c.want, reopened(t, tables...).GetSheetList())
	}
}
