package study

import (
	"slices"
	"time"

	"netrate/sim"
)

// Log is what was written down of a line: its stops, and how much its stations fed. The zero
// Log is empty; [Log.AddCount] and [Log.AddStop] fill it, in any order, and
// netrate/scenarios/stoplog reads it from files.
type Log struct {
	Stations  []*LogStation // as they were met
	StopFile  LogFile       // where the stops were read
	CountFile LogFile       // and the counts
	Only      *LogOnly      // which rows are taken; nil for all
	Aside     []LogStop     // the stops of the rows that are not
	Time      LogTime       // what is not of the same time in both files
	OfLine    []LogStop     // planned stops that name no station
	Kinds     []LogKind     // of stations, of [LogKindsOf]: what a station may be taken for
}

// LogStation is what was written down of one station.
type LogStation struct {
	Name   string
	Kind   string // the name of one of the kinds, where somebody says so; "" to take it by its stops
	Feeds  int64  // of all counts
	Stops  []LogStop
	Counts []LogCount

	taken *LogKind // by all its stops, where only some of them are left
}

// LogStop is one stop of the line.
type LogStop struct {
	Line     int       // its line in the file; 0 if there is none
	When     time.Time // it began
	Station  string
	Cause    LogCause
	Called   string      // the cause as it is written
	Seconds  sim.Seconds // how long the line stood, 0 or more
	Waited   sim.Seconds // of these until an operator was there, if Attended
	Attended bool        // it is said when an operator was there
	CutOff   bool        // it was not over when the log ended: it lasted Seconds at least
	Job      string      // "" if not given
	Speed    float64     // cycles per hour; 0 if not given

	Untimed bool   // it is not said when it began, but in which period or shift: When is its beginning, or zero
	Period  string // such an hour or another part of a day, as the counts call it; "" if not given
	Shift   string // of an untimed stop; "" if not given
	Mixed   bool   // its period holds several works, and not of every stop there is it known which: it is of no job and speed
}

// LogCount is how much a station fed in some time.
type LogCount struct {
	Line    int // its line in the file; 0 if there is none
	Station string
	Feeds   int64     // feeds or cycles run
	Job     string    // "" if not given
	Speed   float64   // cycles per hour; 0 if not given
	Shift   string    // "" if not given
	Period  string    // the hour or another part of a day; "" if not given
	Day     time.Time // its beginning, or a moment of it if one is given; zero if no day is
	Good    int64     // good envelopes that the line delivered meanwhile, at one of its stations; 0 if not given
	Mixed   bool      // its period holds several works, and not of every stop there is it known which: no job or speed has these feeds
}

// LogFile is where a part of a log was read, and what became of its rows.
type LogFile struct {
	Name    string   `json:"file"`
	Rows    int64    `json:"rows"`
	Used    int64    `json:"used"`
	Skipped int64    `json:"skipped"`
	Columns []string `json:"columns"`          // what each column was read as
	Unread  []string `json:"unread,omitempty"` // headings of those that were not read
}

// AddStop adds a stop. One that is planned and names no station is of the line.
func (l *Log) AddStop(stop LogStop) {
	if stop.Station == "" && stop.Cause == LogPlanned {
		l.OfLine = append(l.OfLine, stop)
		return
	}
	s := l.station(stop.Station)
	s.Stops = append(s.Stops, stop)
}

// AddCount adds a count.
func (l *Log) AddCount(c LogCount) {
	s := l.station(c.Station)
	s.Feeds += c.Feeds
	s.Counts = append(s.Counts, c)
}

// station returns the station of a name, a new one if there is none.
func (l *Log) station(name string) *LogStation {
	if s := l.Find(name); s != nil {
		return s
	}
	s := &LogStation{Name: name}
	l.Stations = append(l.Stations, s)
	return s
}

// Find returns the station of a name, nil if there is none.
func (l *Log) Find(name string) *LogStation {
	for _, s := range l.Stations {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// FeedsOf returns how much a station fed, 0 if there is none of the name.
func (l *Log) FeedsOf(name string) int64 {
	if s := l.Find(name); s != nil {
		return s.Feeds
	}
	return 0
}

// StopsOf returns the stops of a station, none if there is none of the name.
func (l *Log) StopsOf(name string) []LogStop {
	if s := l.Find(name); s != nil {
		return s.Stops
	}
	return nil
}

// Names returns the names of the stations, as they were met.
func (l *Log) Names() (all []string) {
	for _, s := range l.Stations {
		all = append(all, s.Name)
	}
	return all
}

// Stops returns the number of stops that are taken.
func (l *Log) Stops() (n int) {
	for _, s := range l.Stations {
		n += len(s.Stops)
	}
	return n
}

// Untimed returns the number of stops that name only the hour or the shift that they were in, and how
// many of all stops were in one of several works, so that they are of no job and speed.
func (l *Log) Untimed() (n, mixed int) {
	for _, s := range l.Stations {
		for _, x := range s.Stops {
			if x.Untimed {
				n++
			}
			if x.Mixed {
				mixed++
			}
		}
	}
	return n, mixed
}

// Planned returns the number of stops that were meant to be, breaks and changeovers, and for how
// long the line stood for them.
func (l *Log) Planned() (n int, stood sim.Seconds) {
	for _, stop := range l.planned() {
		n, stood = n+1, stood+stop.Seconds
	}
	return n, stood
}

// planned returns the stops that were meant to be.
func (l *Log) planned() []LogStop {
	all := slices.Clone(l.OfLine)
	for _, s := range l.Stations {
		for _, stop := range s.Stops {
			if stop.Cause == LogPlanned {
				all = append(all, stop)
			}
		}
	}
	return all
}

// UnknownWords returns the words of the log whose meaning is not known, with their stops; where there is
// no word, as "".
func (l *Log) UnknownWords() map[string]int64 {
	words := map[string]int64{}
	for _, s := range l.Stations {
		for word, n := range s.UnknownWords() {
			words[word] += n
		}
	}
	return words
}

// UnknownWords returns the words at this station whose meaning is not known, with their stops.
func (s *LogStation) UnknownWords() map[string]int64 {
	words := map[string]int64{}
	for _, stop := range s.Stops {
		if stop.Cause == LogOther {
			words[stop.Called]++
		}
	}
	return words
}

// count returns how many stops are for one of the causes.
func (s *LogStation) count(causes []LogCause) int {
	n := 0
	for _, stop := range s.Stops {
		if slices.Contains(causes, stop.Cause) {
			n++
		}
	}
	return n
}
