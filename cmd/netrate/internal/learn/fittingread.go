package learn

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// read reads both files and takes the rows that are wanted. Where the counts come to have moments, by
// the hours that stops name, no day begins any more: starts is 0 then.
func (o *mappingFlags) read(e desk.Env, log, counts string, starts *dayTime) (present.Log, error) {
	l := present.Log{Log: &study.Log{}}
	if log == "-" && counts == "-" {
		return l, desk.Wrong("the log and the counts cannot both come from standard input")
	}
	m, err := o.mapping()
	if err != nil {
		return l, err
	}
	kinds, err := o.stationKinds()
	if err != nil {
		return l, err
	}
	var inCounts, inStops error // what is wrong with both is said at once
	l.CountRows, inCounts = o.readCounts(e, l.Log, counts, m)
	l.StopRows, inStops = o.readStops(e, l.Log, log, m)
	if err := errors.Join(inCounts, inStops); err != nil {
		return l, err
	}
	stoplog.Once(l.Log)
	timed, err := stoplog.Join(l.Log, time.Duration(*starts))
	if err != nil {
		return l, wrongLog(err)
	}
	if timed {
		*starts = 0
	}
	if err := wrongLog(stoplog.SameTime(l.Log, time.Duration(*starts))); err != nil {
		return l, err
	}
	if err := wrongLog(l.Take(o.only.job, float64(o.only.speed))); err != nil {
		return l, err
	}
	if err := kinds.tell(l.Log); err != nil {
		return l, err
	}
	return l, wrongLog(stoplog.Agree(l.Log))
}

func (o *mappingFlags) readCounts(e desk.Env, to *study.Log, file string, m stoplog.Mapping) (report stoplog.Report, err error) {
	m.File, m.Unit = desk.ShownFile(file), ""
	if m.Times == stoplog.FromStart { // counts have days
		m.Times = ""
	}
	if m.Columns, err = mappedColumns("counts-column", o.countColumns); err != nil {
		return report, err
	}
	err = fromFile(e, file, func(from io.Reader) error {
		report, err = stoplog.AddCounts(to, from, m)
		return told(e, m.File, err)
	})
	return report, err
}

func (o *mappingFlags) readStops(e desk.Env, to *study.Log, file string, m stoplog.Mapping) (report stoplog.Report, err error) {
	m.File = desk.ShownFile(file)
	if m.Columns, err = mappedColumns("column", o.columns); err != nil {
		return report, err
	}
	err = fromFile(e, file, func(from io.Reader) error {
		report, err = stoplog.AddStops(to, from, m)
		return told(e, m.File, err)
	})
	return report, err
}

// ReadStops reads a log of stops by the rules of fit, and those of a mapping file, which fit --map-out
// writes, if there is one. It calls each with every stop.
func ReadStops(e desk.Env, log, mapped string, each func(stoplog.Stop) error) error {
	o := &mappingFlags{mapped: mapped}
	if err := o.readMap(e, new(dayTime)); err != nil {
		return err
	}
	m, err := o.mapping()
	if err != nil {
		return err
	}
	m.File = desk.ShownFile(log)
	if m.Columns, err = mappedColumns("column", o.columns); err != nil {
		return err
	}
	return fromFile(e, log, func(from io.Reader) error {
		_, err := stoplog.Read(from, m, each)
		return told(e, m.File, err)
	})
}

// told writes what is wrong in a file and returns it in short.
func told(e desk.Env, file string, err error) error {
	var problems scenarios.Problems
	switch {
	case err == nil:
		return nil
	case errors.As(err, &problems):
		fmt.Fprintln(e.Err, err.Error())
		return desk.Wrong("%s cannot be read: see above", file)
	case errors.Is(err, stoplog.ErrTooMany):
		return desk.Wrong("%v", err)
	}
	return err // of reading, with the file and the place
}

// toldKind is what a station is, as the command line says.
type toldKind struct{ station, kind string }

type toldKinds []toldKind

// noKind is said of what is no station, such as a column of the counts that holds something else.
const noKind = "none"

// stationKinds returns what the flags say that stations are.
func (o *mappingFlags) stationKinds() (all toldKinds, err error) {
	for _, pair := range o.kinds {
		station, kind, err := halves("kind", pair)
		if err != nil {
			return nil, err
		}
		var names []string
		for _, k := range stoplog.Kinds() {
			names = append(names, k.Name)
		}
		if kind == noKind {
			all = append(all, toldKind{station, kind})
			continue
		}
		if !slices.Contains(names, kind) {
			return nil, desk.Wrong("%q is no kind whose rates can be estimated%s; want %s, or %s for what is no station", kind, desk.Meant(kind, names, ""), strings.Join(names, ", "), noKind)
		}
		all = append(all, toldKind{station, kind})
	}
	return all, nil
}

// tell tells a log what its stations are.
func (all toldKinds) tell(l *study.Log) error {
	for _, k := range all {
		s := l.Find(k.station)
		if s == nil {
			return desk.Wrong("--kind names station %q, which is in neither file%s", k.station, desk.Meant(k.station, l.Names(), ""))
		}
		if s.Kind = k.kind; k.kind == noKind {
			l.Stations = slices.DeleteFunc(l.Stations, func(of *study.LogStation) bool { return of == s })
		}
	}
	return nil
}
