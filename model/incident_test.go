package model

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
	"netrate/sim/output"
)

// lettersLine returns a line with documents at pitch 0, letters at pitch 2, a reader of
// the letters some pitches on, a track gate, an inserter, an exit gate and a delivery,
// which recovers in line.
func lettersLine(pitches int) *Line {
	at := 2 + pitches
	feeder := func(name string, at int, r Response) *Feeder {
		return &Feeder{
			Unwatched: true,
			Place:     Place{Name: name, At: at}, Hopper: Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(25)},
			Material: 1, Noticed: 1, Caught: 1, Share: 1, OnMisfeed: r, OnDouble: r,
			Stream: Stream{Name: name, Tries: 1}, Clear: sim.Constant(60),
		}
	}
	return &Line{
		Name: "letters", Speed: 12_000, Shift: 3600, Restart: sim.Constant(4),
		Crew: Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []Station{
			feeder("documents", 0, Divert), feeder("letters", 2, Divert),
			&Reader{Place: Place{Name: "reader", At: at}, Reads: "letters", Sequence: true, OnNoRead: Divert, OnMismatch: Divert, Clear: sim.Constant(30)},
			&TrackGate{Place: Place{Name: "track gate", At: at + 4}},
			&Inserter{Place: Place{Name: "inserter", At: at + 6}, Hopper: Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)}, Clear: sim.Constant(60)},
			&ExitGate{Place: Place{Name: "exit gate", At: at + 8}},
			&Delivery{Place: Place{Name: "delivery", At: at + 9}},
		},
	}
}

// What one incident costs, worked out by hand from the rules. A fault that the feeder sees
// costs the faulty set and the catch-up set. One that a reader D pitches on finds costs the
// sets from the faulty one to the one then at the feeder, and the catch-up set: D+2 of a
// misfeed, which the reader sees at once, and D+3 of a double, which it sees by the set
// after it. By hand a fault that the feeder sees costs a stop and no set.
func TestIncidentCosts(t *testing.T) {
	cases := []struct {
		name    string
		fault   Fault
		seen    bool
		pitches int
		change  func(l *Line)
		lost    int64
		stops   int64
	}{
		{"misfeed, seen", Misfeed, true, 3, nil, 2, 0},
		{"double, seen", Double, true, 3, nil, 2, 0},
		{"misfeed, found at the feeder", Misfeed, false, 0, nil, 2, 0},
		{"double, found at the feeder", Double, false, 0, nil, 3, 0},
		{"misfeed, found 3 pitches on", Misfeed, false, 3, nil, 5, 0},
		{"double, found 3 pitches on", Double, false, 3, nil, 6, 0},
		{"misfeed, by hand", Misfeed, true, 3, func(l *Line) { l.Stations[1].(*Feeder).OnMisfeed = Stop }, 0, 1},
		{"misfeed, found by a reader, by hand", Misfeed, false, 3, func(l *Line) { l.Stations[2].(*Reader).OnMismatch = Stop }, 4, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			l := lettersLine(c.pitches)
			if c.change != nil {
				c.change(l)
			}
			in, err := l.Incident(1, c.fault, c.seen)
			require.NoError(t, err)
			assert.Equal(t, c.lost, in.Lost, "sets lost")
			assert.Equal(t, c.stops, in.Stops, "stops")
			assert.Zero(t, in.Bad, "delivered wrong")
			assert.True(t, in.Ended)
		})
	}
}

// A misfeed leaves the letter of set 1 in the hopper. The catch-up set gets it together
// with its own, both leave at the gate, and set 3 is as it should be.
func TestIncidentCycleByCycle(t *testing.T) {
	in, err := lettersLine(3).Incident(1, Misfeed, true)
	require.NoError(t, err)
	letters := slices.Index(in.Stations, "letters")
	row := func(cycle int64) IncidentRow {
		return in.Rows[slices.IndexFunc(in.Rows, func(r IncidentRow) bool { return r.Cycle == cycle })]
	}
	assert.Equal(t, IncidentCell{Set: 0}, row(-1).Cells[letters])
	assert.Equal(t, IncidentCell{1, Condemned, []IncidentHolding{{Stream: "letters"}}}, row(0).Cells[letters])
	assert.Equal(t, IncidentCell{2, Condemned, []IncidentHolding{{Stream: "letters", Pieces: 2, First: 1}}}, row(1).Cells[letters])
	assert.Equal(t, IncidentCell{Set: 3}, row(2).Cells[letters])
	gate := slices.Index(in.Stations, "track gate")
	assert.Equal(t, []IncidentEvent{{What: Failed, Station: letters, Set: 1, Fault: Misfeed}}, row(0).Events)
	assert.Equal(t, []IncidentEvent{{What: Left, Station: gate, Set: 1}}, row(7).Events)
	assert.Equal(t, []IncidentEvent{{What: Left, Station: gate, Set: 2}}, row(8).Events)
	assert.Equal(t, int64(8), in.Rows[len(in.Rows)-1].Cycle)
}

// Without a reader nobody finds it, and every set that follows is delivered wrong.
func TestIncidentNobodyFinds(t *testing.T) {
	l := lettersLine(3)
	l.Stations = slices.Delete(l.Stations, 2, 3)
	in, err := l.Incident(1, Double, false)
	require.NoError(t, err)
	assert.False(t, in.Ended)
	assert.Positive(t, in.Bad)
	assert.Equal(t, in.Bad, in.Lost)
}

func TestIncidentOfAPlainStation(t *testing.T) {
	_, err := lettersLine(3).Incident(3, Misfeed, true)
	require.ErrorContains(t, err, "track gate has no stream")
	_, err = lettersLine(3).Incident(1, Jam, true)
	require.ErrorContains(t, err, "out of step by a jam")
}

// What is uncertain of a stock does not keep an incident from being shown, in which no stock
// runs low.
func TestIncidentWithUncertainStocks(t *testing.T) {
	l := lettersLine(3)
	l.Stations[len(l.Stations)-1].(*Delivery).Belt = Stock{Capacity: 500, Warn: 100, Work: sim.Constant(30)}
	l.UncertainInputs = []UncertainInput{{Station: "delivery", Name: "belt.sweep", Part: MeanPart, Of: output.About{Mean: 30, Error: 2}}}
	require.Empty(t, l.Check())
	_, err := l.Incident(1, Misfeed, true)
	require.NoError(t, err)
}
