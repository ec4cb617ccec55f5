package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim/output"
)

// lotted returns everything.yaml with lots and days in it.
func lotted(letter, days string) string {
	text := strings.Replace(everything, "  restart: 4 s", "  restart: 4 s\n  days: "+days, 1)
	return strings.Replace(text, "      name: letter\n", "      name: letter\n      lots: "+letter+"\n", 1)
}

const (
	someDays = "{cv: 0.3, every: 6 h, level: 1.2, drift: [{from: 0 min, times: 2}, {from: 30 min, times: 0.9}]}"
	allLots  = lotKeys + someDays // every key of lots and days, for the test that none is forgotten
	lotKeys  = "lots: {of: 4000, bad: 5%, times: 8} {factors: [1]}"
)

// Lots are read in each of their three forms, and days.
func TestLotsAreRead(t *testing.T) {
	for text, want := range map[string]model.Lots{
		"{of: 4000, cv: 0.8}":                  {Of: 4000, CV: 0.8},
		"{of: 4000, bad: 5%, times: 8}":        {Of: 4000, Bad: 0.05, Times: 8},
		"{of: 4000, factors: [0.5, 0.5, 2.0]}": {Of: 4000, Factors: []float64{0.5, 0.5, 2}},
	} {
		sc, err := Load("lots.yaml", []byte(lotted(text, someDays)))
		require.NoError(t, err)
		assert.Equal(t, want, *model.LotsOf(sc.Line.Stations[0]))
		assert.Equal(t, model.Days{CV: 0.3, Hours: 6, Level: 1.2, Drift: []model.DriftStep{{From: 0, Times: 2}, {From: 0.5, Times: 0.9}}}, sc.Line.Days)
	}
}

// The numbers of lots and days may be uncertain, and be set.
func TestLotsMayBeUncertain(t *testing.T) {
	between := func(low, likely, high float64) output.Prior {
		return output.Between{Low: low, Likely: likely, High: high}
	}
	for at, c := range map[string]struct {
		lots, days string
		want       model.UncertainInput
	}{
		"cv of lots": {"{of: 4000, cv: {low: 0.1, likely: 0.8, high: 2}}", "{cv: 0.3}", model.UncertainInput{Station: "letter", Name: "lots.cv", Of: between(0.1, 0.8, 2)}},
		"bad lots":   {"{of: 4000, bad: {low: 1%, likely: 5%, high: 10%}, times: 8}", "{cv: 0.3}", model.UncertainInput{Station: "letter", Name: "lots.bad", Of: between(0.01, 0.05, 0.1)}},
		"times":      {"{of: 4000, bad: 5%, times: {low: 2, likely: 8, high: 10}}", "{cv: 0.3}", model.UncertainInput{Station: "letter", Name: "lots.times", Of: between(2, 8, 10)}},
		"cv of days": {"{of: 4000, cv: 1}", "{cv: {about: 0.3, se: 0.1}}", model.UncertainInput{Name: "line.days.cv", Of: output.About{Mean: 0.3, Error: 0.1, Most: model.MostCV}}},
		"level":      {"{of: 4000, cv: 1}", "{cv: 0.3, level: {about: 1, se: 0.1}}", model.UncertainInput{Name: "line.days.level", Of: output.About{Mean: 1, Error: 0.1}}},
	} {
		t.Run(at, func(t *testing.T) {
			sc, err := Load("lots.yaml", []byte(lotted(c.lots, c.days)))
			require.NoError(t, err)
			var got *model.UncertainInput
			for i := range sc.Line.UncertainInputs {
				if sc.Line.UncertainInputs[i].Path() == c.want.Path() {
					got = &sc.Line.UncertainInputs[i]
				}
			}
			require.NotNil(t, got, fmt.Sprint(sc.Line.UncertainInputs))
			assert.Equal(t, c.want.Of, got.Of)
			drawn, _ := sc.Line.Drawn(1, 1)
			require.Empty(t, drawn.Check())
			assert.NotEqual(t, sc.Line.Days.CV+sc.Line.Days.Level+model.LotsOf(sc.Line.Stations[0]).Spread(),
				drawn.Days.CV+drawn.Days.Level+model.LotsOf(drawn.Stations[0]).Spread(), "nothing was drawn")
		})
	}
}
