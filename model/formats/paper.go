package formats

import "fmt"

// Grams to the pound, exact: international yard and pound agreement of 1959. An ounce is
// a sixteenth of it.
const (
	pound = 453.59237
	ounce = pound / 16
)

// Basis is a North American grade of paper. Its weight in pounds is that of a ream of 500
// sheets of the basic size, which is another for each grade.
type Basis int

// The grades.
const (
	Bond Basis = iota
	Text
	Cover
	Index
	Tag
)

// Basic sizes in inches: trade practice.
var bases = [...]struct {
	name          string
	width, height float64
}{
	Bond:  {"bond", 17, 22},
	Text:  {"text", 25, 38},
	Cover: {"cover", 20, 26},
	Index: {"index", 25.5, 30.5},
	Tag:   {"tag", 24, 36},
}

func (b Basis) known() bool { return b >= 0 && int(b) < len(bases) }

// String returns the name of the grade, "bond" for instance.
func (b Basis) String() string {
	if b.known() {
		return bases[b].name
	}
	return fmt.Sprintf("Basis(%d)", int(b))
}

// Grammage returns the g/m² (ISO 536) of paper of a number of pounds in this grade, exact: the
// weight of the ream by its area. A grade that is none of the list panics.
func (b Basis) Grammage(pounds float64) float64 {
	if !b.known() {
		panic(fmt.Sprintf("formats: %v is none of the grades of paper", b))
	}
	const ream = 500
	area := bases[b].width * bases[b].height * inch * inch * 1e-6 // m²
	return pounds * pound / (area * ream)
}

// TypicalBulk is the bulk of uncoated paper, in cm³/g, to be taken where only the grammage
// is known: typical, as a merchant's table of bond paper gives 1.28 to 1.40. Coated paper
// is denser. Paper of one kind varies by some 5 % from sheet to sheet.
const TypicalBulk = 1.3

// Caliper returns the thickness of one layer, in mm, from the grammage in g/m² and the
// bulk (specific volume) in cm³/g. Source: ISO 534, bulk = thickness in µm by grammage; so it is had
// from a thickness that was measured.
func Caliper(grammage, bulk float64) float64 { return grammage * bulk / 1000 }

// Ounces returns a weight in grams in avoirdupois ounces, as [USPostal] takes it.
func Ounces(grams float64) float64 { return grams / ounce }
