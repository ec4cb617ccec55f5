package plots

import (
	"strings"
	"unicode"
)

// What keeps a table legible when it is parted: which columns name a row, and which
// columns are not parted from each other.

// mostNames is how many columns name a row at most, unless the table says otherwise.
const mostNames = 3

// names returns how many of the first columns name a row: as many as the table says,
// else as many as it takes until no two rows are alike, else one.
func (t *Table) names() int {
	if t.Names > 0 {
		return min(t.Names, len(t.Columns))
	}
	for n := 1; n <= min(mostNames, len(t.Columns)); n++ {
		if t.distinct(n) {
			return n
		}
	}
	return min(1, len(t.Columns))
}

// distinct reports whether no two rows are alike in their first n entries, as shown.
func (t *Table) distinct(n int) bool {
	seen := map[string]bool{}
	for _, entries := range t.Rows {
		var name strings.Builder
		for k, c := range t.Columns[:n] {
			name.WriteString(c.shown(entries[k]) + "\n")
		}
		if seen[name.String()] {
			return false
		}
		seen[name.String()] = true
	}
	return true
}

// joined reports whether the column stays beside the one before it.
func (c Column) joined() bool {
	words := strings.Fields(oneLine(c.Title))
	if c.Joined || len(words) == 0 {
		return c.Joined
	}
	switch words[len(words)-1] {
	case "±", "from", "to":
		return true
	}
	return unicode.IsDigit([]rune(words[0])[0])
}

// groups returns the columns in runs that are not parted.
func groups(columns []textColumn) (all [][]textColumn) {
	for k, c := range columns {
		if k > 0 && c.joined() {
			all[len(all)-1] = append(all[len(all)-1], c)
			continue
		}
		all = append(all, []textColumn{c})
	}
	return all
}

// zero reports whether the table has rows and says of all of them nothing but zero.
func (t *Table) zero() bool {
	rest, some := t.names(), false
	for _, entries := range t.Rows {
		for k, c := range t.Columns[rest:] {
			if !c.numeric(entries[rest+k]) || entries[rest+k].Number != 0 {
				return false
			}
			some = true
		}
	}
	return some
}
