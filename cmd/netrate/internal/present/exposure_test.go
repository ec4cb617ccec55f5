package present

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/runs"
	"netrate/model/study"
)

// A mean of 11 % hides that most shifts are clean and a few ruined; no figure of 0 stands without
// what it assumes, and none below a hundredth of a million is given to its last digit.
func TestExposureInWords(t *testing.T) {
	ruinedFew := &study.Exposure{
		Possible: true, Of: 400, Hit: 88, Share: 0.22, ShareLow: 0.18, ShareHigh: 0.264, Delivered: 10_000_000, Defective: 1_100_000,
		Incidents: 90, Longest: 20_641, Worst: 0.98,
		From: []study.ExposureSource{{Station: "letter", Fault: "misfeed", Personal: true, Incidents: 80}, {Station: "card", Fault: "double", Incidents: 10}},
	}
	said := exposureText(ruinedFew, "shift")
	assert.Equal(t, "Defective envelopes: some in 22 % of shifts (95 %: 18 % to 26 %), up to 20,641 in a row; 98 % of the worst shift. "+
		"90 incidents in 10,000,000 envelopes: letter, misfeed (89 %); card, double (11 %). Some of them hold pieces for different people.", said)
	ruinedFew.Year = &study.ExposureYear{Volume: 5e6, Incidents: 45, Low: 36, High: 55}
	assert.Contains(t, exposureText(ruinedFew, "shift"), "45 incidents a year at 5 million envelopes (95 %: 36 to 55): letter")
	assert.Equal(t, "defective envelopes in 22 % of shifts (18 % to 26 %), up to 20,641 in a row", exposureBrief(ruinedFew, "shift"))

	none := &study.Exposure{
		Possible: true, Of: 100, ShareHigh: 0.0362, Delivered: 3_000_000,
		Zero: &study.Zero{Repairs: true, Loads: true, Misfeeds: []string{"card"}, Doubles: []string{"card"}, Shipped: []string{"letter"}, Readers: []string{"reader"}},
	}
	assert.Equal(t, "Defective envelopes: none in 100 shifts (95 %: in at most 3.6 % of shifts) if every misfeed and double at card is noticed, "+
		"reader sees what goes on at letter, nothing is read wrongly and pieces are printed, loaded and put right as they should be.", exposureText(none, "shift"))
	none.Possible, none.Zero = false, &study.Zero{Repairs: true, Loads: true, Misfeeds: []string{"a", "b", "c", "d", "e"}, Doubles: []string{"a"}}
	assert.Equal(t, "Defective envelopes: none possible if every misfeed at a, b, c and 2 others is noticed, every double at a is noticed "+
		"and pieces are printed, loaded and put right as they should be.", exposureText(none, "shift"))
	assert.Equal(t, "nothing defective if every misfeed and double is noticed", exposureBrief(none, "shift"))
}

// A screen says whether what is defective holds pieces for different people, all of it or some; and of
// a missing leaflet it says nothing of the kind.
func TestWrongPairsOnTheScreen(t *testing.T) {
	exposed := func(personal ...bool) *study.Exposure {
		e := &study.Exposure{Possible: true, Of: 60, Hit: 6, Share: 0.1, ShareLow: 0.04, ShareHigh: 0.2, Delivered: 3_000_000, Defective: 12, Incidents: 8, Longest: 2}
		for i, is := range personal {
			e.From = append(e.From, study.ExposureSource{Station: string(rune('a' + i)), Fault: "misfeed", Personal: is, Incidents: 4})
		}
		return e
	}
	for want, e := range map[string]*study.Exposure{
		"They hold pieces for different people":         exposed(true, true),
		"Some of them hold pieces for different people": exposed(false, true),
		"": exposed(false, false),
	} {
		for _, file := range []string{"small.yaml", "matched.yaml"} { // one without remakes, and one with
			run, s := fileStudy(t, file, 4)
			run.Exposure = e
			saysOf(t, want, run.Text())
			c := Comparison{
				ComparisonAnswer: study.ComparedStudies([]study.Alternative{{Name: "base", Line: s.Line}, {Name: "other", Line: s.Line}}, []*runs.Study{s, s}, make([]*runs.UncertaintyStudy, 2)),
				Origins:          []page.Origin{run.Origin, run.Origin}, Command: "netrate compare " + file,
			}
			c.Lines[c.Leader].Exposures = []*study.Exposure{e}
			saysOf(t, want, c.Text())
		}
	}
}

