package plots

import (
	"bytes"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// A sheet works its figures out anew when a cell is changed, in the column and in those that refer
// to the first.
func TestCalculation(t *testing.T) {
	c := Calculation{
		Name: "Sums", Caption: "Hours of a year", Columns: []string{"base", "other"}, Chart: "saved",
		Rows: []CalculationRow{
			{Name: "To change", Head: true},
			{Key: "volume", Name: "Volume", Values: []float64{1000, 1000}, Format: "#,##0"},
			{Key: "rate", Name: "Rate", Values: []float64{10, 20}, Format: "#,##0"},
			{Key: "hours", Name: "Hours", Formula: "{volume}/{rate}", Format: "0.0"},
			{Key: "saved", Name: "Saved", Formula: "{hours@1}-{hours}", Format: "0.0"},
		},
	}
	var b bytes.Buffer
	require.NoError(t, WriteXLSX(&b, []Table{{Name: "x", Columns: []Column{{Title: "Line"}, {Title: "Rate", Kind: Number, Bar: true}}, Rows: [][]Entry{{{Text: "a"}, {Number: 1}}}}}, c))
	again := b.Bytes()
	book, err := excelize.OpenReader(bytes.NewReader(again))
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	at := func(cell string) float64 {
		text, err := book.CalcCellValue("Sums", cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, "%s: %q", cell, text)
		return x
	}
	assert.Equal(t, []float64{100, 50, 0, 50}, []float64{at("B7"), at("C7"), at("B8"), at("C8")})
	require.NoError(t, book.SetCellValue("Sums", "B5", 3000))
	assert.Equal(t, []float64{300, 50, 250}, []float64{at("B7"), at("C7"), at("C8")})
	var twice bytes.Buffer
	require.NoError(t, WriteXLSX(&twice, []Table{{Name: "x", Columns: []Column{{Title: "Line"}, {Title: "Rate", Kind: Number, Bar: true}}, Rows: [][]Entry{{{Text: "a"}, {Number: 1}}}}}, c))
	assert.Equal(t, again, twice.Bytes(), "the same bytes")

	c.Rows[3].Formula = "{volume}/{speed}"
	require.ErrorContains(t, WriteXLSX(&b, []Table{{Name: "x", Columns: []Column{{Title: "Line"}}}}, c), `"Hours" names a row that is not there`)
	c.Rows[3].Formula, c.Rows[1].Values = "1", nil
	require.ErrorContains(t, WriteXLSX(&b, []Table{{Name: "x", Columns: []Column{{Title: "Line"}}}}, c), `0 values of "Volume" for 2 columns`)
}
