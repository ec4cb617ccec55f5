package learn

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios/stoplog"
)

// count puts every stop of the log into its period, at its station and for its cause.
func (x *against) count() error {
	numbers, working := make([]int, len(x.periods)), 0
	for i, p := range x.periods {
		numbers[i] = working
		if !p.idle {
			working++
		}
	}
	x.log = model.NewReplica(&x.line, working)
	x.left.strangers = map[string]int{}
	x.stocks = x.hasStocks()
	for _, s := range x.records.stations {
		at := slices.IndexFunc(x.line.Stations, func(m model.Station) bool { return m.Where().Name == s.name })
		if at < 0 {
			x.left.strangers[s.name] = len(s.stops)
			continue
		}
		x.log.Feeds[at] = s.feeds
		for _, stop := range s.stops {
			i := x.periodAt(stop.When)
			if cause, is := x.compared(at, stop, i); is {
				x.log.Add(numbers[i], at, cause, model.StopSum{Stops: 1, Seconds: stop.Seconds})
			}
		}
	}
	x.periods = slices.DeleteFunc(x.periods, func(p logPeriod) bool { return p.idle })
	return x.anyStop()
}

// compared returns why the line stood, if the stop is one of those that are compared; else
// it notes why not.
func (x *against) compared(station int, stop stoplog.Stop, period int) (model.Cause, bool) {
	cause, is := causeAt(x.line.Stations[station], stop.Cause)
	switch {
	case period < 0:
		x.left.before++
	case x.periods[period].idle:
		x.left.idle++
	case x.out[station]:
		x.left.uncounted++
	case !is:
		x.left.others++
	default:
		if stop.CutOff {
			x.left.cut++
		}
		return cause, true
	}
	return 0, false
}

// causeAt returns the cause of the model that one of a log is at a station; false if the
// station has no such cause.
func causeAt(s model.Station, c stoplog.Cause) (model.Cause, bool) {
	kind, _, hopper := page.KindOf(s)
	if c == stoplog.HopperEmpty {
		return model.CauseStock, hopper
	}
	if c == stoplog.BinFull || c == stoplog.BeltFull {
		return model.CauseStock, model.CauseStock.Name(s) == c.String()
	}
	if kind == "document channel" { // whose faults are those of a feeder
		kind = "feeder"
	}
	k, err := stationKindNamed(kind)
	if err != nil {
		return 0, false
	}
	c, is := k.fault(c)
	return model.Cause(c), is
}

// hasStocks reports whether a stop of the log is for a stock of the line.
func (x *against) hasStocks() bool {
	for i, s := range x.line.Stations {
		for _, stop := range x.records.stopsOf(s.Where().Name) {
			if c, is := causeAt(s, stop.Cause); is && c == model.CauseStock && !x.out[i] && x.periodAt(stop.When) >= 0 {
				return true
			}
		}
	}
	return false
}

// anyStop says why no stop of the log is compared, if that is so.
func (x *against) anyStop() error {
	whole := x.log.Whole()
	stops := 0
	for _, s := range x.records.stations {
		stops += len(s.stops)
	}
	if whole.Stops > 0 || stops == 0 {
		return nil
	}
	if x.left.before == stops {
		return desk.Wrong("all stops of %s are before the first %s of %s, %s", desk.ShownFile(x.records.logFile), x.word, desk.ShownFile(x.records.countFile), x.periods[0].Name)
	}
	var theirs, ours []string
	for _, s := range x.records.stations {
		theirs = append(theirs, s.name)
	}
	for _, s := range x.line.Stations {
		ours = append(ours, s.Where().Name)
	}
	return desk.Wrong("no stop of %s can be compared: its stations are %s, and those of %s are %s", desk.ShownFile(x.records.logFile), say.List(theirs), desk.ShownFile(x.File), say.List(ours))
}

// counted reports whether stops at a station for a cause are compared.
func (x *against) counted(station int, c model.Cause) bool {
	if c == model.CauseStarved || c == model.CauseStock && !x.stocks {
		return false
	}
	return !x.out[station]
}

// asLogged returns the cause that a log has where the model tells two apart.
func asLogged(c model.Cause) model.Cause {
	if c == model.CauseStreak {
		return model.CauseMisfeed
	}
	if c == model.CauseFalseAlarm {
		return model.CauseMismatch
	}
	return c
}

// named returns the stations with their stops, those with the most first.
func (l *leftOutStops) named() (names []string) {
	for name := range l.strangers {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(l.strangers[b]-l.strangers[a], cmp.Compare(a, b))
	})
	for i, name := range names {
		said := "no stop"
		if n := l.strangers[name]; n > 0 {
			said = say.Plural(n, "stop")
		}
		names[i] = fmt.Sprintf("%s (%s)", name, said)
	}
	return names
}