// saysOf checks what a screen says of people; nothing where want is "".
func saysOf(t *testing.T, want, screen string) {
	t.Helper()
	flat := strings.Join(strings.Fields(screen), " ")
	assert.Contains(t, flat, want)
	assert.Equal(t, want != "", strings.Contains(flat, "different people"), screen)
}

// Of several jobs or lines each is said by itself, unless none delivered any.
func TestExposuresInWords(t *testing.T) {
	none := func(job string, high study.Number) *study.Exposure {
		return &study.Exposure{Job: job, Possible: true, Of: 100, ShareHigh: high, Zero: &study.Zero{Repairs: true, Loads: true, Misfeeds: []string{"card"}}}
	}
	some := &study.Exposure{Line: "slow", Possible: true, Of: 100, Hit: 10, Share: 0.1, ShareLow: 0.05, ShareHigh: 0.18, Defective: 12, Longest: 2}
	assert.Equal(t, "nothing defective in 100 shifts of each (95 %: in at most 4.0 % of shifts) if every misfeed and double is noticed",
		exposuresBrief([]*study.Exposure{none("a", 0.036), none("b", 0.04)}, "shift"))
	assert.Equal(t, "of a, nothing defective in 100 shifts (95 %: in at most 3.6 % of shifts) if every misfeed and double is noticed; "+
		"of slow, defective envelopes in 10 % of shifts (5.0 % to 18 %), up to 2 in a row",
		exposuresBrief([]*study.Exposure{none("a", 0.036), some}, "shift"))
	never := none("a", 1)
	never.Possible = false
	assert.Equal(t, "nothing defective if every misfeed and double is noticed", exposuresBrief([]*study.Exposure{never, never}, "shift"))
}

func TestPPM(t *testing.T) {
	for text, x := range map[string]float64{"0": 0, "<0.01": 0.00012, "0.012": 0.0123, "112": 112} {
		assert.Equal(t, text, ppmText(x))
	}
	assert.Equal(t, "<6.3", riskText(&study.Risk{PerMillion: 0.00012, Below: true, CountedHigh: 6.3}), "what takes two faults is bounded by the count")
	assert.Equal(t, "0.41", riskText(&study.Risk{PerMillion: 0.41, FromCount: true, Low: 0.4, High: 0.42}))
}

// Wherever a screen has no defective envelopes it says what that assumes.
func TestZeroIsNeverAlone(t *testing.T) {
	f, s := fileStudy(t, "matched.yaml", 3)
	require.Zero(t, s.Total.Sets.Defective)
	assert.Contains(t, f.Text(), "Defective None in 3 shifts (95 %: in at most 71 % of shifts) if no reader errs\n")
	c := variants(t, reps(3))
	for i := range c.Lines {
		c.Lines[i].Exposures[0].Possible, c.Lines[i].Exposures[0].Zero = false, &study.Zero{Repairs: true, Loads: true}
	}
	assert.Contains(t, strings.Join(strings.Fields(c.Text()), " "), "delivers nothing defective if every misfeed and double is noticed.")
}

// Where no fault can make a defective envelope, a table bounds none by a count; and where readers are
// several, they see.
func TestNonePossibleHasNoBounds(t *testing.T) {
	e := &study.Exposure{Of: 60, ShareHigh: 0.06, Year: &study.ExposureYear{Volume: 5e6, High: 6.5}}
	row := exposureRow("base", e)
	assert.Equal(t, "none possible", row[1].Text)
	for _, i := range []int{2, 3, 8, 9, 10} {
		assert.True(t, math.IsNaN(row[i].Number), "column %d", i)
	}
	z := &study.Zero{Repairs: true, Loads: true, Shipped: []string{"letter"}, Readers: []string{"a", "b"}}
	assert.Contains(t, zeroText(z), "a and b see what goes on at letter")
}
