package learn

import (
	"slices"
	"time"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model"
)

// divide finds the periods: each distinct moment that the counts give as a day. A date
// without a time of day begins where a day does.
func (x *against) divide(dayStarts dayTime) error {
	file, clock := desk.ShownFile(x.records.countFile), false
	begins := map[int64]time.Time{} // by the instant, whatever its zone
	for _, s := range x.records.stations {
		for i := range s.counts {
			c := &s.counts[i]
			if c.Day.IsZero() {
				return desk.Wrong("%s does not say of which day its line %d is: --against compares day by day; a date, or when a shift began, in a column day (--counts-column day=HEADING)", file, c.Line)
			}
			date := time.Date(c.Day.Year(), c.Day.Month(), c.Day.Day(), 0, 0, 0, 0, c.Day.Location())
			if clock = clock || !c.Day.Equal(date); c.Day.Equal(date) {
				c.Day = c.Day.Add(time.Duration(dayStarts))
			}
			begins[c.Day.UnixNano()] = c.Day
		}
	}
	if clock && dayStarts > 0 {
		return desk.Wrong("%s says at what time of day its periods begin: --day-starts is for dates alone", file)
	}
	x.word = "day"
	dates := map[string]bool{}
	for _, at := range begins {
		x.periods = append(x.periods, logPeriod{begins: at})
		dates[at.Format(time.DateOnly)] = true
	}
	layout := time.DateOnly
	if len(dates) < len(begins) {
		x.word, layout = "period", "2006-01-02 15:04"
	}
	slices.SortFunc(x.periods, func(a, b logPeriod) int { return a.begins.Compare(b.begins) })
	for i := range x.periods {
		x.periods[i].Name = x.periods[i].begins.Format(layout)
	}
	return nil
}

// choose finds the station whose feeds are the work: the inserter, else the one that has
// the most feeds.
func (x *against) choose() {
	most := int64(0)
	for _, s := range x.records.stations {
		if s.feeds > most {
			x.worker, most = s.name, s.feeds
		}
	}
	for _, s := range x.line.Stations {
		if _, is := s.(*model.Inserter); is && x.records.feedsOf(s.Where().Name) > 0 {
			x.worker = s.Where().Name
		}
	}
}

// work finds how many sets were made in each period, and how fast.
func (x *against) work() error {
	for _, c := range x.records.find(x.worker).counts {
		p := &x.periods[x.periodAt(c.Day)]
		p.Sets += c.Feeds
		if c.Speed > 0 && c.Feeds > 0 && !slices.Contains(p.said, c.Speed) {
			p.said = append(p.said, c.Speed)
		}
	}
	working := 0
	for i := range x.periods {
		p := &x.periods[i]
		slices.Sort(p.said)
		if p.idle = p.Sets == 0; !p.idle {
			working++
		}
		if len(p.said) == 1 && p.said[0] != x.line.RunSpeed() {
			p.Speed = p.said[0]
		}
	}
	if working == 0 {
		return desk.Wrong("%s has no feeds of %s on any %s", desk.ShownFile(x.records.countFile), x.worker, x.word)
	}
	return nil
}

// periodAt returns the last period that had begun at a moment, −1 if none had.
func (x *against) periodAt(when time.Time) int {
	i, exact := slices.BinarySearchFunc(x.periods, when, func(p logPeriod, at time.Time) int { return p.begins.Compare(at) })
	if exact {
		return i
	}
	return i - 1
}
