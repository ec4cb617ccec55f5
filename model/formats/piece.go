package formats

import (
	"errors"
	"fmt"
	"math"
)

// Piece is what goes into an envelope as one: sheets of one paper laid on each other and
// folded together. An insert of a single sheet is a Piece too.
type Piece struct {
	Sheet    Sheet
	Sheets   int
	Fold     Fold
	Grammage float64 // g/m²
	Bulk     float64 // cm³/g; 0: TypicalBulk
}

// Check returns all that cannot be of the piece, or nil. The other methods expect a piece
// that passes it.
func (p Piece) Check() error {
	var errs []error
	positive := func(what string, x float64, unit string) {
		if !(x > 0) || math.IsInf(x, 1) {
			errs = append(errs, fmt.Errorf("%s is %g %s, want above 0", what, x, unit))
		}
	}
	positive("width of the sheet", p.Sheet.Width, "mm")
	positive("height of the sheet", p.Sheet.Height, "mm")
	positive("grammage", p.Grammage, "g/m²")
	if p.Bulk != 0 {
		positive("bulk", p.Bulk, "cm³/g")
	}
	if p.Sheets < 1 {
		errs = append(errs, fmt.Errorf("the piece has %d sheets, want 1 or more", p.Sheets))
	}
	if !p.Fold.known() {
		errs = append(errs, fmt.Errorf("fold is %v, want one of the list", p.Fold))
	}
	return errors.Join(errs...)
}

// Size returns the width and height of the folded piece, in mm.
func (p Piece) Size() (width, height float64) { return p.Fold.Size(p.Sheet) }

// Thickness returns sheets × layers × caliper, in mm: pressed flat, with no air and no
// spring in the creases.
func (p Piece) Thickness() float64 {
	bulk := p.Bulk
	if bulk == 0 {
		bulk = TypicalBulk
	}
	return float64(p.Sheets*p.Fold.Layers()) * Caliper(p.Grammage, bulk)
}

// Weight returns the weight of the piece, in grams.
func (p Piece) Weight() float64 {
	area := p.Sheet.Width * p.Sheet.Height * 1e-6 // m²
	return float64(p.Sheets) * area * p.Grammage
}
