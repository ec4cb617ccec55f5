package model

import (
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// referenceLine returns the line that the tests start from: six feeders, a track gate,
// an inserter, an exit gate and a delivery, one operator, a shift of eight hours. Its
// figures are invented.
func referenceLine() *Line {
	clear := lognormal(60, 0.8)
	l := &Line{
		Name:    "reference line",
		Speed:   18_000,
		Shift:   28_800,
		Restart: sim.Constant(4),
		Crew:    Crew{Operators: 1, Walk: sim.Constant(15)},
	}
	for i, name := range []string{"1", "2", "3", "4", "5", "6"} {
		l.Stations = append(l.Stations, &Feeder{
			Unwatched: true,
			Place:     Place{Name: name, At: 2 * i, Rated: 18_000},
			Hopper:    Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(25)},
			Misfeed:   1.0 / 2500, Double: 1.0 / 8000, Jam: 1.0 / 12_000,
			Material: 1, Noticed: 1, Caught: 1, Share: 1,
			OnMisfeed: Divert, OnDouble: Divert,
			Clear: clear,
		})
	}
	l.Stations = append(
		l.Stations,
		&TrackGate{Place: Place{Name: "track gate", At: 12, Rated: 18_000}},
		&Inserter{
			Place:  Place{Name: "inserter", At: 14, Rated: 18_000},
			Hopper: Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)},
			Flap:   1.0 / 1500, Jam: 1.0 / 5000,
			OnFlap: Outsort,
			Clear:  lognormal(90, 0.8),
		},
		&ExitGate{Place: Place{Name: "exit gate", At: 17, Rated: 18_000}},
		&Delivery{Place: Place{Name: "delivery", At: 18, Rated: 18_000}},
	)
	return l
}

// lognormal returns a lognormal duration of a mean in seconds and a coefficient of
// variation that it can have.
func lognormal(mean sim.Seconds, cv float64) sim.Duration {
	d, err := sim.NewLognormal(mean, cv)
	if err != nil {
		panic(err)
	}
	return d
}

// stationsOf returns the stations of one kind, in order along the track:
// stationsOf[*Feeder](l).
func stationsOf[T any](l *Line) []T {
	var found []T
	for _, s := range l.Stations {
		if s, ok := any(s).(T); ok {
			found = append(found, s)
		}
	}
	return found
}

// firstOf returns the first station of one kind.
func firstOf[T any](l *Line) T { return stationsOf[T](l)[0] }

// outcomes runs the first replications of a line.
func outcomes(t *testing.T, l *Line, seed uint64, replications int) []Outcome {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	all := make([]Outcome, replications)
	for i := range all {
		require.NoError(t, s.Run(seed, i, &all[i]))
	}
	return all
}
