package study_test

import (
	"netrate/model"
	"netrate/sim"
)

// twoInserts returns a line of two feeders with gates before and after the inserter. Its rates
// are invented.
func twoInserts() *model.Line {
	stock := func(capacity int64, work sim.Seconds) model.Stock {
		return model.Stock{Capacity: capacity, Warn: capacity / 10, Work: sim.Constant(work)}
	}
	feeder := func(name string, at int, misfeed, thickness float64) *model.Feeder {
		return &model.Feeder{
			Place: model.Place{Name: name, At: at, Rated: 12_000}, Hopper: stock(600, 30),
			Misfeed: misfeed, Double: 0.0002, Noticed: 1, Caught: 0.98, Share: 1, Material: 1,
			Takes: model.Takes{Thickness: model.Bounds{Most: thickness}}, Clear: sim.Constant(40),
		}
	}
	return &model.Line{
		Name: "two inserts", Shift: 8 * 3600, Restart: sim.Constant(5),
		Crew: model.Crew{Operators: 1, Walk: sim.Constant(10)},
		Stations: []model.Station{
			feeder("letter", 0, 0.0004, 2), feeder("card", 2, 0.001, 1),
			&model.TrackGate{Place: model.Place{Name: "gate", At: 4}, Bin: stock(50, 20)},
			&model.Inserter{
				Place: model.Place{Name: "inserter", At: 5, Rated: 10_000}, Hopper: stock(800, 30),
				EnvelopeMisfeed: 0.0002, Jam: 0.0001, Clear: sim.Constant(60),
			},
			&model.Delivery{Place: model.Place{Name: "belt", At: 7}, Belt: stock(500, 20)},
		},
	}
}
