package plots_test

import (
	"os"

	"netrate/plots"
)

// A table for the terminal. The numbers are invented.
func ExampleTable_WriteText() {
	t := plots.Table{
		Caption: "What a gate changes",
		Columns: []plots.Column{
			{Title: "Variant"},
			{Title: "Net rate", Unit: "envelopes/h", Kind: plots.Number},
			{Title: "Waiting", Unit: "of the shift", Kind: plots.Share, Decimals: 1},
		},
		Rows: [][]plots.Entry{
			{{Text: "no gate"}, {Number: 11480}, {Number: 0.124}},
			{{Text: "track gate"}, {Number: 12260}, {Text: "not known"}},
		},
	}
	if err := t.WriteText(os.Stdout, 0); err != nil {
		panic(err)
	}
	// Output:
	// What a gate changes
	//
	//                  Net rate         Waiting
	// Variant     (envelopes/h)  (of the shift)
	// ──────────  ─────────────  ──────────────
	// no gate            11,480          12.4 %
	// track gate         12,260       not known
}

// Where the columns find no room, those that name the rows stand in each part, and an
// estimate keeps its bounds. The numbers are invented.
func ExampleTable_parted() {
	share := func(title string) plots.Column { return plots.Column{Title: title, Kind: plots.Share} }
	t := plots.Table{
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Week"},
			share("In time without overtime"), share("from"), share("to"), share("In time with overtime"), share("from"), share("to"),
			share("In time on Saturdays"), share("from"), share("to"),
		},
		Names: 2,
	}
	for _, week := range []string{"49", "50"} {
		row := []plots.Entry{{Text: "one operator"}, {Text: week}}
		for len(row) < len(t.Columns) {
			row = append(row, plots.Entry{Number: 0.95}, plots.Entry{Number: 0.91}, plots.Entry{Number: 0.98})
		}
		t.Rows = append(t.Rows, row)
	}
	if err := t.WriteText(os.Stdout, 0); err != nil {
		panic(err)
	}
	// Output:
	//                        In time                 In time
	//                        without                    with
	// Line          Week    overtime  from    to    overtime  from    to
	// ────────────  ────  ──────────  ────  ────  ──────────  ────  ────
	// one operator  49          95 %  91 %  98 %        95 %  91 %  98 %
	// one operator  50          95 %  91 %  98 %        95 %  91 %  98 %
	//
	//                     In time on
	// Line          Week   Saturdays  from    to
	// ────────────  ────  ──────────  ────  ────
	// one operator  49          95 %  91 %  98 %
	// one operator  50          95 %  91 %  98 %
}
