package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// Every draw of what is uncertain is another one.
func TestDrawsOfUncertainInputs(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 1800
	name := l.Stations[0].Where().Name
	l.UncertainInputs = []model.UncertainInput{{Station: name, Name: "misfeed", Of: output.Counted{Seen: 30, Of: 60_000}}}
	studies, _, err := RunUncertain(context.Background(), []*model.Line{l}, sim.Plan{Seed: 1, Min: 40, Max: 40}, 2, nil)
	require.NoError(t, err)
	seen := map[float64]bool{}
	for _, values := range studies[0].Values {
		require.Len(t, values, 1)
		assert.False(t, seen[values[0]], "%v is drawn twice", values[0])
		seen[values[0]] = true
	}
	assert.Len(t, seen, len(studies[0].Values))
}

// The shares of the causes come to 1 at most, also where the regression on the draws explains
// more than chance leaves between them.
func TestSharesHaveAFloor(t *testing.T) {
	// 12 draws of one shift's twin, whose means follow the values exactly: by 40 to either side the shifts of
	// a draw differ more than draws do, by 3 so much that less is taken to last than the values explain.
	for _, apart := range []float64{40, 3} {
		l := modeltest.ReferenceLine()
		s := &UncertaintyStudy{Study: &Study{Line: l, Each: 2}}
		l.UncertainInputs = []model.UncertainInput{{Station: l.Stations[0].Where().Name, Name: "misfeed", Of: output.Counted{Seen: 30, Of: 60_000}}}
		var all sim.Sample
		for i := range 12 {
			x := float64(i)
			s.Values = append(s.Values, []float64{x})
			all = append(all, x+apart, x-apart)
		}
		d := s.uncertainFigure(all)
		sum := 0.0
		for _, source := range d.Sources {
			assert.GreaterOrEqual(t, source.Share, 0.0)
			sum += source.Share
		}
		require.NotEmpty(t, d.Sources)
		assert.LessOrEqual(t, sum, 1+1e-9)
		assert.Positive(t, sum)
	}
}

// Beside a line of which something is uncertain one of which nothing is is drawn as often: it is known as
// well as by itself, and no worse for what the other does not know.
func TestNothingLastsOfWhatIsCertain(t *testing.T) {
	r := sim.NewStream("certain", "rates")
	r.Seed(1, 0)
	var rates sim.Sample
	for range 500 * 4 {
		rates = append(rates, 10_000+300*r.Normal())
	}
	l := modeltest.ReferenceLine()
	s := &Study{Line: l, Each: 4}
	alone := rates.Interval(0.95)
	assert.InEpsilon(t, alone.Half, s.IntervalOf(rates, 0.95).Half, 0.1)
	l.UncertainInputs = []model.UncertainInput{{Station: l.Stations[0].Where().Name, Name: "misfeed", Of: output.Counted{Seen: 30, Of: 60_000}}}
	assert.Greater(t, s.IntervalOf(rates, 0.95).Half, 2*alone.Half, "of what is uncertain 500 draws cannot show that nothing lasts")
}
