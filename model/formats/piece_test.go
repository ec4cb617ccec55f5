package formats

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sheet(t *testing.T, name string) Sheet {
	t.Helper()
	s, ok := SheetNamed(name)
	require.True(t, ok, name)
	return s
}

// Counted on a folded sheet.
func TestFolds(t *testing.T) {
	for _, c := range []struct {
		fold          Fold
		layers        int
		width, height float64 // A4, mm
		names         []string
	}{
		{NoFold, 1, 210, 297, []string{"none", "None", "no fold", "unfolded", "flat"}},
		{HalfFold, 2, 210, 148.5, []string{"half", "half-fold", "single fold"}},
		{LetterFold, 3, 210, 99, []string{"letter", "Letter fold", "C-fold", "tri-fold"}},
		{ZFold, 3, 210, 99, []string{"z", "Z-fold", "zig-zag"}},
		{DoubleParallelFold, 4, 210, 74.25, []string{"double parallel", "double-parallel fold"}},
		{QuarterFold, 4, 105, 148.5, []string{"quarter", "cross fold", "right-angle fold"}},
	} {
		t.Run(c.fold.String(), func(t *testing.T) {
			assert.Equal(t, c.layers, c.fold.Layers())
			width, height := c.fold.Size(sheet(t, "A4"))
			assert.Equal(t, [2]float64{c.width, c.height}, [2]float64{width, height})
			for _, name := range append(c.names, c.fold.String(), strings.ToUpper(c.fold.String())) {
				got, err := ParseFold(name)
				assert.NoError(t, err)
				assert.Equal(t, c.fold, got, name)
			}
		})
	}
	for _, name := range []string{"", "fold", "folded", "halve", "gate", "4"} {
		t.Run("unknown "+name, func(t *testing.T) {
			_, err := ParseFold(name)
			assert.ErrorContains(t, err, "want none, half, letter, z, double parallel or quarter")
		})
	}
	assert.Equal(t, "Fold(-1)", Fold(-1).String())
	assert.PanicsWithValue(t, "formats: Fold(6) is none of the folds", func() { Fold(6).Layers() })
}

// However it is folded, the layers times the folded size is the sheet.
func TestFoldsKeepTheArea(t *testing.T) {
	for _, s := range Sheets() {
		for f := range folds {
			width, height := Fold(f).Size(s)
			assert.InEpsilon(t, s.Width*s.Height, width*height*float64(Fold(f).Layers()), 1e-12, "%s %v", s.Name, Fold(f))
		}
	}
}

// By hand. A sheet of A4 is 0.06237 m², so two of 80 g/m² are 9.9792 g; folded in three
// they are 6 layers of 0.104 mm.
func TestPiece(t *testing.T) {
	p := Piece{Sheet: sheet(t, "A4"), Sheets: 2, Fold: LetterFold, Grammage: 80}
	require.NoError(t, p.Check())
	assert.InDelta(t, 9.9792, p.Weight(), 1e-9)
	assert.InDelta(t, 0.624, p.Thickness(), 1e-9)
	p.Bulk = 1
	assert.InDelta(t, 0.48, p.Thickness(), 1e-9)
}

// A ream of bond, 500 sheets of 17 × 22 in, cut in four is 2000 letter sheets. So one of
// 20 lb paper weighs a hundredth of a pound, 4.5359237 g: from the definition of the basis
// weight, computed.
func TestPieceOfBond(t *testing.T) {
	p := Piece{Sheet: sheet(t, "Letter"), Sheets: 1, Grammage: Bond.Grammage(20)}
	assert.InEpsilon(t, 4.5359237, p.Weight(), 1e-12)
	assert.InEpsilon(t, 0.16, Ounces(p.Weight()), 1e-12)
}

func TestPieceCheck(t *testing.T) {
	good := Piece{Sheet: sheet(t, "A4"), Sheets: 1, Grammage: 80}
	for _, c := range []struct {
		name   string
		change func(*Piece)
		want   string // "" if the piece can be
	}{
		{"plain", func(*Piece) {}, ""},
		{"bulk given", func(p *Piece) { p.Bulk = 0.9 }, ""},
		{"bulk below 0", func(p *Piece) { p.Bulk = -1 }, "bulk is -1 cm³/g, want above 0"},
		{"bulk no number", func(p *Piece) { p.Bulk = math.NaN() }, "bulk is NaN cm³/g, want above 0"},
		{"no sheets", func(p *Piece) { p.Sheets = 0 }, "the piece has 0 sheets, want 1 or more"},
		{"no width", func(p *Piece) { p.Sheet.Width = 0 }, "width of the sheet is 0 mm, want above 0"},
		{"height no number", func(p *Piece) { p.Sheet.Height = math.NaN() }, "height of the sheet is NaN mm, want above 0"},
		{"endless weight", func(p *Piece) { p.Grammage = math.Inf(1) }, "grammage is +Inf g/m², want above 0"},
		{"no such fold", func(p *Piece) { p.Fold = 7 }, "fold is Fold(7), want one of the list"},
		{
			"two faults", func(p *Piece) { p.Grammage, p.Sheets = 0, -1 },
			"grammage is 0 g/m², want above 0\nthe piece has -1 sheets, want 1 or more",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := good
			c.change(&p)
			if err := p.Check(); c.want == "" {
				assert.NoError(t, err)
			} else {
				assert.EqualError(t, err, c.want)
			}
		})
	}
}
