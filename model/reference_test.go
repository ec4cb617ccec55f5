package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// The reference line against another model of it, which goes through every cycle and was
// written apart from this project's code: 1,000 shifts, means with the half-widths of their 95 %
// intervals. The means of both must agree within 99.9 %. That its operator refills along the
// track is inferred: the figures fit that order, and not the most urgent first, which is worth
// some 250 envelopes a shift.
func TestReferenceLine(t *testing.T) {
	const shifts = 2000
	figures := map[string]sim.Sample{}
	l := referenceLine()
	l.Crew.Order = AlongTheTrack
	s, err := New(l)
	require.NoError(t, err)
	var o Outcome
	for r := range shifts {
		require.NoError(t, s.Run(1, r, &o))
		for name, x := range map[string]int64{
			"good": o.Sets.Good, "diverted": o.Sets.Diverted, "outsorted": o.Sets.Outsorted,
			"spoiled": o.Sets.Spoiled, "refills": o.Crew().Stock.Done,
		} {
			figures[name] = append(figures[name], float64(x))
		}
		figures["stopped"] = append(figures["stopped"], float64(o.Stopped().Total()))
	}
	for _, c := range []struct {
		name       string
		mean, half float64
	}{
		{"good", 106_520, 220},
		{"diverted", 336.6, 1.3},
		{"outsorted", 70.7, 0.5},
		{"spoiled", 74.8, 0.4},
		{"refills", 271.3, 0.6},
		{"stopped", 7400, 45}, // seconds
	} {
		x := figures[c.name]
		theirs := c.half / 1.959964
		ours := x.SD() / math.Sqrt(shifts)
		z := (x.Mean() - c.mean) / math.Hypot(theirs, ours)
		assert.Lessf(t, math.Abs(z), z999, "%s: %.1f, want %.1f ± %.1f (%+.1f standard errors)", c.name, x.Mean(), c.mean, c.half, z)
		t.Logf("%s: %.1f ± %.1f, want %.1f ± %.1f (%+.1f standard errors)", c.name, x.Mean(), 1.96*ours, c.mean, c.half, z)
	}
	// Their standard deviation is 3,620; that of a standard deviation of n figures is some
	// sd/√(2n).
	assert.InDelta(t, 3620, figures["good"].SD(), z999*3620*math.Hypot(1/math.Sqrt(2*1000), 1/math.Sqrt(2*shifts)))
}
