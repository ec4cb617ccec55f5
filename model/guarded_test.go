package model

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is for one addressee is shipped by no strategy that is looked at, unless the line itself
// ships it: of its two readings and of what puts its two streams out of step.
func TestGuardedDecisions(t *testing.T) {
	l := lanesLine(func(_ *Line, a, b *Feeder, r *Reader) {
		a.Misfeed, b.Misfeed = 0.001, 0.001
		r.NoRead = 0.001
	})
	require.Empty(t, l.Check())
	shipped := func(all []Decision) (faults []string) {
		for _, d := range all {
			if slices.Contains(d.Responses, Ship) {
				faults = append(faults, l.Stations[d.Station].Where().Name+" "+d.Fault.String())
			}
		}
		return faults
	}
	reader := slices.IndexFunc(l.Stations, func(s Station) bool { _, ok := s.(*Reader); return ok })
	name := l.Stations[reader].Where().Name
	assert.Contains(t, shipped(l.Decisions()), name+" no read")
	leaflet := []string{"leaflet misfeed", "leaflet double"} // defective, and counted so, but for nobody else
	assert.Equal(t, leaflet, shipped(l.GuardedDecisions()))
	assert.Len(t, l.GuardedDecisions(), len(l.Decisions()), "a strategy has an answer to each")
	assert.False(t, l.ShipsUnread(l.Strategy()))

	*l.Stations[reader].Answer(NoRead) = Ship
	require.Empty(t, l.Check())
	assert.Equal(t, append(leaflet, name+" no read"), shipped(l.GuardedDecisions()))
	assert.True(t, l.ShipsUnread(l.Strategy()))
}

// A line without addressees may ship whatever its gates can.
func TestGuardedDecisionsOfAnyInsert(t *testing.T) {
	l := referenceLine()
	assert.Equal(t, l.Decisions(), l.GuardedDecisions())
}
