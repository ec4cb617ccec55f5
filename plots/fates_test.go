package plots

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A part is as long as its number, begins where the last one ended, and the total is
// their sum.
func TestFateBars(t *testing.T) {
	f := made(t)(Fates(FatesData{
		Parts: []Part{{"defective", ""}, {"diverted", "misfeed"}, {"spoiled", "jam"}},
		Bars:  []FateBar{{"stop", []float64{0.002, 0, 4}}, {"divert", []float64{0, 6, 2}}},
	}))
	stop, divert, jam := tipped(f, "stop: spoiled, jam 4.00")[0], tipped(f, "divert: diverted, misfeed 6.00")[0], tipped(f, "divert: spoiled")[0]
	assert.InDelta(t, 1.5, divert.width()/stop.width(), 1e-9)
	assert.InDelta(t, divert.right, jam.left, 1e-9)
	assert.InDelta(t, 3, divert.width()/jam.width(), 1e-9)
	assert.Empty(t, tipped(f, "divert: defective"), "nothing of it")
	assert.InDelta(t, narrowest, tipped(f, "stop: defective 0.0020")[0].width(), 1e-9, "short, but seen")
	assert.Subset(t, texts(f), []string{"4.00", "8.00", "a 0.0020", "spoiled, jam 4.00", "b  diverted, misfeed"})
}

// What does not occur takes no letter.
func TestLettersOfFates(t *testing.T) {
	f := made(t)(Fates(FatesData{
		Parts: []Part{{"defective", ""}, {"diverted", "misfeed"}, {"outsorted", ""}, {"spoiled", "jam"}},
		Bars:  []FateBar{{"stop", []float64{0, 0.001, 0, 4}}},
	}))
	assert.Subset(t, texts(f), []string{"a  diverted, misfeed", "b  spoiled, jam", "a 0.0010"})
	assert.NotContains(t, strings.Join(texts(f), "\n"), "c ")
}

func TestNothingLost(t *testing.T) {
	f := made(t)(Fates(FatesData{Parts: []Part{{"spoiled", ""}}, Bars: []FateBar{{"stop", []float64{0}}}}))
	assert.Contains(t, texts(f), "no set is lost")
	assert.Empty(t, misplaced(f))
}

// Every amount is said: in its bar or below it.
func TestEveryFateIsSaid(t *testing.T) {
	d := fatesOf(head, 12, plainName)
	f := made(t)(Fates(d))
	for i := range d.Parts {
		n := 0
		for _, said := range texts(f) {
			in := strings.HasPrefix(said, d.Parts[i].says()+" ") || strings.Contains(" "+said, " "+letter(i)+" ")
			if in && said != d.Axis && !strings.Contains(said, "  ") { // two spaces are the legend's
				n++
			}
		}
		assert.Equal(t, len(d.Bars), n, "part %s", letter(i))
	}
}

func TestFlow(t *testing.T) {
	wide := smallFace.width("a 1 · b 2")
	assert.Equal(t, []string{"a 1 · b 2", "c 3"}, flow(smallFace, []string{"a 1", "b 2", "c 3"}, wide, 3))
	assert.Empty(t, flow(smallFace, nil, wide, 3))
	cut := flow(smallFace, []string{"a 1", "b 2", "c 3"}, wide, 1)
	assert.Len(t, cut, 1)
	assert.True(t, strings.HasSuffix(cut[0], "…"), cut[0])
}

// Parts side by side are told apart in grey print, within a fate and between two;
// their numbers can be read.
func TestFatesAreToldApart(t *testing.T) {
	for causes := 1; causes <= 5; causes++ {
		t.Run(fmt.Sprint(causes, " causes each"), func(t *testing.T) { partsAreToldApart(t, causes) })
	}
}

func partsAreToldApart(t *testing.T, causes int) {
	t.Helper()
	var d FatesData
	for _, fate := range []string{"defective", "diverted", "outsorted", "spoiled", "other"} {
		for range causes {
			d.Parts = append(d.Parts, Part{Fate: fate})
		}
	}
	looks := d.looks()
	for i, look := range looks {
		assert.GreaterOrEqual(t, contrast(textOn(look), look), 3.4, "on part %d", i)
		if i > 0 {
			assert.GreaterOrEqual(t, math.Abs(lightness(look)-lightness(looks[i-1])), 5.0, "parts %d and %d", i-1, i)
		}
	}
}
