package stoplog

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"netrate/model/study"
)

// Stops and counts must be of the same time, or rates are those of neither. What only one of the files
// has leaves both.

// silent is how many stops must have been expected in a stretch without any for its feeds to be left
// out: of independent stops, so many fail to come once in e^10, 22,000, stretches.
const silent = 10

// onEdge is by how much a stop may begin after the last feed of an hour and be of it.
const onEdge = time.Minute

// SameTime leaves out stops of days, or hours, that have no feeds, and the feeds of stretches in which
// no stop is written though many were to be expected; what it left out is in the [study.LogTime] of the
// log. Where either file does not say of which days it is, nothing is left out. An error is a
// [study.LogError]: both files have days, and none is in both.
func SameTime(l *study.Log, dayStarts time.Duration) error {
	p, known := parts(l, dayStarts)
	if !known {
		return nil
	}
	l.Time.Stops, l.Time.Counts = p.spans(l)
	outside := func(s study.LogStop) bool { return s.Cause != Planned && !p.has(s) }
	all, out := 0, 0
	for _, s := range l.Stations {
		for _, x := range s.Stops {
			if x.Cause != Planned {
				all++
				if outside(x) {
					out++
				}
			}
		}
	}
	if out > 0 && out == all {
		return study.LogError{Text: fmt.Sprintf("no stop of %s is of a day of %s: stops are from %s, counts from %s", l.StopFile.Name, l.CountFile.Name, l.Time.Stops, l.Time.Counts)}
	}
	for _, s := range l.Stations {
		s.Stops = slices.DeleteFunc(s.Stops, func(x study.LogStop) bool {
			if outside(x) {
				l.Time.Uncounted = append(l.Time.Uncounted, x)
				return true
			}
			p.count(x)
			return false
		})
	}
	p.leaveSilent(l)
	return nil
}

// part is a day of the counts, or an hour or a shift of it where stops say that too.
type part struct {
	key    partKey
	name   string
	day    time.Time
	feeds  map[string]int64 // of each station
	cycles int64            // the most of these
	stops  int
}

// partKey is what counts and stops of a part have in common.
type partKey struct {
	at    int64 // when it began, if it is an hour, or its date; ns
	shift string
}

// timeParts is the parts of the counts of a log with feeds, in the order of time.
type timeParts struct {
	all      []*part
	of       map[partKey]*part
	hourly   bool          // a part is an hour
	shifts   bool          // or a shift
	starts   time.Duration // of a day
	dated    bool          // counts give dates alone
	mornings int           // until which hour the morning may be of the day before, where that is not said
}

// parts returns the parts of the counts; false if a count or a stop has no date.
func parts(l *study.Log, dayStarts time.Duration) (p *timeParts, known bool) {
	p = &timeParts{of: map[partKey]*part{}, hourly: true, starts: dayStarts, dated: true, mornings: 6}
	if l.OverMidnight() > 0 {
		p.mornings = 12
	}
	stopped := false
	for _, s := range l.Stations {
		for i := range s.Stops {
			x := &s.Stops[i]
			if x.When.IsZero() {
				return nil, false
			}
			stopped = true
			p.shifts = p.shifts || x.Untimed && x.Shift != ""
		}
		for i := range s.Counts {
			c := &s.Counts[i]
			if c.Day.IsZero() {
				return nil, false
			}
			_, dated := midnight(c.Day)
			_, hour := clockOf(c.Period, false)
			p.hourly, p.dated = p.hourly && hour && c.Day.Minute() == 0, p.dated && dated
		}
	}
	p.hourly = p.hourly && !p.dated
	for _, s := range l.Stations {
		for i := range s.Counts {
			p.add(&s.Counts[i])
		}
	}
	slices.SortStableFunc(p.all, func(a, b *part) int { return cmp.Compare(a.key.at, b.key.at) })
	return p, stopped && len(p.all) > 0
}

// midnight returns the date of a moment, and whether it is nothing else.
func midnight(t time.Time) (date time.Time, is bool) {
	date = time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
	return date, t.Equal(date)
}

