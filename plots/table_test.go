package plots

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// variantsTable is a table with one of everything. Its numbers are invented.
func variantsTable() Table {
	return Table{
		Name:    "Variants",
		Caption: "Net rate & what is <lost>, variant by variant",
		Columns: []Column{
			{Title: "Variant", Brief: "Envelopes/h"},
			{Title: "Net rate", Unit: "envelopes/h", Kind: Number, Brief: "net rate"},
			{Title: "Difference", Unit: "envelopes/h", Kind: Number, Decimals: 1, Brief: "to the first"},
			{Title: "Waiting", Unit: "of the shift", Kind: Share, Decimals: 1},
			{Title: "OEE", Kind: Share},
		},
		Rows: [][]Entry{
			{{Text: "as it is"}, {Number: 11480.4}, {Number: nan}, {Number: 0.1234}, {Number: 0.638}},
			{{Text: "=1+1"}, {Number: 1234567}, {Number: -590.26}, {Text: "not known"}, {Number: 1}},
			{{Text: "a gate, \"twice\"\n<b>as fast</b>, and with a name that is far too long for the screen"}, {}, {Number: 780.125}, {Number: 0.001}, {Number: -0.02}},
		},
	}
}

var tableWriters = map[string]func(*Table, io.Writer) error{
	"csv": (*Table).WriteCSV, "html": (*Table).WriteHTML,
	"txt":   func(t *Table, w io.Writer) error { return t.WriteText(w, 0) },
	"brief": func(t *Table, w io.Writer) error { return t.WriteBrief(w, 0) },
}

func TestTableGolden(t *testing.T) {
	for kind, write := range tableWriters {
		t.Run(kind, func(t *testing.T) {
			table := variantsTable()
			var got bytes.Buffer
			require.NoError(t, write(&table, &got))
			golden.CheckDrawing(t, filepath.Join("testdata", "table."+kind), got.String())
		})
	}
}

func TestTableErrors(t *testing.T) {
	for want, spoil := range map[string]func(*Table){
		`table "Variants" has no columns`:                                    func(t *Table) { t.Columns = nil },
		`table "Variants", row 2: 4 entries, want 5`:                         func(t *Table) { t.Rows[1] = t.Rows[1][:4] },
		`table "Variants", row 1, column "OEE": +Inf, want a number`:         func(t *Table) { t.Rows[0][4].Number = math.Inf(1) },
		`table "Variants", column "OEE": no kind 3`:                          func(t *Table) { t.Columns[4].Kind = 3 },
		`table "Variants", column "Net rate": 10 decimals, want from 0 to 9`: func(t *Table) { t.Columns[1].Decimals = 10 },
		`table "Variants", column "Net rate": -1 decimals, want from 0 to 9`: func(t *Table) { t.Columns[1].Decimals = -1 },
		`table "Variants", row 3, column "Net rate": -Inf, want a number`:    func(t *Table) { t.Rows[2][1].Number = math.Inf(-1) },
	} {
		t.Run(want, func(t *testing.T) {
			table := variantsTable()
			spoil(&table)
			var out bytes.Buffer
			for kind, write := range tableWriters {
				require.ErrorContains(t, write(&table, &out), want, kind)
			}
			require.ErrorContains(t, WriteXLSX(&out, []Table{variantsTable(), table}), want)
			assert.Zero(t, out.Len(), "something was written")
		})
	}
}

func TestTableWriteErrors(t *testing.T) {
	table := variantsTable()
	for kind, write := range tableWriters {
		require.ErrorIs(t, write(&table, broken{}), errBroken, kind)
	}
	require.ErrorIs(t, WriteXLSX(broken{}, []Table{table}), errBroken)
	require.ErrorContains(t, WriteXLSX(io.Discard, nil), "needs a table")
}

// A table without rows is still a table.
func TestTableWithoutRows(t *testing.T) {
	table := variantsTable()
	table.Rows = nil
	for kind, write := range tableWriters {
		var out bytes.Buffer
		require.NoError(t, write(&table, &out), kind)
		assert.Contains(t, strings.ToLower(out.String()), "net rate", kind)
	}
	require.NoError(t, WriteXLSX(io.Discard, []Table{table}))
}

func TestHarmless(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{"feeder", "feeder"},
		{"3 - 2", "3 - 2"},
		{"−590", "−590"},
		{"=1+1", "'=1+1"},
		{"+49", "'+49"},
		{"-1", "'-1"},
		{"@SUM(A1)", "'@SUM(A1)"},
		{"＝1", "'＝1"},
		{" \t=1", "'=1"},
		{"\r\n@x", "'@x"},
		{"\x00=1", "'=1"},
	} {
		assert.Equal(t, c.want, Column{}.bare(Entry{Text: c.text}), "%q", c.text)
	}
	assert.Equal(t, "-590.26", Column{Kind: Number}.bare(Entry{Number: -590.26}), "a number is no formula")
	var out bytes.Buffer
	require.NoError(t, (&Table{Columns: []Column{{Title: "=cmd", Unit: "s"}}}).WriteCSV(&out))
	assert.Equal(t, "\uFEFF'=cmd (s)\n", out.String())
}

// However wide the table, no line is longer than the screen, and every entry of
// every column is there.
func TestTextFitsTheScreen(t *testing.T) {
	for _, columns := range []int{1, 2, 5, 9, 30} {
		for _, name := range []string{"", "feeder", strings.Repeat("long word ", 12), strings.Repeat("Zuführstation", 12)} {
			t.Run(fmt.Sprintf("%d columns, %.12s", columns, name), func(t *testing.T) {
				table := Table{Name: "Wide", Caption: name, Columns: []Column{{Title: name}}, Rows: make([][]Entry, 3)}
				for k := range columns {
					if k > 0 {
						table.Columns = append(table.Columns, Column{Title: "Figure " + name, Unit: "min", Kind: Number})
					}
					for i := range table.Rows {
						table.Rows[i] = append(table.Rows[i], Entry{Text: map[bool]string{true: name}[k == 0], Number: float64(1000*i + k)})
					}
				}
				var out bytes.Buffer
				require.NoError(t, table.WriteText(&out, 0))
				for line := range strings.Lines(out.String()) {
					require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), ScreenWidth, "%q", line)
				}
				words := strings.Fields(out.String())
				for k := 1; k < columns; k++ {
					assert.Contains(t, words, number(float64(2000+k), 0))
				}
			})
		}
	}
}

func TestLines(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  []string
	}{
		{"", 10, nil},
		{"   ", 10, nil},
		{"one", 3, []string{"one"}},
		{"one two three", 7, []string{"one two", "three"}},
		{"a inserter b", 4, []string{"a", "inse", "rter", "b"}},
		{"führen ± 3", 6, []string{"führen", "± 3"}},
		{"to 100 %", 6, []string{"to", "100 %"}},
		{"5,000 %", 4, []string{"5,00", "0 %"}},
		{"封筒封入機の2", 6, []string{"封筒封", "入機の", "2"}},
	} {
		assert.Equal(t, c.want, lines(c.text, c.width), "%q", c.text)
	}
}
