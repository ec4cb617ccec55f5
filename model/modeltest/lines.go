package modeltest

import (
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// ReferenceLine returns the line that the tests start from: six feeders, a track gate,
// an inserter, an exit gate and a delivery, one operator, a shift of eight hours. Its
// figures are invented.
func ReferenceLine() *model.Line {
	clear := Lognormal(60, 0.8)
	l := &model.Line{
		Name:    "reference line",
		Speed:   18_000,
		Shift:   28_800,
		Restart: sim.Constant(4),
		Crew:    model.Crew{Operators: 1, Walk: sim.Constant(15)},
	}
	for i, name := range []string{"1", "2", "3", "4", "5", "6"} {
		l.Stations = append(l.Stations, &model.Feeder{
			Place:   model.Place{Name: name, At: 2 * i, Rated: 18_000},
			Hopper:  model.Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(25)},
			Misfeed: 1.0 / 2500, Double: 1.0 / 8000, Jam: 1.0 / 12_000,
			Material: 1, Noticed: 1, Caught: 1, Share: 1,
			OnMisfeed: model.Divert, OnDouble: model.Divert,
			Clear: clear,
		})
	}
	l.Stations = append(
		l.Stations,
		&model.TrackGate{Place: model.Place{Name: "track gate", At: 12, Rated: 18_000}},
		&model.Inserter{
			Place:  model.Place{Name: "inserter", At: 14, Rated: 18_000},
			Hopper: model.Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)},
			Flap:   1.0 / 1500, Jam: 1.0 / 5000,
			OnFlap: model.Outsort,
			Clear:  Lognormal(90, 0.8),
		},
		&model.ExitGate{Place: model.Place{Name: "exit gate", At: 17, Rated: 18_000}},
		&model.Delivery{Place: model.Place{Name: "delivery", At: 18, Rated: 18_000}},
	)
	return l
}

// Lognormal returns a Lognormal duration of a mean in seconds and a coefficient of
// variation that it can have.
func Lognormal(mean sim.Seconds, cv float64) sim.Duration {
	d, err := sim.NewLognormal(mean, cv)
	if err != nil {
		panic(err)
	}
	return d
}

// StationsOf returns the stations of one kind, in order along the track:
// StationsOf[*model.Feeder](l).
func StationsOf[T any](l *model.Line) []T {
	var found []T
	for _, s := range l.Stations {
		if s, ok := any(s).(T); ok {
			found = append(found, s)
		}
	}
	return found
}

// FirstOf returns the first station of one kind.
func FirstOf[T any](l *model.Line) T { return StationsOf[T](l)[0] }

// ZeroBufferLine returns a line of stations that fail with the given probabilities in each
// cycle and are put right in constant times, with stocks that outlast the shift: the line
// without buffers of the textbooks.
func ZeroBufferLine(perHour float64, operators int, faults ...ZeroBufferFaults) *model.Line {
	l := &model.Line{Name: "no buffers", Speed: perHour, Restart: sim.Constant(0), Crew: model.Crew{Operators: operators, Walk: sim.Constant(0)}}
	for _, f := range faults {
		for range f.Stations {
			at := len(l.Stations)
			l.Stations = append(l.Stations, &model.Feeder{
				Place:  model.Place{Name: fmt.Sprint("station ", at+1), At: at, Rated: perHour},
				Hopper: model.Stock{Capacity: 1e9, Work: sim.Constant(0)},
				Double: f.Fault, Caught: f.Caught, Material: 1, Share: 1,
				OnDouble: model.Stop, Clear: sim.Constant(f.Down),
			})
		}
	}
	at := len(l.Stations)
	return WithEnd(l, at)
}

// WithEnd adds an inserter and a delivery at which nothing goes wrong.
func WithEnd(l *model.Line, at int) *model.Line {
	l.Stations = append(l.Stations,
		&model.Inserter{Place: model.Place{Name: "inserter", At: at}, Hopper: model.Stock{Capacity: 1e9, Work: sim.Constant(0)}, Clear: sim.Constant(0)},
		&model.Delivery{Place: model.Place{Name: "delivery", At: at + 1}})
	return l
}

// ZeroBufferFaults is how some stations of a line without buffers fail.
type ZeroBufferFaults struct {
	Stations int         // that fail alike
	Fault    float64     // probability in each cycle
	Caught   float64     // of which a stop
	Down     sim.Seconds // length of a stop
}

// LettersLine returns a line with documents at pitch 0, letters at pitch 2, a reader of
// the letters some pitches on, a track gate, an inserter, an exit gate and a delivery,
// which recovers in line.
func LettersLine(pitches int) *model.Line {
	at := 2 + pitches
	feeder := func(name string, at int, r model.Response) *model.Feeder {
		return &model.Feeder{
			Place: model.Place{Name: name, At: at}, Hopper: model.Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(25)},
			Material: 1, Noticed: 1, Caught: 1, Share: 1, OnMisfeed: r, OnDouble: r,
			Stream: model.Stream{Name: name, Tries: 1}, Clear: sim.Constant(60),
		}
	}
	return &model.Line{
		Name: "letters", Speed: 12_000, Shift: 3600, Restart: sim.Constant(4),
		Crew: model.Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []model.Station{
			feeder("documents", 0, model.Divert), feeder("letters", 2, model.Divert),
			&model.Reader{Place: model.Place{Name: "reader", At: at}, Reads: "letters", Sequence: true, OnNoRead: model.Divert, OnMismatch: model.Divert, Clear: sim.Constant(30)},
			&model.TrackGate{Place: model.Place{Name: "track gate", At: at + 4}},
			&model.Inserter{Place: model.Place{Name: "inserter", At: at + 6}, Hopper: model.Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)}, Clear: sim.Constant(60)},
			&model.ExitGate{Place: model.Place{Name: "exit gate", At: at + 8}},
			&model.Delivery{Place: model.Place{Name: "delivery", At: at + 9}},
		},
	}
}

// Is reports whether a station is of a kind: Is[*model.Channel](s).
func Is[T model.Station](s model.Station) bool { _, ok := s.(T); return ok }

// CalmLine is a line on which nothing goes wrong: two feeders, an inserter and a delivery
// at pitch 5, at 3,600 cycles an hour, with hoppers that never run low.
func CalmLine() *model.Line {
	feeder := func(name string, at int) *model.Feeder {
		return &model.Feeder{
			Place: model.Place{Name: name, At: at}, Hopper: model.Stock{Capacity: 1e9, Work: sim.Constant(10)},
			Material: 1, Noticed: 1, Caught: 1, Share: 1, Clear: sim.Constant(60),
		}
	}
	return &model.Line{
		Name: "calm", Speed: 3600, Shift: 3600, Restart: sim.Constant(4), Crew: model.Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []model.Station{
			feeder("first", 0), feeder("second", 2),
			&model.Inserter{Place: model.Place{Name: "inserter", At: 4}, Hopper: model.Stock{Capacity: 1e9, Work: sim.Constant(10)}, Clear: sim.Constant(60)},
			&model.Delivery{Place: model.Place{Name: "delivery", At: 5}},
		},
	}
}
