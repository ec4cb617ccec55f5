package model

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// lanesLine returns a line of two personalised feeders that nothing goes wrong at, a plain
// one, a reader of the first, a track gate, an inserter, an exit gate and a delivery. A shift
// is of 36,000 cycles. Its figures are invented.
func lanesLine(change func(l *Line, a, b *Feeder, r *Reader)) *Line {
	hopper := Stock{Capacity: 1e6, Work: sim.Constant(0)}
	feeder := func(name string, at int, stream string) *Feeder {
		return &Feeder{
			Unwatched: true,
			Place:     Place{Name: name, At: at}, Hopper: hopper, Material: 1, Noticed: 1, Caught: 1, Share: 1,
			Stream: Stream{Name: stream, Tries: 1}, Clear: sim.Constant(20),
		}
	}
	a, b := feeder("letters", 0, "letters"), feeder("cards", 1, "cards")
	r := &Reader{
		Place: Place{Name: "reader", At: 4}, Reads: "letters", Sequence: true,
		OnMismatch: Divert, Clear: sim.Constant(10),
	}
	l := &Line{
		Name: "two streams", Speed: 36_000, Shift: 3600, Restart: sim.Constant(5),
		Crew: Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []Station{
			a, b, feeder("leaflet", 2, ""), r,
			&TrackGate{Place: Place{Name: "track gate", At: 5}},
			&Inserter{Place: Place{Name: "inserter", At: 7}, Hopper: hopper, Clear: sim.Constant(30)},
			&ExitGate{Place: Place{Name: "exit gate", At: 8}},
			&Delivery{Place: Place{Name: "delivery", At: 9}},
		},
	}
	change(l, a, b, r)
	return l
}

// What there is to decide, as the rules of the package say.
func TestDecisions(t *testing.T) {
	all := []Response{Stop, Divert, Outsort, Ship}
	matched := []Response{Stop, Divert, Outsort}
	without := func(l *Line, i int) *Line {
		l.Stations = slices.Delete(l.Stations, i, i+1)
		return l
	}
	plain := func(*Line, *Feeder, *Feeder, *Reader) {}
	for _, c := range []struct {
		name string
		line *Line
		want []Decision
	}{
		{"streams and both gates", lanesLine(plain), []Decision{
			{0, Misfeed, matched},
			{0, Double, matched},
			{1, Misfeed, matched},
			{1, Double, matched},
			{2, Misfeed, all},
			{2, Double, all},
			{3, NoRead, all},
			{3, Mismatch, matched},
			{5, Flap, []Response{Stop, Outsort}},
		}},
		{"no track gate", without(lanesLine(plain), 4), []Decision{
			{0, Misfeed, []Response{Stop, Outsort}},
			{0, Double, []Response{Stop, Outsort}},
			{1, Misfeed, []Response{Stop, Outsort}},
			{1, Double, []Response{Stop, Outsort}},
			{2, Misfeed, []Response{Stop, Outsort, Ship}},
			{2, Double, []Response{Stop, Outsort, Ship}},
			{3, NoRead, []Response{Stop, Outsort, Ship}},
			{3, Mismatch, []Response{Stop, Outsort}},
			{4, Flap, []Response{Stop, Outsort}},
		}},
		{"personalised envelopes", lanesLine(func(_ *Line, _, b *Feeder, _ *Reader) { b.Envelopes = true }), []Decision{
			{0, Misfeed, []Response{Stop, Divert}},
			{0, Double, []Response{Stop, Divert}},
			{1, Misfeed, []Response{Stop, Divert}},
			{1, Double, []Response{Stop, Divert}},
			{2, Misfeed, []Response{Stop, Divert, Ship}},
			{2, Double, []Response{Stop, Divert, Ship}},
			{3, NoRead, []Response{Stop, Divert, Ship}},
			{3, Mismatch, []Response{Stop, Divert}},
			{5, Flap, []Response{Stop, Outsort}},
		}},
		{"no gate at all", without(without(lanesLine(plain), 6), 4), []Decision{
			{2, Misfeed, []Response{Stop, Ship}},
			{2, Double, []Response{Stop, Ship}},
			{3, NoRead, []Response{Stop, Ship}},
		}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.line.Decisions()) })
	}
}

// Every strategy that the decisions allow can run, a line takes the one it is given, and the
// line it was made from stays as it was.
func TestAnswering(t *testing.T) {
	l := lanesLine(func(*Line, *Feeder, *Feeder, *Reader) {})
	own := l.Strategy()
	assert.Equal(t, Strategy{Stop, Stop, Stop, Stop, Stop, Stop, Stop, Divert, Stop}, own)
	for k, d := range l.Decisions() {
		for _, r := range d.Responses {
			s := slices.Clone(own)
			s[k] = r
			answering := l.Answering(s)
			assert.Empty(t, answering.Check())
			assert.Equal(t, s, answering.Strategy())
		}
		for r := range Response(len(responseNames)) {
			if !slices.Contains(d.Responses, r) {
				s := slices.Clone(own)
				s[k] = r
				assert.NotEmpty(t, l.Answering(s).Check(), "decision %d answered with %v", k, r)
			}
		}
	}
	assert.Equal(t, own, l.Strategy())
	assert.Panics(t, func() { l.Answering(own[1:]) })
}

func TestStrategyWords(t *testing.T) {
	l := lanesLine(func(*Line, *Feeder, *Feeder, *Reader) {})
	own := l.Strategy()
	for _, c := range []struct {
		name   string
		change map[int]Response
		want   string
	}{
		{"the same", nil, ""},
		{"one answer", map[int]Response{5: Ship}, "leaflet: double ship"},
		{"both faults of a station", map[int]Response{4: Divert, 5: Ship}, "leaflet: misfeed divert, double ship"},
		{"two of three feeders", map[int]Response{0: Divert, 2: Divert}, "letters, cards: misfeed divert"},
		{"all feeders, and one more answer", map[int]Response{0: Divert, 2: Divert, 4: Divert, 5: Ship, 6: Ship}, "all feeders: misfeed divert; leaflet: double ship; reader: no read ship"},
		{"all feeders in both", map[int]Response{0: Divert, 1: Divert, 2: Divert, 3: Divert, 4: Divert, 5: Divert}, "all feeders: misfeed divert, double divert"},
		{"the inserter", map[int]Response{8: Outsort}, "inserter: flap outsort"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := slices.Clone(own)
			for k, r := range c.change {
				s[k] = r
			}
			assert.Equal(t, c.want, l.AsItStands().StrategyWords(s, own))
		})
	}
	require.Equal(t, "all feeders: misfeed stop, double stop; reader: no read stop, mismatch divert; inserter: flap stop", l.AsItStands().StrategyWords(own, nil))
}
