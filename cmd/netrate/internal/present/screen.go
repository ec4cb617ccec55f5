package present

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// Screen returns an answer as a terminal has it: its title, its finding and its tables.
func Screen(title, finding string, tables ...plots.Table) string {
	var b strings.Builder
	b.WriteString(title + "\n\n" + say.Wrapped(finding, say.Screen))
	for i := range tables {
		b.WriteString("\n")
		if err := tables[i].WriteText(&b, say.Screen); err != nil {
			panic(err) // the table is one of ours
		}
	}
	return b.String()
}

// brief returns a table in as few lines as it can be, for screens with several.
func brief(t plots.Table) string { return briefly(t, say.Screen) }

// briefly returns a table in brief, so many characters wide.
func briefly(t plots.Table, width int) string {
	var b strings.Builder
	if err := t.WriteBrief(&b, width); err != nil {
		panic(err) // the table is one of ours
	}
	return b.String()
}
