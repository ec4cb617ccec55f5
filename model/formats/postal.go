package formats

import (
	"fmt"
	"math"
)

// Class is what the post takes a piece for.
type Class struct {
	Name    string   // one of the four below
	Reasons []string // why it is not simply a letter, each with its source; none of a letter
}

// The names of a Class.
const (
	Letter        = "letter"
	Nonmachinable = "letter, nonmachinable"
	Flat          = "flat"
	Neither       = "neither"
)

// PostalNote is to be printed wherever a Class is.
const PostalNote = "A reading of the Domestic Mail Manual of the United States, text of 2023-07-09, " +
	"by size and weight alone. Rules change; this is no postal advice."

// Limits in inches and ounces.
const (
	leastLength, mostLength       = 5, 11.5
	leastHeight, mostHeight       = 3.5, 6.125
	leastThickness, mostThickness = 0.007, 0.25
	mostOunces                    = 3.5
	leastRatio, mostRatio         = 1.3, 2.5 // length by height

	largeLength, largeHeight, largeThickness = 6, 4.25, 0.009 // a large letter must be thicker

	flatLength, flatHeight, flatThickness = 15, 12, 0.75
)

// Where the limits are written.
const (
	dmmLetter        = "Domestic Mail Manual 101.1.1, text of 2023-07-09"
	dmmHeavy         = "Domestic Mail Manual 101.1.1, text of 2010-01-04"
	dmmNonmachinable = "Domestic Mail Manual 101.1.2, text of 2023-07-09"
	mail101Sizes     = "Postal Explorer, Business Mail 101, minimum and maximum sizes"
	mail101Flats     = "Postal Explorer, Business Mail 101, sizes for flats"
)

// USPostal returns what the United States Postal Service takes a rectangular paper piece
// for: height, length and thickness in mm, the length parallel to the address; weight in
// ounces. It is a reading of the rules of 2023-07-09 and no postal advice: see [PostalNote].
//
// All limits are allowed themselves. For the limits of size the longer side counts as the
// length, whichever way the address stands (Business Mail 101, minimum and maximum sizes);
// the ratio is that of the side parallel to the address to the other, so that a letter
// addressed across its short side is nonmachinable.
//
// It knows nothing of what makes a piece nonmachinable besides size (stiffness, clasps,
// plastic, uneven contents), of the rules for automation, and of the limits of weight of a
// flat, which depend on the class of mail. What is not a size, NaN included, is neither.
func USPostal(height, length, thickness, ounces float64) Class {
	if reasons := notMail(height, length, thickness, ounces); len(reasons) > 0 {
		return Class{Neither, reasons}
	}
	p := mailpiece{
		height:    tidy(min(height, length) / inch),
		length:    tidy(max(height, length) / inch),
		thickness: tidy(thickness / inch),
		ounces:    tidy(ounces),
		ratio:     tidy(length / height),
	}
	if under := p.underLetter(); len(under) > 0 {
		return Class{Neither, under}
	}
	if over := p.overLetter(); len(over) > 0 {
		if beyond := p.overFlat(); len(beyond) > 0 {
			return Class{Neither, beyond}
		}
		return Class{Flat, over}
	}
	if reasons := p.nonmachinable(); len(reasons) > 0 {
		return Class{Nonmachinable, reasons}
	}
	return Class{Name: Letter}
}

// notMail returns which of the numbers cannot be a size or a weight.
func notMail(height, length, thickness, ounces float64) (reasons []string) {
	for _, x := range []struct {
		what  string
		value float64
		unit  string
	}{
		{"height", height, "mm"},
		{"length", length, "mm"},
		{"thickness", thickness, "mm"},
		{"weight", ounces, "oz"},
	} {
		if !(x.value > 0) || math.IsInf(x.value, 1) {
			reasons = append(reasons, fmt.Sprintf("%s is %g %s, want above 0: %s", x.what, x.value, x.unit, dmmLetter))
		}
	}
	return reasons
}

// mailpiece is a piece in inches and ounces, its longer side as the length.
type mailpiece struct{ height, length, thickness, ounces, ratio float64 }

// underLetter returns what makes the piece too small for the mail.
func (p mailpiece) underLetter() (reasons []string) {
	if p.thickness <= mostThickness { // a thicker piece may be as small as it likes
		reasons = append(reasons, less("height", p.height, leastHeight)...)
		reasons = append(reasons, less("length", p.length, leastLength)...)
	}
	return append(reasons, less("thickness", p.thickness, leastThickness)...)
}

// overLetter returns what makes the piece more than a letter.
func (p mailpiece) overLetter() []string {
	reasons := more("height", p.height, mostHeight, dmmLetter)
	reasons = append(reasons, more("length", p.length, mostLength, dmmLetter)...)
	reasons = append(reasons, more("thickness", p.thickness, mostThickness, dmmLetter)...)
	if p.ounces > mostOunces {
		reasons = append(reasons, fmt.Sprintf("weight %s oz, over %g oz, pays as a flat: %s",
			short(p.ounces, 3), mostOunces, dmmHeavy))
	}
	return reasons
}

// overFlat returns what makes the piece more than a flat.
func (p mailpiece) overFlat() []string {
	reasons := more("height", p.height, flatHeight, mail101Flats)
	reasons = append(reasons, more("length", p.length, flatLength, mail101Flats)...)
	return append(reasons, more("thickness", p.thickness, flatThickness, mail101Flats)...)
}

// nonmachinable returns why a letter cannot go through the machines, as far as sizes say.
func (p mailpiece) nonmachinable() (reasons []string) {
	if p.ratio < leastRatio || p.ratio > mostRatio {
		reasons = append(reasons, fmt.Sprintf("length by height is %s, want %g to %g: %s",
			short(p.ratio, 3), leastRatio, mostRatio, dmmNonmachinable))
	}
	if (p.length > largeLength || p.height > largeHeight) && p.thickness < largeThickness {
		reasons = append(reasons, fmt.Sprintf("thickness %s in, under %g in for a letter over %g in long or %g in high: %s",
			short(p.thickness, 4), largeThickness, float64(largeLength), largeHeight, dmmLetter))
	}
	return reasons
}

// less returns a reason if x is under the limit, both in inches.
func less(what string, x, limit float64) []string {
	if x >= limit {
		return nil
	}
	return []string{fmt.Sprintf("%s %s in, under %g in: %s", what, short(x, 4), limit, mail101Sizes)}
}

// more returns a reason if x is over the limit, both in inches.
func more(what string, x, limit float64, source string) []string {
	if x <= limit {
		return nil
	}
	return []string{fmt.Sprintf("%s %s in, over %g in: %s", what, short(x, 4), limit, source)}
}
