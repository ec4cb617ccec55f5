package model

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// A line that a program builds carelessly is refused with what is wrong, where a file could not even
// say it: nothing is ignored in silence, and nothing panics.
func TestCarelessLines(t *testing.T) {
	first := func(l *Line) *Feeder { return firstOf[*Feeder](l) }
	for name, c := range map[string]struct {
		spoil func(*Line)
		want  string
	}{
		"no station":             {func(l *Line) { l.Stations[1] = nil }, "station 1 of the line is nil"},
		"a pointer to none":      {func(l *Line) { l.Stations[1] = (*Feeder)(nil) }, "station 1 of the line is nil"},
		"a streak not given":     {func(l *Line) { first(l).Streak.Again = 0.3 }, "streak.again is 0.3, and Given is not set, so that misfeeds would be independent"},
		"a bin that never fills": {func(l *Line) { firstOf[*TrackGate](l).Bin = Stock{Work: sim.Constant(30)} }, "the bin never fills up, as its capacity is 0, and has a warning or a time for work: give its capacity"},
		"no such response":       {func(l *Line) { first(l).OnMisfeed = 99 }, "there is no response 99 to a misfeed"},
		"nor one below":          {func(l *Line) { firstOf[*Inserter](l).OnFlap = -1 }, "there is no response -1 to a flap"},
		"no such order":          {func(l *Line) { l.Crew.Order = 9 }, "there is no order 9"},
		"no such place":          {func(l *Line) { l.Crew.Exhausted = 9 }, "there is no place 9 of stocks that are used up"},
		"no such closing":        {func(l *Line) { l.Shift, l.Job = 0, Job{Sets: 100, Closing: 9} }, "there is no way 9 to close remakes"},
		"remakes by nobody":      {func(l *Line) { l.Shift, l.Job = 0, Job{Sets: 100, PerHour: 60} }, "60 remakes an hour are made by hand, and Closing is not ByHand or Beside"},
		"time backwards":         {func(l *Line) { first(l).Clear = sim.Constant(-5) }, "clear has a mean that is negative, infinite or no number: want a time"},
		"a time that is none":    {func(l *Line) { first(l).Hopper.Work = sim.Constant(math.NaN()) }, "hopper.refill has a mean that is negative, infinite or no number: want a time"},
		"a walk without end":     {func(l *Line) { l.Crew.Walk = sim.Constant(math.Inf(1)) }, "crew.walk has a mean that is negative, infinite or no number: want a time"},
	} {
		t.Run(name, func(t *testing.T) {
			l := referenceLine()
			require.Empty(t, l.Check())
			c.spoil(l)
			assert.ErrorContains(t, errors.Join(l.Check()...), c.want)
			_, err := New(l)
			assert.ErrorContains(t, err, c.want)
		})
	}
}
