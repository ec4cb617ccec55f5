package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/plots/terminal"
)

// wideNames is a table whose names take two places of a terminal for each character, or none.
func wideNames() Table {
	t := Table{Columns: []Column{
		{Title: "Line", Brief: "Good an hour"},
		{Title: "Net rate", Unit: "an hour", Kind: Number, Brief: "net rate"},
		{Title: "Worth", Unit: "EUR", Kind: Number, Brief: "worth in EUR"},
		{Title: "Why", Brief: "what is said of it"},
		{Title: "Hours", Kind: Number},
	}}
	for i, name := range []string{"plain", "封筒封入機の二号線", "Zufu\u0308hrung", "a name that is longer than the others are"} {
		t.Rows = append(t.Rows, []Entry{{Text: name}, {Number: float64(11_000 + i)}, {Number: 2e6}, {Text: "it delivers " + name}, {Number: 5}})
	}
	return t
}

// In brief and in full, at any width, nothing is cut, no line is too long, and the columns line up
// whatever characters stand in them.
func TestTablesAtAnyWidth(t *testing.T) {
	for _, width := range []int{40, 60, 80, 200} {
		table := wideNames()
		var brief, full strings.Builder
		require.NoError(t, table.WriteBrief(&brief, width))
		require.NoError(t, table.WriteText(&full, width))
		for _, text := range []string{brief.String(), full.String()} {
			ends := map[int]bool{} // of net rates, which stand in one column
			for line := range strings.Lines(text) {
				line = strings.TrimSuffix(line, "\n")
				assert.LessOrEqual(t, terminal.Width(line), width, "%d: %q", width, line)
				if before, _, found := strings.Cut(line, "11,00"); found {
					ends[terminal.Width(before)] = true
				}
			}
			assert.Len(t, ends, 1, text)
			said := strings.Join(strings.Fields(text), "")
			for word := range strings.FieldsSeq("net rate worth 11,003 2,000,000 Zufu\u0308hrung longer than the others are") {
				assert.Contains(t, strings.ToLower(said), strings.ToLower(word), text)
			}
		}
		assert.NotContains(t, brief.String(), "Hours", "which has no heading in brief")
		assert.NotContains(t, brief.String(), "─")
	}
}

// A table finds room first by less between its columns, then by breaking its texts.
func TestBriefFindsRoom(t *testing.T) {
	table := wideNames()
	lines := func(width int) int {
		var b strings.Builder
		require.NoError(t, table.WriteBrief(&b, width))
		return strings.Count(b.String(), "\n")
	}
	assert.Equal(t, 5, lines(120))
	assert.Greater(t, lines(60), 5)
	assert.Greater(t, lines(40), lines(60))
}

// A long name goes on beside the rows below that have none.
func TestBriefNamesGoOn(t *testing.T) {
	table := Table{Columns: []Column{{Title: "Station", Brief: "station"}, {Title: "Fault", Brief: "fault"}}}
	for _, row := range [][2]string{{"feeders one, two and three more", "misfeed"}, {"", "double"}, {"inserter of the line", "flap"}, {"", "jam"}, {"", "another"}, {"gate", ""}} {
		table.Rows = append(table.Rows, []Entry{{Text: row[0]}, {Text: row[1]}})
	}
	var b strings.Builder
	require.NoError(t, table.WriteBrief(&b, 22))
	assert.Equal(t, `station     fault
feeders     misfeed
  one, two  double
  and
  three
  more
inserter    flap
  of the    jam
  line      another
gate
`, b.String())
}

// A table of which no column has a heading in brief is written under those that it has.
func TestBriefWithoutHeadings(t *testing.T) {
	table := Table{Columns: []Column{{Title: "Line"}, {Title: "Digits", Kind: Number, Data: true}}, Rows: [][]Entry{{{Text: "base"}, {Number: 1}}}}
	var b strings.Builder
	require.NoError(t, table.WriteBrief(&b, 0))
	assert.Equal(t, "Line\nbase\n", b.String())
}
