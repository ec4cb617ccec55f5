package plots

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// named returns a table whose rows begin with the given texts, with n columns of numbers
// after them.
func named(n int, rows ...[]string) Table {
	t := Table{Name: "Weeks", Caption: "Weeks of lines"}
	for k := range rows[0] {
		t.Columns = append(t.Columns, Column{Title: fmt.Sprintf("Name %d", k+1)})
	}
	for k := range n {
		t.Columns = append(t.Columns, Column{Title: fmt.Sprintf("Figure %d", k+1), Kind: Number})
	}
	for i, row := range rows {
		var entries []Entry
		for _, s := range row {
			entries = append(entries, Entry{Text: s})
		}
		for k := range n {
			entries = append(entries, Entry{Number: float64(100*(i+1) + k)})
		}
		t.Rows = append(t.Rows, entries)
	}
	return t
}

func TestColumnsThatNameRows(t *testing.T) {
	for _, c := range []struct {
		name  string
		table Table
		want  int
	}{
		{"the first is enough", named(2, []string{"base", "1"}, []string{"other", "1"}), 1},
		{"the second tells", named(2, []string{"base", "1"}, []string{"base", "2"}), 2},
		{"the third tells", named(2, []string{"base", "1", "a"}, []string{"base", "1", "b"}), 3},
		{"a number tells", named(2, []string{"base"}, []string{"base"}), 2},
		{"nothing tells", named(0, []string{"base", "1", "a"}, []string{"base", "1", "a"}), 1},
		{"one row", named(2, []string{"base", "1"}), 1},
		{"no columns", Table{}, 0},
		{"as it says", func() Table {
			t := named(2, []string{"base", "1"}, []string{"other", "1"})
			t.Names = 2
			return t
		}(), 2},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.table.names()) })
	}
}

func TestJoinedColumns(t *testing.T) {
	for title, want := range map[string]bool{
		"±": true, "Net rate ±": true, "from": true, "Counted to": true, "90 %": true, "95th percentile": true,
		"To the base": false, "Net rate": false, "": false, "From": false, "fromage": false,
	} {
		assert.Equal(t, want, Column{Title: title}.joined(), title)
	}
	assert.True(t, Column{Title: "Net rate", Joined: true}.joined())
}

// Each part begins with the columns that name the rows, and an estimate keeps its bounds,
// on paper and on a screen.
func TestPartsKeepNamesAndBounds(t *testing.T) {
	for _, p := range []paperSize{screen(ScreenWidth), sheetOfPaper, smallType} {
		table := named(0, []string{"one more operator", "3 flats, 1 of 2"}, []string{"one more operator", "4 flats, 2 of 2"})
		for k := range 9 {
			for _, title := range []string{fmt.Sprintf("Estimate %c", 'a'+k), "from", "to"} {
				table.Columns = append(table.Columns, Column{Title: title, Kind: Number})
				for i := range table.Rows {
					table.Rows[i] = append(table.Rows[i], Entry{Number: float64(1000 + i)})
				}
			}
		}
		parts := p.blocks(&table)
		assert.Greater(t, len(parts), 1)
		var rest []string
		for _, part := range parts {
			require.Equal(t, 2, part.names)
			assert.LessOrEqual(t, p.width(part.columns), p.wide)
			assert.Equal(t, []string{"Name 1", "Name 2"}, []string{part.columns[0].Title, part.columns[1].Title})
			assert.Equal(t, "to", part.columns[len(part.columns)-1].Title, "parted from its bounds")
			for _, c := range part.columns[2:] {
				rest = append(rest, c.Title)
			}
		}
		var want []string
		for _, c := range table.Columns[2:] {
			want = append(want, c.Title)
		}
		assert.Equal(t, want, rest, "each column once, in order")
	}
}

// What is joined but wider than the paper is parted all the same, and names that leave
// too little of it give way.
func TestPartsOfWhatNeverFits(t *testing.T) {
	table := named(12, []string{strings.Repeat("long name ", 9), "a"}, []string{strings.Repeat("long name ", 9), "b"})
	for k := range table.Columns[2:] {
		table.Columns[2+k].Joined = true
	}
	for _, part := range screen(ScreenWidth).blocks(&table) {
		assert.LessOrEqual(t, screen(ScreenWidth).width(part.columns), ScreenWidth)
		assert.Equal(t, 2, part.names)
	}
	wide := named(9, []string{"one more operator"}, []string{"one more shift"})
	wide.Columns[1].Title, wide.Names = strings.Repeat("w", wideNumber), 2
	for _, part := range screen(ScreenWidth).blocks(&wide) {
		assert.Equal(t, 1, part.names)
	}
}

// A table of nothing but zeros is said in words where people read it, and kept as data.
func TestTableOfZeros(t *testing.T) {
	zeros := func() Table {
		t := named(2, []string{"base"}, []string{"other"})
		for i := range t.Rows {
			t.Rows[i][1].Number, t.Rows[i][2].Number = 0, 0
		}
		return t
	}
	for name, spoil := range map[string]func(*Table){
		"little":       func(t *Table) { t.Rows[1][2].Number = 1e-9 },
		"words":        func(t *Table) { t.Rows[1][2].Text = "<0.5" },
		"nothing":      func(t *Table) { t.Rows[1][2].Number = nan },
		"no rows":      func(t *Table) { t.Rows = nil },
		"only names":   func(t *Table) { *t = named(0, []string{"base"}) },
		"all the rest": func(t *Table) { t.Columns[2].Kind = Text },
	} {
		table := zeros()
		spoil(&table)
		assert.False(t, table.zero(), name)
	}
	table := zeros()
	require.True(t, table.zero())
	var b bytes.Buffer
	require.NoError(t, table.html(&b, "table-1", "Table 1"))
	assert.Equal(t, `<div class="table" id="table-1" role="group" aria-label="Weeks" tabindex="0">
<p class="caption"><span class="label">Table 1.</span> Weeks of lines</p>
<p>All zero.</p>
</div>
`, b.String())
	b.Reset()
	require.NoError(t, table.WriteText(&b, 0))
	assert.Equal(t, "Weeks of lines\n\nAll zero.\n", b.String())
	b.Reset()
	require.NoError(t, table.WriteCSV(&b))
	assert.Contains(t, b.String(), "other,0,0")
}
