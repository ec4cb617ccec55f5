package study

import (
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// ReplayRow is what the log and the simulated records have of one cause at one station.
type ReplayRow struct {
	Station, Cause string
	Log            runs.StopSum
	Stops, Seconds sim.Sample // simulated
}

// Side says on which side of the middle of the simulated records the stops of the log lie: −1
// they are fewer, 1 they are more, 0 within, or nothing was simulated.
func (r *ReplayRow) Side() int {
	if len(r.Stops) == 0 {
		return 0
	}
	low, high := ReplayMiddle(r.Stops)
	switch n := float64(r.Log.Stops); {
	case n < low:
		return -1
	case n > high:
		return 1
	}
	return 0
}

// ReplayMiddle returns what the middle share [Level] of a sample lies between.
func ReplayMiddle(s sim.Sample) (low, high float64) {
	return s.Quantile((1 - Level) / 2), s.Quantile((1 + Level) / 2)
}

// Rows returns all causes that the log or a simulated record has: first those that lie
// outside, each part as the stations stand.
func (a *ReplayAnswer) Rows() []ReplayRow {
	var outside, inside []ReplayRow
	for i, s := range a.Line.Stations {
		for c := range a.Logged.Causes[i] {
			cause := model.Cause(c)
			if asLogged(cause) != cause || !a.Compares(i, cause) {
				continue
			}
			r := a.row(i, cause)
			r.Station, r.Cause = s.Where().Name, cause.Name(s)
			switch {
			case r.Log.Stops == 0 && !slices.ContainsFunc(r.Stops, func(stops float64) bool { return stops > 0 }):
			case r.Side() != 0:
				outside = append(outside, r)
			default:
				inside = append(inside, r)
			}
		}
	}
	return slices.Concat(outside, inside)
}

// row returns the stops of a station for a cause of logs.
func (a *ReplayAnswer) row(station int, c model.Cause) (row ReplayRow) {
	of := func(r *runs.Replica) (sum runs.StopSum) {
		for k, s := range r.Causes[station] {
			if asLogged(model.Cause(k)) == c {
				sum.Add(s)
			}
		}
		return sum
	}
	row.Log = of(&a.Logged)
	for i := range a.Drawn {
		s := of(&a.Drawn[i])
		row.Stops, row.Seconds = append(row.Stops, float64(s.Stops)), append(row.Seconds, float64(s.Seconds))
	}
	return row
}
