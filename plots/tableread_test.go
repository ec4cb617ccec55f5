package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is for programs is in the files of data and nowhere else. The numbers are invented.
func TestTableForPeople(t *testing.T) {
	table := Table{
		Name: "Rates", Bars: 2,
		Columns: []Column{{Title: "Crew"}, {Title: "Net rate", Kind: Number}, {Title: "Net rate ±", Kind: Number, Data: true}, {Title: "Best"}},
		Rows: [][]Entry{
			{{Text: "one"}, {Number: 5000, Shown: "5,000 ± 40"}, {Number: 40.25}, {Text: "no"}},
			{{Text: "two"}, {Number: 7500, Shown: "7,500 ± 50"}, {Number: 50}, {Text: "yes"}},
		},
	}
	var text, page, data strings.Builder
	require.NoError(t, table.WriteText(&text, 0))
	require.NoError(t, table.WriteHTML(&page))
	require.NoError(t, table.WriteCSV(&data))
	assert.Equal(t, ""+
		"Crew    Net rate  Best\n"+
		"────  ──────────  ────\n"+
		"one   5,000 ± 40  no    ████████████████\n"+
		"two   7,500 ± 50  yes   ████████████████████████\n", text.String())
	assert.NotContains(t, page.String(), "Net rate ±")
	assert.Contains(t, page.String(), "7,500 ± 50")
	assert.Equal(t, "\uFEFFCrew,Net rate,Net rate ±,Best\none,5000,40.25,no\ntwo,7500,50,yes\n", data.String())
	table.Bars = 5
	assert.ErrorContains(t, table.WriteText(&text, 0), `table "Rates": bars of column 5, want from 0 to 4`)
}

// Where the columns leave no room there are no bars.
func TestTableBarsNeedRoom(t *testing.T) {
	table := Table{Bars: 2, Columns: []Column{{Title: strings.Repeat("x", 68)}, {Title: "n", Kind: Number}}, Rows: [][]Entry{{{Text: "a"}, {Number: 1}}}}
	var text strings.Builder
	require.NoError(t, table.WriteText(&text, 0))
	assert.NotContains(t, text.String(), "█")
}

func TestBar(t *testing.T) {
	for want, x := range map[string]float64{"": 0, "▏": 1, "█": 8, "█▍": 11, "██": 16} {
		assert.Equal(t, want, bar(x, 16, 2))
	}
	assert.Empty(t, bar(nan, 1, 4))
	assert.Empty(t, bar(0, 0, 4))
}
