package model

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Identical lines that stop for faults alone and share a crew, against the table of the
// finite queue: N sources that run for an exponential time with mean U and are then served
// for one with mean T by c servers.
//
// Source: Peck and Hazelwood, Finite Queuing Tables (1958), as excerpted in Heizer and
// Render, Operations Management, Module D: N = 5, X = T/(T+U) = 1/11. One operator: 4.36
// run in the mean; two: 4.54 (computed: 4.360478 and 4.535206). The running time of a line
// is geometric in cycles, here with a mean of 5,000 cycles, which is near enough.
func TestLineGroupSharesItsCrew(t *testing.T) {
	for operators, running := range map[int]float64{1: 4.360478, 2: 4.535206} {
		t.Run(fmt.Sprint(operators), func(t *testing.T) {
			h := interferingLines(t, 5, operators)
			s, err := NewLineGroup(h)
			require.NoError(t, err)
			share := make(sim.Sample, 60)
			outs := make([]Outcome, len(h.Lines))
			for i := range share {
				require.NoError(t, s.Run(1, i, outs))
				for k := range outs {
					share[i] += float64(outs[k].Time.Running / h.Lines[0].Shift)
				}
			}
			tolerance := 3.29 * share.SD() / math.Sqrt(60)
			assert.InDelta(t, running, share.Mean(), tolerance)
			assert.Less(t, tolerance, 0.02, "a biased answer would not be seen")
		})
	}
}

// interferingLines returns lines that run for 1,000 s in the mean and are then cleared in
// 100 s, both exponential.
func interferingLines(t *testing.T, n, operators int) *LineGroup {
	t.Helper()
	clear, err := sim.NewExponential(100)
	require.NoError(t, err)
	h := &LineGroup{Crew: Crew{Operators: operators, Walk: sim.Constant(0)}}
	for i := range n {
		h.Lines = append(h.Lines, &Line{
			Name: fmt.Sprint("line ", i+1), Speed: 18_000, Shift: 400_000, Restart: sim.Constant(0),
			Stations: []Station{
				&Inserter{Place: Place{Name: "inserter"}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(0)}, Jam: 1.0 / 5000, Clear: clear},
				&Delivery{Place: Place{Name: "delivery", At: 1}},
			},
		})
	}
	return h
}

// A line group of one line is that line, and two lines with a crew of their own each would do no
// worse than sharing the same number of people does at its best.
func TestLineGroupOfOne(t *testing.T) {
	l := referenceLine()
	s, err := NewLineGroup(&LineGroup{Lines: []*Line{l}, Crew: l.Crew})
	require.NoError(t, err)
	outs := make([]Outcome, 1)
	group, alone := make(sim.Sample, 100), make(sim.Sample, 100)
	line, err := New(l)
	require.NoError(t, err)
	var out Outcome
	for i := range 100 {
		require.NoError(t, s.Run(1, i, outs))
		require.NoError(t, line.Run(2, i, &out))
		group[i], alone[i] = outs[0].NetRate(), out.NetRate()
	}
	gap := group.Mean() - alone.Mean()
	assert.Less(t, math.Abs(gap), 3.29*math.Hypot(group.SD(), alone.SD())/10)
}

// The same replication gives the same outcomes, whatever ran before.
func TestLineGroupRepeats(t *testing.T) {
	a, b := referenceLine(), referenceLine()
	a.Name, b.Name, b.Speed = "first", "second", 12_000
	h := &LineGroup{Lines: []*Line{a, b}, Crew: Crew{Operators: 1, Walk: sim.Constant(15)}}
	s, err := NewLineGroup(h)
	require.NoError(t, err)
	first, again := make([]Outcome, 2), make([]Outcome, 2)
	require.NoError(t, s.Run(1, 3, first))
	require.NoError(t, s.Run(1, 4, again))
	require.NoError(t, s.Run(1, 3, again))
	assert.Equal(t, first, again)
	assert.NotEqual(t, first[0].Stations[0].Faults, first[1].Stations[0].Faults, "lines have random streams of their own")
}

func TestLineGroupRefuses(t *testing.T) {
	require.ErrorContains(t, errorOf((&LineGroup{}).Check()), "no line")
	a, b := referenceLine(), referenceLine()
	crew := Crew{Operators: 1, Walk: sim.Constant(1)}
	require.ErrorContains(t, errorOf((&LineGroup{Lines: []*Line{a, b}, Crew: crew}).Check()), "a name of its own")
	b.Name, b.Shift = "other", 10
	require.ErrorContains(t, errorOf((&LineGroup{Lines: []*Line{a, b}, Crew: crew}).Check()), "want that of")
	require.ErrorContains(t, errorOf((&LineGroup{Lines: []*Line{a}}).Check()), "operators")
	b.Shift = a.Shift
	for text, person := range map[string]Person{
		`"west", and there is none`:     {Lines: []string{"west"}},
		"works on no line":              {Lines: []string{}},
		"works at no station":           {Stations: []string{}},
		"no line has one of that name":  {Stays: "kettle"},
		"none of their lines has one":   {Lines: []string{"other"}, Stations: []string{"kettle"}},
		"say at which line first":       {Stays: "inserter"},
		"nobody may clear a fault of 1": {Lines: []string{"other"}},
	} {
		person.Name, person.Operators = "somebody", 1
		crew.People = []Person{person}
		assert.ErrorContains(t, errors.Join((&LineGroup{Lines: []*Line{a, b}, Crew: crew}).Check()...), text)
	}
	alone := *a
	alone.Crew.Operators, alone.Crew.People = 1, []Person{{Name: "somebody", Operators: 1, Lines: []string{a.Name}}}
	assert.ErrorContains(t, errors.Join(alone.Check()...), "there is one")
}

// By hand: each of two lines is cleared by an operator of its own, of whom one stays at an inserter, which
// both have: at that of the first of his lines. There alone nobody walks.
func TestWhoStaysIsAtTheFirstOfHisLines(t *testing.T) {
	for _, lines := range [][]string{{"first", "second"}, {"second", "first"}} {
		var all []*Line
		for _, name := range lines {
			l := plainLine()
			l.Name = name
			l.Stations[2].(*Inserter).Jam = 0.01
			all = append(all, l)
		}
		h := &LineGroup{Lines: all, Crew: Crew{Operators: 3, Walk: sim.Constant(15), People: []Person{
			{Name: "feeders", Operators: 1, Stations: []string{"first", "second"}},
			{Name: "stays", Operators: 1, Lines: []string{"first", "second"}, Stays: "inserter"},
			{Name: "all", Operators: 1, Lines: []string{"second"}},
		}}}
		s, err := NewLineGroup(h)
		require.NoError(t, err)
		outs := make([]Outcome, 2)
		require.NoError(t, s.Run(1, 0, outs))
		for i, name := range lines {
			a := outs[i].Stations[2].Clearing
			require.Positive(t, a.Done, name)
			walks := float64(a.Done) * 15
			if name == "first" {
				walks = 0
			}
			assert.InDelta(t, walks, float64(a.Walking), 15, name)
		}
		alone, err := NewLineGroup(h.Alone(slices.Index(lines, "second")))
		require.NoError(t, err, "who stays at the other line is one who has nothing to do here")
		require.NoError(t, alone.Run(1, 0, outs[:1]))
		assert.Positive(t, outs[0].Stations[2].Clearing.Walking)
	}
}

// errorOf returns the first of some errors, or nil.
func errorOf(errs []error) error {
	if len(errs) == 0 {
		return nil
	}
	return errs[0]
}
