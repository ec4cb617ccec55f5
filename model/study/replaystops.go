package study

import (
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/runs"
)

// count puts every stop of the log into its period, at its station and for its cause.
func (a *ReplayAnswer) count() {
	numbers, working := make([]int, len(a.Periods)), 0
	for i, p := range a.Periods {
		numbers[i] = working
		if !p.idle {
			working++
		}
	}
	a.Logged = runs.NewReplica(a.Line, working)
	a.Left.Strangers = map[string]int{}
	a.Stocks = a.hasStocks()
	for _, s := range a.Log.Stations {
		at := slices.IndexFunc(a.Line.Stations, func(m model.Station) bool { return m.Where().Name == s.Name })
		if at < 0 {
			a.Left.Strangers[s.Name] = len(s.Stops)
			continue
		}
		a.Logged.Feeds[at] = s.Feeds
		stops, shared := named(s.Stops)
		a.Shared += shared
		for _, stop := range stops {
			i := a.periodAt(stop.When)
			if cause, is := a.compared(at, stop, i); is {
				a.Logged.Add(numbers[i], at, cause, runs.StopSum{Stops: 1, Seconds: stop.Seconds})
			}
		}
	}
}

// compared returns why the line stood, if the stop is one of those that are compared; else
// it notes why not.
func (a *ReplayAnswer) compared(station int, stop LogStop, period int) (model.Cause, bool) {
	cause, is := logCauseAt(a.Line.Stations[station], stop)
	switch {
	case period < 0:
		a.Left.Before++
	case a.Periods[period].idle:
		a.Left.Idle++
	case a.Out[station]:
		a.Left.Uncounted++
	case !is:
		a.Left.Others++
	default:
		if stop.CutOff {
			a.Left.CutOff++
		}
		return cause, true
	}
	return 0, false
}

// hasStocks reports whether a stop of the log is for a stock of the line.
func (a *ReplayAnswer) hasStocks() bool {
	for i, s := range a.Line.Stations {
		for _, stop := range a.Log.StopsOf(s.Where().Name) {
			if c, is := logCauseAt(s, stop); is && c == model.CauseStock && !a.Out[i] && a.periodAt(stop.When) >= 0 {
				return true
			}
		}
	}
	return false
}

// anyStop leaves out the periods without work, and says why no stop of the log is compared,
// if that is so.
func (a *ReplayAnswer) anyStop(file string) error {
	a.Periods = slices.DeleteFunc(a.Periods, func(p ReplayPeriod) bool { return p.idle })
	whole, stops := a.Logged.IntegerDistribution(), a.Log.Stops()
	if whole.Stops > 0 || stops == 0 {
		return nil
	}
	log, counts := a.Log.StopFile.Name, a.Log.CountFile.Name
	if a.Left.Before == stops {
		return LogError{fmt.Sprintf("all stops of %s are before the first %s of %s, %s", log, a.Period, counts, a.Periods[0].Name)}
	}
	var ours []string
	for _, s := range a.Line.Stations {
		ours = append(ours, s.Where().Name)
	}
	return LogError{fmt.Sprintf("no stop of %s can be compared: its stations are %s, and those of %s are %s", log, model.Listed(a.Log.Names()), file, model.Listed(ours))}
}

// Compares reports whether stops at a station of the line for a cause are compared.
func (a *ReplayAnswer) Compares(station int, c model.Cause) bool {
	if c == model.CauseStarved || c == model.CauseStock && !a.Stocks {
		return false
	}
	return !a.Out[station]
}

// LeftOut returns the names of the stations of the line that are left out on both sides, as
// their feeds are not counted.
func (a *ReplayAnswer) LeftOut() (names []string) {
	for i, out := range a.Out {
		if out {
			names = append(names, a.Line.Stations[i].Where().Name)
		}
	}
	return names
}
