package study

import (
	"fmt"
	"slices"
	"time"

	"netrate/model"
)

// LogUndated is the error of counts that do not say of which day they are.
type LogUndated struct {
	File string
	Line int // of the first such count
}

// Error returns what is missing.
func (e LogUndated) Error() string {
	return fmt.Sprintf("%s does not say of which day its line %d is", e.File, e.Line)
}

// LogTimed is the error of counts that say when their periods begin, though it is said again
// when days do.
type LogTimed struct{ File string }

// Error returns what is said twice.
func (e LogTimed) Error() string { return e.File + " says at what time of day its periods begin" }

// divide finds the periods: each distinct moment that the counts give as a day. A date
// without a time of day begins where a day does.
func (a *ReplayAnswer) divide(dayStarts time.Duration) error {
	begins, clock := map[int64]time.Time{}, false // by the instant, whatever its zone
	for _, s := range a.Log.Stations {
		for _, c := range s.Counts {
			if c.Day.IsZero() {
				return LogUndated{a.Log.CountFile.Name, c.Line}
			}
			at, dated := c.begins(dayStarts)
			clock = clock || !dated
			begins[at.UnixNano()] = at
		}
	}
	if clock && dayStarts > 0 {
		return LogTimed{a.Log.CountFile.Name}
	}
	a.Period = "day"
	dates := map[string]bool{}
	for _, at := range begins {
		a.Periods = append(a.Periods, ReplayPeriod{Begins: at})
		dates[at.Format(time.DateOnly)] = true
	}
	layout := time.DateOnly
	if len(dates) < len(begins) {
		a.Period, layout = "period", "2006-01-02 15:04"
	}
	slices.SortFunc(a.Periods, func(a, b ReplayPeriod) int { return a.Begins.Compare(b.Begins) })
	for i := range a.Periods {
		a.Periods[i].Name = a.Periods[i].Begins.Format(layout)
	}
	a.starts = dayStarts
	return nil
}

// begins returns when the period of a count begins, and whether it gives a date alone.
func (c *LogCount) begins(dayStarts time.Duration) (at time.Time, dated bool) {
	date := time.Date(c.Day.Year(), c.Day.Month(), c.Day.Day(), 0, 0, 0, 0, c.Day.Location())
	if c.Day.Equal(date) {
		return c.Day.Add(dayStarts), true
	}
	return c.Day, false
}

// choose finds the station whose feeds are the work: the inserter, else the one that has
// the most feeds.
func (a *ReplayAnswer) choose() {
	most := int64(0)
	for _, s := range a.Log.Stations {
		if s.Feeds > most {
			a.Work, most = s.Name, s.Feeds
		}
	}
	if i := a.Line.First(model.Inserts); i >= 0 && a.Log.FeedsOf(a.Line.Stations[i].Where().Name) > 0 {
		a.Work = a.Line.Stations[i].Where().Name
	}
}

// work finds how many sets were made in each period, and how fast.
func (a *ReplayAnswer) work() error {
	if s := a.Log.Find(a.Work); s != nil {
		for _, c := range s.Counts {
			at, _ := c.begins(a.starts)
			p := &a.Periods[a.periodAt(at)]
			p.Sets += c.Feeds
			if c.Speed > 0 && c.Feeds > 0 && !slices.Contains(p.Said, c.Speed) {
				p.Said = append(p.Said, c.Speed)
			}
		}
	}
	working := 0
	for i := range a.Periods {
		p := &a.Periods[i]
		slices.Sort(p.Said)
		if p.idle = p.Sets == 0; !p.idle {
			working++
		}
		if len(p.Said) == 1 && p.Said[0] != a.Line.RunSpeed() {
			p.Speed = p.Said[0]
		}
	}
	if working == 0 {
		return LogError{fmt.Sprintf("%s has no feeds of %s on any %s", a.Log.CountFile.Name, a.Work, a.Period)}
	}
	return nil
}

// periodAt returns the last period that had begun at a moment, −1 if none had.
func (a *ReplayAnswer) periodAt(when time.Time) int {
	i, exact := slices.BinarySearchFunc(a.Periods, when, func(p ReplayPeriod, at time.Time) int { return p.Begins.Compare(at) })
	if exact {
		return i
	}
	return i - 1
}

// ReplaySpeeds is the number of periods by what the counts say of their speed.
type ReplaySpeeds struct {
	Own   int // a speed that is not the line's, at which they were simulated
	Slow  int // of these, those that the stations are rated too slow for
	Mixed int // several speeds: each part was simulated at its own
}

// Speeds counts the periods by what is said of their speed.
func (a *ReplayAnswer) Speeds() (n ReplaySpeeds) {
	for _, p := range a.Periods {
		switch {
		case len(p.Said) > 1:
			n.Mixed++
		case p.Speed > 0:
			n.Own++
			if a.SpeedOf(p) < p.Speed {
				n.Slow++
			}
		}
	}
	return n
}

// SpeedOf returns at what speed a period was simulated, cycles per hour: where it had several, in
// the mean over its sets.
func (a *ReplayAnswer) SpeedOf(p ReplayPeriod) float64 {
	sum, sets := 0.0, 0.0
	for _, w := range p.Work {
		line := *a.lineOf(w)
		if w.Speed > 0 {
			line.Speed = w.Speed
		}
		sum, sets = sum+float64(float64(w.Sets)*line.RunSpeed()), sets+float64(w.Sets)
	}
	return sum / sets
}

// Sets returns how much work there was in all periods.
func (a *ReplayAnswer) Sets() (sets int64) {
	for _, p := range a.Periods {
		sets += p.Sets
	}
	return sets
}
