package formats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sizes of the envelope are those of ISO 269:1985; the rest is reckoned by hand.
func TestFits(t *testing.T) {
	dl := Envelope{Name: "DL", Height: 110, Length: 220}
	none := Clearance{}
	for _, c := range []struct {
		name            string
		w, h, thickness float64
		c               Clearance
		fits            bool
	}{
		{"as large as the envelope", 220, 110, 0, none, true},
		{"a hair longer", 220.001, 110, 0, none, false},
		{"a hair higher", 220, 110.001, 0, none, false},
		{"exactly the clearance", 212, 105, 0, UsualClearance(), true},
		{"too long for the clearance", 212.01, 105, 0, UsualClearance(), false},
		{"too high for the clearance", 212, 105.01, 0, UsualClearance(), false},
		{"clearances of length and height are not mixed up", 215, 102, 0, UsualClearance(), false},
		{"exactly the thickness", 218, 108, 2, none, true},
		{"too thick for the length", 218, 107, 2.01, none, false},
		{"too thick for the height", 217, 108, 2.01, none, false},
		{"exactly both", 210, 103, 2, UsualClearance(), true},
		{"decimals that no computer holds", 219.8, 109.8, 0.1, Clearance{0.1, 0.1}, true},
		{"turned", 105, 212, 0, UsualClearance(), true},
		{"turned and too long", 105, 212.01, 0, UsualClearance(), false},
		{"a square that goes neither way", 150, 150, 0, none, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			reasons := Fits(dl, c.w, c.h, c.thickness, c.c)
			assert.Equal(t, c.fits, len(reasons) == 0, "%v", reasons)
		})
	}
}

// A letter of US size, folded in three, goes into #10 with room to spare: 241.3 − 215.9
// and 104.775 − 93.1 mm. A4 folded in three is 210 × 99 mm: 10 mm shorter than DL, 19 mm
// shorter than C6/C5.
func TestFitsKnownPairs(t *testing.T) {
	for _, c := range []struct {
		sheet    string
		fold     Fold
		envelope string
		c        Clearance
		fits     bool
	}{
		{"Letter", LetterFold, "#10", UsualClearance(), true},
		{"Letter", HalfFold, "6 × 9", UsualClearance(), true},
		{"Letter", NoFold, "9 × 12", UsualClearance(), true},
		{"Letter", HalfFold, "#10", Clearance{}, false},
		{"Legal", LetterFold, "#10", Clearance{}, false},
		{"Legal", DoubleParallelFold, "#10", UsualClearance(), true},
		{"A4", LetterFold, "C6/C5", UsualClearance(), true},
		{"A4", LetterFold, "DL", UsualClearance(), true},
		{"A4", LetterFold, "DL", Clearance{Length: 9, Height: 6}, true},
		{"A4", HalfFold, "C5", UsualClearance(), true},
		{"A4", NoFold, "C4", UsualClearance(), true},
		{"A4", QuarterFold, "C6", UsualClearance(), true},
		{"A4", NoFold, "C5", Clearance{}, false},
	} {
		t.Run(c.sheet+" "+c.fold.String()+" "+c.envelope, func(t *testing.T) {
			e, ok := Named(c.envelope)
			require.True(t, ok)
			p := Piece{Sheet: sheet(t, c.sheet), Sheets: 1, Fold: c.fold, Grammage: 80}
			w, h := p.Size()
			reasons := Fits(e, w, h, p.Thickness(), c.c)
			assert.Equal(t, c.fits, len(reasons) == 0, "%v", reasons)
		})
	}
}

func TestFitsReasons(t *testing.T) {
	dl := Envelope{Name: "DL", Height: 110, Length: 220}
	assert.Equal(t, []string{
		"not turned: set 212 mm long and 0.5 mm thick, envelope 220 mm: 7.5 mm left in length, want 8 mm",
		"not turned: set 120 mm high and 0.5 mm thick, envelope 110 mm: -10.5 mm left in height, want 5 mm",
	}, Fits(dl, 212, 120, 0.5, UsualClearance()))
	assert.Equal(t, []string{
		"turned: set 150 mm high and 0.5 mm thick, envelope 110 mm: -40.5 mm left in height, want 5 mm",
	}, Fits(dl, 150, 160, 0.5, UsualClearance()))
	upright := Envelope{Height: 220, Length: 110}
	assert.Equal(t, []string{
		"turned: set 240 mm high and 0 mm thick, envelope 220 mm: -20 mm left in height, want 0 mm",
	}, Fits(upright, 240, 50, 0, Clearance{}))

	nan := math.NaN()
	assert.Equal(t, []string{
		"height of the envelope is 0 mm, want above 0",
		"length of the envelope is NaN mm, want above 0",
		"width of the set is NaN mm, want above 0",
		"height of the set is +Inf mm, want above 0",
		"thickness of the set is -1 mm, want 0 or more",
		"clearance in length is NaN mm, want 0 or more",
		"clearance in height is -2 mm, want 0 or more",
	}, Fits(Envelope{Length: nan}, nan, math.Inf(1), -1, Clearance{nan, -2}))
}
