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
	if err := t.WriteText(os.Stdout); err != nil {
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
