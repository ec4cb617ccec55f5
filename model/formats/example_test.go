package formats_test

import (
	"fmt"

	"netrate/model/formats"
)

// Sizes print as the trade writes them; the source tells how firm a size is.
func ExampleNamed() {
	for _, name := range []string{"c5", "No. 10", "9x12"} {
		e, _ := formats.Named(name)
		fmt.Printf("%v; %s\n", e, e.Source)
	}
	// Output:
	// C5, 162 × 229 mm; ISO 269:1985
	// #10, 4⅛ × 9½ in (104.8 × 241.3 mm); PWG 5101.1, na_number-10_4.125x9.5in
	// 9 × 12 in (228.6 × 304.8 mm); trade chart, no governing standard
}

// Three sheets of 20 lb bond, folded as a letter.
func ExamplePiece() {
	letter, _ := formats.SheetNamed("letter")
	p := formats.Piece{
		Sheet:    letter,
		Sheets:   3,
		Fold:     formats.LetterFold,
		Grammage: formats.Bond.Grammage(20),
	}
	width, height := p.Size()
	fmt.Printf("%.1f × %.1f mm, %.2f mm thick, %.1f g\n", width, height, p.Thickness(), p.Weight())
	// Output:
	// 215.9 × 93.1 mm, 0.88 mm thick, 13.6 g
}

// A4 folded in three is made for DL. Eight sheets of it are too thick.
func ExampleFits() {
	a4, _ := formats.SheetNamed("A4")
	dl, _ := formats.Named("DL")
	for _, sheets := range []int{1, 8} {
		p := formats.Piece{Sheet: a4, Sheets: sheets, Fold: formats.LetterFold, Grammage: 80}
		width, height := p.Size()
		fmt.Println(sheets, "in", dl)
		for _, reason := range formats.Fits(dl, width, height, p.Thickness(), formats.UsualClearance()) {
			fmt.Println("-", reason)
		}
	}
	// Output:
	// 1 in DL, 110 × 220 mm
	// 8 in DL, 110 × 220 mm
	// - not turned: set 210 mm long and 2.5 mm thick, envelope 220 mm: 7.5 mm left in length, want 8 mm
}

// Four sheets of A4 in a #14 are just a letter; a C5 is too high for one. Weights are of the sheets
// alone.
func ExampleUSPostal() {
	a4, _ := formats.SheetNamed("A4")
	sheets := formats.Piece{Sheet: a4, Sheets: 4, Fold: formats.LetterFold, Grammage: 80}
	for _, name := range []string{"#14", "C5"} {
		e, _ := formats.Named(name)
		class := formats.USPostal(e.Height, e.Length, sheets.Thickness(), formats.Ounces(sheets.Weight()))
		fmt.Println(e.Name, "is a", class.Name, class.Reasons)
	}
	// Output:
	// #14 is a letter []
	// C5 is a flat [height 6.378 in, over 6.125 in: Domestic Mail Manual 101.1.1, text of 2023-07-09]
}
