package learn

import (
	"errors"
	"fmt"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// records are a log and its counts, station by station.
type records struct {
	logFile, countFile string
	log, counts        stoplog.Report
	stations           []*stationRecord // those of the counts first, in their order
	kinds              map[string]stationKind
	only

	aside                   []stoplog.Stop // those that are not taken
	takenStops, takenCounts int            // rows, if not all are
}

// stationRecord is what is written of one station.
type stationRecord struct {
	name   string
	feeds  int64
	stops  []stoplog.Stop
	counts []stoplog.Count
	kind   *stationKind // by all its stops, if only some are taken
}

// read reads both files.
func (o *mappingFlags) read(e desk.Env, log, counts string) (*records, error) {
	r := &records{logFile: log, countFile: counts, kinds: map[string]stationKind{}, only: o.only}
	if log == "-" && counts == "-" {
		return nil, desk.Wrong("the log and the counts cannot both come from standard input")
	}
	m, err := o.mapping()
	if err != nil {
		return nil, err
	}
	for _, pair := range o.kinds {
		station, kind, err := halves("kind", pair)
		if err != nil {
			return nil, err
		}
		if r.kinds[station], err = stationKindNamed(kind); err != nil {
			return nil, err
		}
	}
	if err := r.readCounts(e, o, m); err != nil {
		return nil, err
	}
	if err := r.readLog(e, o, m); err != nil {
		return nil, err
	}
	if err := r.narrow(); err != nil {
		return nil, err
	}
	return r, r.check()
}

func (r *records) readCounts(e desk.Env, o *mappingFlags, m stoplog.Mapping) (err error) {
	m.File, m.Unit = desk.ShownFile(r.countFile), ""
	if m.Times == stoplog.FromStart { // counts have days
		m.Times = ""
	}
	if m.Columns, err = mappedColumns("counts-column", o.countColumns); err != nil {
		return err
	}
	return fromFile(e, r.countFile, func(from io.Reader) error {
		r.counts, err = stoplog.ReadCounts(from, m, func(c stoplog.Count) error {
			s := r.station(c.Station)
			s.feeds += c.Feeds
			s.counts = append(s.counts, c)
			return nil
		})
		return told(e, m.File, err)
	})
}

func (r *records) readLog(e desk.Env, o *mappingFlags, m stoplog.Mapping) (err error) {
	m.File = desk.ShownFile(r.logFile)
	if m.Columns, err = mappedColumns("column", o.columns); err != nil {
		return err
	}
	return fromFile(e, r.logFile, func(from io.Reader) error {
		r.log, err = stoplog.Read(from, m, func(stop stoplog.Stop) error {
			s := r.station(stop.Station)
			s.stops = append(s.stops, stop)
			return nil
		})
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
	}
	return fmt.Errorf("%s: %w", file, err)
}

// find returns the record of a station, nil if there is none.
func (r *records) find(name string) *stationRecord {
	for _, s := range r.stations {
		if s.name == name {
			return s
		}
	}
	return nil
}

// station returns the record of a station, a new one if there is none.
func (r *records) station(name string) *stationRecord {
	if s := r.find(name); s != nil {
		return s
	}
	s := &stationRecord{name: name}
	r.stations = append(r.stations, s)
	return s
}

func (r *records) has(name string) bool { return r.find(name) != nil }

func (r *records) feedsOf(name string) int64 {
	if s := r.find(name); s != nil {
		return s.feeds
	}
	return 0
}

func (r *records) stopsOf(name string) []stoplog.Stop {
	if s := r.find(name); s != nil {
		return s.stops
	}
	return nil
}

// check says what in the two files does not go together.
func (r *records) check() error {
	var counted, uncounted, all []string
	for _, s := range r.stations {
		all = append(all, s.name)
		switch {
		case s.feeds > 0:
			counted = append(counted, s.name)
		case len(s.stops) > 0:
			uncounted = append(uncounted, s.name)
		}
	}
	if len(counted) == 0 {
		return desk.Wrong("%s has no feeds of any station", desk.ShownFile(r.countFile))
	}
	for name := range r.kinds {
		if !r.has(name) {
			return desk.Wrong("--kind names station %q, which is in neither file%s", name, desk.Meant(name, all, ""))
		}
	}
	if len(uncounted) > 0 && !r.anyBoth() {
		return desk.Wrong("no station of %s has stops in %s: there are %s there, and %s here", desk.ShownFile(r.countFile), desk.ShownFile(r.logFile), say.List(uncounted), say.List(counted)+r.hint())
	}
	return nil
}

// hint returns the first name that the two files probably write differently.
func (r *records) hint() string {
	for _, s := range r.stations {
		if twin := r.twin(s); len(s.stops) > 0 && twin != "" {
			return fmt.Sprintf("; is %q there %q here?", s.name, twin)
		}
	}
	return ""
}

func (r *records) anyBoth() bool {
	for _, s := range r.stations {
		if s.feeds > 0 && len(s.stops) > 0 {
			return true
		}
	}
	return false
}
