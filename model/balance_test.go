package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// A ledger that is off by one set, one piece or a tenth of a second must be named.
func TestBalance(t *testing.T) {
	l := referenceLine()
	l.Shift = 3600
	s, err := New(l)
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		spoil func(o *Outcome)
		want  string // "" if it balances
	}{
		{"untouched", func(*Outcome) {}, ""},
		{"time to rounding", func(o *Outcome) { o.Time.Running += 1e-6 }, ""},
		{"a good set more", func(o *Outcome) { o.Sets.Good++ }, "the ledger of sets"},
		{"a set lost", func(o *Outcome) { o.Sets.OnLine-- }, "the ledger of sets"},
		{"good sets below none", func(o *Outcome) { o.Sets = Sets{Good: -1, Spoiled: 1} }, "-1 good sets"},
		{"a tenth of a second", func(o *Outcome) { o.Time.Running += 0.1 }, "the ledger of time"},
		{"a restart more", func(o *Outcome) { o.Stations[3].Stops[CauseJam].Restarting += 4 }, "the ledger of time"},
		{"no time at all", func(o *Outcome) { o.Time.Running = sim.Seconds(math.NaN()) }, "the ledger of time"},
		{"a piece lost", func(o *Outcome) { o.Stations[1].Pieces.Left-- }, "the ledger of pieces of 2"},
		{"an envelope too many", func(o *Outcome) { o.Stations[7].Pieces.Spoiled++ }, "the ledger of pieces of inserter"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var o Outcome
			require.NoError(t, s.Run(1, 0, &o))
			c.spoil(&o)
			if c.want == "" {
				assert.NoError(t, o.Balance())
			} else {
				assert.ErrorContains(t, o.Balance(), c.want)
			}
		})
	}
}

type usesNothing struct{}

func (usesNothing) used(sim.Cycles) int64 { return 0 }

// An engine that loses a piece must not return an outcome as if nothing had happened.
func TestRunNamesTheReplication(t *testing.T) {
	l := referenceLine()
	s, err := New(l)
	require.NoError(t, err)
	s.units[2].(*feeder).stock.user = usesNothing{}
	var o Outcome
	err = s.Run(7, 11, &o)
	assert.ErrorContains(t, err, "seed 7, replication 11: the ledger of pieces of 3 does not balance")
}
