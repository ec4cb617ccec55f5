package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Who counts events changes none; each timer of the track counts for its kind.
func TestEventsByKind(t *testing.T) {
	l := referenceLine()
	s, err := New(l)
	require.NoError(t, err)
	var plain, counted Outcome
	require.NoError(t, s.Run(1, 0, &plain))
	byKind, last := s.CountEvents()
	before := last()
	require.NoError(t, s.Run(1, 0, &counted))
	assert.Equal(t, plain, counted)
	assert.Equal(t, before, last())
	assert.Positive(t, *byKind["feeder.attempt"])
	assert.GreaterOrEqual(t, *byKind["stock.due"], counted.Crew().Stock.Calls)
	all := int64(0)
	for _, n := range byKind {
		all += *n
	}
	assert.Less(t, all, int64(last()), "the others are by the shop clock")
}
