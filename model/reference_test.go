package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// The reference line against another model of it, which goes through every cycle and was
// written apart from this project's code: 1,000 shifts, means with the half-widths of their 95 %
// intervals. The means of both must agree within 99.9 %. Its operator refills first come, first
// served, and a hopper that is used up keeps its place among the refills.
func TestReferenceLine(t *testing.T) {
	l := referenceLine()
	l.Crew.Order, l.Crew.Exhausted = FirstCome, InTurn
	figures := referenceFigures(t, l)
	for name, want := range referenceMeans {
		z := want.off(figures[name])
		assert.Lessf(t, math.Abs(z), z999, "%s: %.1f, want %.1f ± %.1f (%+.1f standard errors)", name, figures[name].Mean(), want.mean, want.half, z)
	}
	// Their standard deviation is 3,620; that of a standard deviation of n figures is some
	// sd/√(2n).
	shifts := float64(len(figures["good"]))
	assert.InDelta(t, 3620, figures["good"].SD(), z999*3620*math.Hypot(1/math.Sqrt(2*1000), 1/math.Sqrt(2*shifts)))
}

// The figures tell the rule from others, by the hoppers used up: 3.2 to 5.0 a shift with those.
func TestReferenceLineTellsTheRule(t *testing.T) {
	for _, c := range []Crew{
		{Order: FirstCome, Exhausted: WithTheStops},
		{Order: AlongTheTrack, Exhausted: InTurn},
		{Order: AlongTheTrack, Exhausted: WithTheStops},
		{Order: MostUrgent, Exhausted: WithTheStops},
	} {
		l := referenceLine()
		l.Crew.Order, l.Crew.Exhausted = c.Order, c.Exhausted
		usedUp := referenceFigures(t, l)["hoppers used up"]
		assert.Greaterf(t, referenceMeans["hoppers used up"].off(usedUp), z999, "%v, %v", c.Order, c.Exhausted)
	}
}

// referenceMean is a mean of 1,000 shifts with the half-width of its 95 % interval.
type referenceMean struct{ mean, half float64 }

var referenceMeans = map[string]referenceMean{
	"good":            {106_520, 220},
	"diverted":        {336.6, 1.3},
	"outsorted":       {70.7, 0.5},
	"spoiled":         {74.8, 0.4},
	"refills":         {271.3, 0.6},
	"hoppers used up": {2.00, 0.03},
	"stopped":         {7400, 45},   // seconds
	"operator busy":   {16_667, 12}, // seconds
}

// off returns by how many standard errors a sample's mean is off it.
func (m referenceMean) off(x sim.Sample) float64 {
	ours := x.SD() / math.Sqrt(float64(len(x)))
	return (x.Mean() - m.mean) / math.Hypot(m.half/1.959964, ours)
}

// referenceFigures returns what shifts of a line come to, by the names of referenceMeans.
func referenceFigures(t *testing.T, l *Line) map[string]sim.Sample {
	t.Helper()
	figures := map[string]sim.Sample{}
	for _, o := range outcomes(t, l, 1, 2000) {
		crew := o.Crew()
		usedUp := int64(0)
		for i := range o.Stations {
			usedUp += o.Stations[i].Stops[CauseStock].Count
		}
		for name, x := range map[string]float64{
			"good": float64(o.Sets.Good), "diverted": float64(o.Sets.Diverted),
			"outsorted": float64(o.Sets.Outsorted), "spoiled": float64(o.Sets.Spoiled),
			"refills": float64(crew.Stock.Done), "hoppers used up": float64(usedUp),
			"stopped":       float64(o.Stopped().Total()),
			"operator busy": float64(crew.Clearing.Busy() + crew.Stock.Busy()),
		} {
			figures[name] = append(figures[name], x)
		}
	}
	return figures
}
