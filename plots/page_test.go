package plots

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{0, 0, "0"},
		{999, 0, "999"},
		{1000, 0, "1,000"},
		{-1234567.891, 1, "−1,234,567.9"},
		{-0.004, 2, "0.00"},
		{0.5, 2, "0.50"},
		{1e9, 0, "1,000,000,000"},
	} {
		assert.Equal(t, c.want, number(c.x, c.decimals))
	}
	assert.Equal(t, []string{"+5", "−5", "0", "0"}, []string{signed(5, 0), signed(-5, 0), signed(0, 0), signed(0.2, 0)})
	assert.Equal(t, []string{"0 %", "97.5 %"}, []string{percent(0, 1), percent(0.975, 3)})
}

func TestUncertainty(t *testing.T) {
	for want, e := range map[string]sim.Estimate{
		"14,300 ± 30":               estimate(14301.4, 26.2),
		"14,300 ± 200":              estimate(14301.4, 212),
		"14,300 ± 190":              estimate(14301.4, 194),
		"0.9753 ± 0.0012":           estimate(0.97531, 0.00123),
		"14,301 ± 0":                estimate(14301, 0),
		"14,301 (interval unknown)": estimate(14301, math.Inf(1)),
		"0.0 ± 1.5":                 estimate(0, 1.5),
		"1,000,000,000 ± 0":         estimate(1e9, 1e-8),
	} {
		assert.Equal(t, want, uncertainty(e, number))
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      []float64
		places    int
	}{
		{0, 8, 5, []float64{0, 2, 4, 6, 8}, 0},
		{12950, 17010, 6, []float64{13000, 14000, 15000, 16000, 17000}, 0},
		{-0.13, 0.34, 6, []float64{-0.1, 0, 0.1, 0.2, 0.3}, 1},
		{0, 1, 6, []float64{0, 0.2, 0.4, 0.6, 0.8, 1}, 1},
	} {
		at, places := ticks(c.low, c.high, c.most)
		assert.InDeltaSlice(t, c.want, at, 1e-9)
		assert.Equal(t, c.places, places)
	}
}

func TestSpread(t *testing.T) {
	for _, c := range []struct {
		xs        []float64
		low, high float64
	}{
		{[]float64{100, 200}, 96, 204},
		{[]float64{1, 101}, 0, 105}, // not below zero
		{[]float64{-101, -1}, -105, 0},
		{[]float64{-50, 50}, -54, 54},
		{[]float64{200, 200}, 190, 210},
		{[]float64{0}, 0, 1},
	} {
		low, high := spread(c.xs...)
		assert.InDeltaSlice(t, []float64{c.low, c.high}, []float64{low, high}, 1e-9, "%v", c.xs)
	}
}

func TestScale(t *testing.T) {
	up := scale{10, 20, 300, 100}
	assert.InDeltaSlice(t, []float64{300, 200, 100}, []float64{up.at(10), up.at(15), up.at(20)}, 1e-9)
}

// Widths of Liberation Sans in units of 1/2048 of its size, as those of Arial: a
// digit is 1139 wide, a space 569 (from memory).
func TestWidths(t *testing.T) {
	f := face{size: 2048}
	assert.InDelta(t, 1139, f.width("0"), 1)
	assert.InDelta(t, 3*1139+569, f.width("12 3"), 3)
	assert.Greater(t, face{size: 9, bold: true}.width("name"), face{size: 9}.width("name"))
}

func TestWrap(t *testing.T) {
	wide := func(s string) float64 { return textFace.width(s) }
	for _, c := range []struct {
		name, text string
		width      float64
		most       int
		want       []string
	}{
		{"nothing", " \n ", 100, 3, nil},
		{"fits", "one  two", wide("one two"), 3, []string{"one two"}},
		{"between words", "one two three", wide("one two"), 3, []string{"one two", "three"}},
		{"within a word", "oneword", wide("onew"), 3, []string{"onew", "ord"}},
		{"too much", "one two three four", wide("one two"), 2, []string{"one two", "three…"}},
		{"no room at all", "ab", 0.1, 3, []string{"a", "b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, textFace.wrap(c.text, c.width, c.most))
		})
	}
	assert.Equal(t, "ä…", textFace.shorten("ääää", wide("ä…")), "characters stay whole")
}

// L* of CIE: white 100, black 0, and mid-grey #777777 is 50 (50.03 by the formula,
// computed, no print found).
func TestLightness(t *testing.T) {
	assert.InDelta(t, 100, lightness(paper), 1e-6)
	assert.InDelta(t, 0, lightness(rgb(0)), 1e-9)
	assert.InDelta(t, 50, lightness(rgb(0x777777)), 0.1)
}

// The line that is recommended stands out from the base and both from all others in grey print
// too, and fourteen lines are told apart by colour, dashes and width.
func TestRolesAreToldApart(t *testing.T) {
	seen := map[string]bool{}
	strong := Recommended.pen()
	for i := range 14 {
		p := Role(i).pen()
		seen[fmt.Sprint(p)] = true
		assert.GreaterOrEqual(t, contrast(p.colour, paper), 3.0, "role %d on paper", i)
		if i > 0 {
			assert.GreaterOrEqual(t, lightness(p.colour)-lightness(strong.colour), 15.0, "role %d is darker than what is recommended", i)
			assert.Less(t, p.width, strong.width)
		}
		assert.NotEqual(t, vermilion, p.colour, "that is what is lost")
	}
	assert.Len(t, seen, 14, "roles that look alike")
	assert.Equal(t, []Role{Recommended, Base, Other(0)}, roles(make([]Role, 3)), "where none is given")
	assert.Equal(t, []Role{Base, Recommended}, roles([]Role{Base, Recommended}))
}

// Marks differ in their shape, and a hollow one is paper inside.
func TestRolesHaveMarks(t *testing.T) {
	shapes := map[string]bool{}
	for i := range len(marks) {
		m := Role(i).mark(point{}, 10, true, "")
		shape := "disc"
		if a, ok := m[0].(area); ok {
			shape = fmt.Sprintf("%.2f", a.corners)
			assert.Equal(t, paper, a.fill)
		}
		shapes[shape] = true
	}
	assert.Len(t, shapes, len(marks))
}

// The states of a timeline are told apart in grey print.
func TestStatesAreToldApart(t *testing.T) {
	for i := range looks {
		for k := range i {
			assert.GreaterOrEqual(t, math.Abs(lightness(looks[i].fill)-lightness(looks[k].fill)), 9.0,
				"%s and %s", looks[i].name, looks[k].name)
		}
	}
}

func TestTextCanBeRead(t *testing.T) {
	assert.GreaterOrEqual(t, contrast(ink, paper), 7.0)
	assert.GreaterOrEqual(t, contrast(muted, paper), 4.5)
	for i := range 21 {
		c := shade(float64(i), 0, 20)
		assert.GreaterOrEqual(t, contrast(textOn(c), c), 3.4, "on shade %d of 20", i)
	}
}

// contrast returns the ratio of luminances. Source: WCAG 2.1, relative luminance and
// contrast ratio (from memory), which asks 4.5 of text and 3 of lines.
func contrast(a, b colour) float64 {
	y := func(c colour) float64 {
		if l := lightness(c); l > 8 {
			return math.Pow((l+16)/116, 3)
		} else {
			return l * 27 / 24389
		}
	}
	high, low := max(y(a), y(b)), min(y(a), y(b))
	return (high + 0.05) / (low + 0.05)
}