// add adds a count with feeds to its part.
func (p *timeParts) add(c *study.LogCount) {
	if c.Feeds == 0 {
		return
	}
	k, day := p.keyOf(c)
	of := p.of[k]
	if of == nil {
		of = &part{key: k, day: day, name: day.Format(time.DateOnly), feeds: map[string]int64{}}
		switch {
		case p.hourly:
			of.name = c.Day.Format("2006-01-02 15:04")
		case k.shift != "":
			of.name += " " + c.Shift
		}
		p.of[k] = of
		p.all = append(p.all, of)
	}
	of.feeds[c.Station] += c.Feeds
	of.cycles = max(of.cycles, of.feeds[c.Station])
}

// keyOf returns the part that a count is of, and its day.
func (p *timeParts) keyOf(c *study.LogCount) (partKey, time.Time) {
	day, dated := midnight(c.Day)
	if !dated {
		day, _ = midnight(c.Day.Add(-p.starts))
	}
	k := partKey{at: day.UnixNano()}
	switch {
	case p.hourly:
		k.at = c.Day.UnixNano()
	case p.shifts:
		k.shift = plain(c.Shift)
	}
	return k, day
}

// find returns the part that a stop is of, nil if it has no feeds. Where counts give dates and nobody says
// when a day begins, the morning may be of the day before.
func (p *timeParts) find(s study.LogStop) *part {
	if p.hourly {
		for _, early := range []time.Duration{0, onEdge} {
			if of := p.of[partKey{at: s.When.Add(-early).Truncate(time.Hour).UnixNano()}]; of != nil {
				return of
			}
		}
		return nil
	}
	shift := ""
	if p.shifts {
		shift = plain(s.Shift)
	}
	day, _ := midnight(s.When.Add(-p.starts))
	of := p.of[partKey{day.UnixNano(), shift}]
	if of == nil && p.dated && p.starts == 0 && s.When.Hour() < p.mornings {
		of = p.of[partKey{day.AddDate(0, 0, -1).UnixNano(), shift}]
	}
	return of
}

func (p *timeParts) has(s study.LogStop) bool { return p.find(s) != nil }

func (p *timeParts) count(s study.LogStop) {
	if of := p.find(s); of != nil {
		of.stops++
	}
}

// leaveSilent leaves out the feeds of parts one after the other without a stop, where too many were to be
// expected by the other parts.
func (p *timeParts) leaveSilent(l *study.Log) {
	stops, cycles := 0, int64(0)
	for _, of := range p.all {
		if of.stops > 0 {
			stops, cycles = stops+of.stops, cycles+of.cycles
		}
	}
	if cycles == 0 {
		return
	}
	out := map[partKey]bool{}
	for i := 0; i < len(p.all); i++ {
		from, expected := i, 0.0
		for ; i < len(p.all) && p.all[i].stops == 0; i++ {
			expected += float64(stops) * float64(p.all[i].cycles) / float64(cycles)
		}
		if expected < silent {
			continue
		}
		for _, of := range p.all[from:i] {
			out[of.key] = true
		}
		l.Time.Silent = append(l.Time.Silent, study.LogSpan{From: p.all[from].name, To: p.all[i-1].name})
		l.Time.Expected += int(math.Round(expected))
	}
	if len(out) == 0 {
		return
	}
	for _, s := range l.Stations {
		for i := range s.Counts {
			if c := &s.Counts[i]; c.Feeds > 0 {
				if k, _ := p.keyOf(c); out[k] {
					s.Feeds, c.Feeds = s.Feeds-c.Feeds, 0
				}
			}
		}
	}
}

// spans returns from when to when stops and counts are.
func (p *timeParts) spans(l *study.Log) (stops, counts study.LogSpan) {
	var first, last time.Time
	for _, s := range l.Stations {
		for _, x := range s.Stops {
			if first.IsZero() || x.When.Before(first) {
				first = x.When
			}
			if x.When.After(last) {
				last = x.When
			}
		}
	}
	return study.LogSpan{From: first.Format(time.DateOnly), To: last.Format(time.DateOnly)},
		study.LogSpan{From: p.all[0].day.Format(time.DateOnly), To: p.all[len(p.all)-1].day.Format(time.DateOnly)}
}
