package formats

import (
	"fmt"
	"math"
)

// Clearance is how much smaller than its envelope a set must be.
type Clearance struct {
	Length float64 // mm, both ends together
	Height float64 // mm, top and bottom together
}

// UsualClearance returns what inserting by machine is often said to want: common practice,
// no source. It lets a third of A4 go into DL, which is made for it. The manual of the
// machine goes before it.
func UsualClearance() Clearance { return Clearance{Length: 8, Height: 5} }

// Fits returns why a set of w × h mm and of that thickness does not go into the envelope;
// nothing if it goes, either not turned, w along the length of the envelope, or turned by
// a quarter. The reasons are about the way round that lacks less.
//
// The thickness takes as much again from each side. An envelope of length L is a loop of
// 2L, and closes round a set of length l and thickness t only if 2L is at least 2(l + t).
//
// What is not a size, NaN included, is a reason.
func Fits(e Envelope, w, h, thickness float64, c Clearance) []string {
	if reasons := noSizes(e, w, h, thickness, c); len(reasons) > 0 {
		return reasons
	}
	straight, spare := tryWay("not turned", e, w, h, thickness, c)
	if turned, other := tryWay("turned", e, h, w, thickness, c); other > spare {
		return turned
	}
	return straight
}

// tryWay returns why a set of the given length and height does not go in that way round,
// and what it has to spare beyond the clearance, in mm, on the side where that is less.
func tryWay(way string, e Envelope, length, height, thickness float64, c Clearance) (reasons []string, spare float64) {
	spare = math.Inf(1)
	for _, side := range []struct {
		what, of            string
		set, envelope, want float64
	}{
		{"length", "long", length, e.Length, c.Length},
		{"height", "high", height, e.Height, c.Height},
	} {
		left := side.envelope - thickness - side.set
		spare = min(spare, left-side.want)
		if left < side.want-hair { // no NaN comes here
			reasons = append(reasons, fmt.Sprintf(
				"%s: set %s mm %s and %s mm thick, envelope %s mm: %s mm left in %s, want %s mm",
				way, short(side.set, 1), side.of, short(thickness, 2), short(side.envelope, 1),
				short(left, 2), side.what, short(side.want, 2)))
		}
	}
	return reasons, spare
}

// noSizes returns which of the numbers cannot be sizes.
func noSizes(e Envelope, w, h, thickness float64, c Clearance) (reasons []string) {
	want := func(ok bool, what string, x float64, wanted string) {
		if !ok || math.IsInf(x, 0) {
			reasons = append(reasons, fmt.Sprintf("%s is %g mm, want %s", what, x, wanted))
		}
	}
	want(e.Height > 0, "height of the envelope", e.Height, "above 0")
	want(e.Length > 0, "length of the envelope", e.Length, "above 0")
	want(w > 0, "width of the set", w, "above 0")
	want(h > 0, "height of the set", h, "above 0")
	want(thickness >= 0, "thickness of the set", thickness, "0 or more")
	want(c.Length >= 0, "clearance in length", c.Length, "0 or more")
	want(c.Height >= 0, "clearance in height", c.Height, "0 or more")
	return reasons
}
