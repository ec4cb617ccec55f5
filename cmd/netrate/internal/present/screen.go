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

// brief returns tables in as few lines as it can be, for screens with several.
func brief(tables ...plots.Table) string {
	var b strings.Builder
	for i := range tables {
		if err := tables[i].WriteBrief(&b, say.Screen); err != nil {
			panic(err) // the table is one of ours
		}
	}
	return b.String()
}
