package plots

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wideTable returns a table with n columns of numbers.
func wideTable(n int) Table {
	t := Table{Name: "Wide", Caption: "Many figures", Columns: []Column{{Title: "Station"}}, Rows: [][]Entry{{{Text: "feeder 1"}}, {{Text: "feeder 2"}}}}
	for k := range n {
		t.Columns = append(t.Columns, Column{Title: fmt.Sprintf("Refills of hopper %d", k), Unit: "pieces a shift", Kind: Number, Decimals: 1})
		for i := range t.Rows {
			t.Rows[i] = append(t.Rows[i], Entry{Number: float64(10_000*(i+1) + k)})
		}
	}
	return t
}

// Columns that find no room on a sheet go into a second table, each beside the names
// of the rows; the caption is said once.
func TestWideTableIsDivided(t *testing.T) {
	for _, c := range []struct {
		columns, tables int
		small           bool
	}{
		{1, 1, false},
		{5, 1, false},
		{6, 1, true}, // smaller type comes first
		{7, 1, true},
		{8, 2, false}, // and is spared where it is in vain
		{14, 2, true},
		{20, 3, true},
	} {
		columns, tables := c.columns, c.tables
		table := wideTable(columns)
		var b strings.Builder
		require.NoError(t, table.WriteHTML(&b))
		all, err := elements(b.String())
		require.NoError(t, err)
		count := map[string]int{}
		for _, e := range all {
			count[e.name]++
			if e.attr["scope"] == "row" {
				count[e.text]++
			}
			if e.attr["class"] == "table small" {
				count["small"]++
			}
		}
		assert.Equal(t, tables, count["table"], "%d columns", columns)
		assert.Equal(t, c.small, count["small"] == 1, "%d columns", columns)
		assert.Equal(t, tables, count["feeder\u00a02"], "a short name stays on one line")
		assert.Equal(t, 1, count["caption"])
		assert.Equal(t, 2*columns, count["td"])
		for k := range columns {
			assert.Equal(t, 1, strings.Count(b.String(), ">"+number(float64(20_000+k), 1)+"<"))
		}
	}
}
