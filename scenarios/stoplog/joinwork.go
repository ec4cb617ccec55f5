package stoplog

import (
	"slices"
	"time"

	"netrate/model/study"
)

// The faults of a job and its feeds are those of the same periods, or its rate is wrong. Where a period
// holds several works, and stops do not say which they are of, both leave: they are in the rate of the
// station, and in none by job or speed. Which periods these are must not depend on where stops happened
// to be, so it is settled by what the stops of the whole log say.

// works is the counts of a log by the period that they are of.
type works struct {
	by     keyedBy
	counts map[periodKey][]*study.LogCount
}

func worksOf(l *study.Log, by keyedBy) works {
	of := works{by, map[periodKey][]*study.LogCount{}}
	for _, s := range l.Stations {
		for i := range s.Counts {
			c := &s.Counts[i]
			k := by.key(c.Day, c.Period, c.Shift)
			of.counts[k] = append(of.counts[k], c)
		}
	}
	return of
}

// place gives stops the job and the speed of the counts of their periods.
func (of works) place(stops []*study.LogStop) {
	mixed := of.mix(stops)
	for _, s := range stops {
		k := of.by.key(s.When, s.Period, s.Shift)
		own := workSaid{s.Job != "", s.Speed != 0}
		counts := slices.DeleteFunc(fedBy(s.Station, of.counts[k]), func(c *study.LogCount) bool { return !own.alike(c, s) })
		s.Mixed = mixed[stationPeriod{s.Station, k}] && (len(counts) == 0 || slices.ContainsFunc(counts, func(c *study.LogCount) bool { return c.Mixed }))
		give(s, counts)
	}
}

// mix marks the counts of which stops may be of another work, and returns where there are any.
func (of works) mix(stops []*study.LogStop) map[stationPeriod]bool {
	says := workSaid{job: true, speed: true}
	for _, s := range stops {
		says.job, says.speed = says.job && s.Job != "", says.speed && s.Speed != 0
	}
	mixed := map[stationPeriod]bool{}
	for k, counts := range of.counts {
		first := map[stationWork]stationWork{} // work, by what stops say of it
		several := map[stationWork]bool{}
		for _, c := range counts {
			if c.Feeds == 0 {
				continue
			}
			of, said := stationWork{c.Station, c.Job, c.Speed}, says.of(c)
			if before, met := first[said]; met && before != of {
				several[said] = true
			}
			first[said] = of
		}
		for _, c := range counts {
			if several[says.of(c)] {
				c.Mixed, mixed[stationPeriod{c.Station, k}] = true, true
			}
		}
	}
	return mixed
}

// astray counts the stops that name a job which the counts do not have in their period, if days that
// are named are moved so; missing are those whose period they do not have at all.
func (of works) astray(stops []*study.LogStop, moved func(*study.LogStop) time.Time) (strangers, missing int) {
	for _, s := range stops {
		counts := of.counts[of.by.key(moved(s), s.Period, s.Shift)]
		has := func(same func(*study.LogCount) bool) bool {
			return slices.ContainsFunc(counts, func(c *study.LogCount) bool { return c.Feeds > 0 && same(c) })
		}
		switch {
		case counts == nil:
			missing++
		case s.Job != "" && has(func(c *study.LogCount) bool { return c.Job != "" }) && !has(func(c *study.LogCount) bool { return c.Job == s.Job }):
			strangers++
		}
	}
	return strangers, missing
}

// asCalendar notes how many stops name a job that the counts do not have in their hour. Where none does if
// stops have the date of the calendar, and counts that of the day on which the shift began, they are
// read so.
func (of works) asCalendar(l *study.Log, stops []*study.LogStop, dayStarts time.Duration) {
	as := func(s *study.LogStop) time.Time { return s.When }
	strangers, missing := of.astray(stops, as)
	if strangers+missing == 0 {
		return
	}
	night := func(s *study.LogStop) time.Time {
		if clock, is := clockOf(s.Period, false); is && clock < dayStarts && !s.When.IsZero() {
			return s.When.AddDate(0, 0, -1)
		}
		return s.When
	}
	if other, lacking := of.astray(stops, night); other+lacking == 0 {
		for _, s := range stops {
			s.When = night(s)
		}
		l.Time.Calendar = true
		return
	}
	l.Time.Strangers = strangers
}

// stationPeriod is a station in a period.
type stationPeriod struct {
	station string
	periodKey
}

// stationWork is a station at some work.
type stationWork struct {
	station, job string
	speed        float64
}

// workSaid is what of their work stops say themselves.
type workSaid struct{ job, speed bool }

// of returns what stops say of the work of a count.
func (w workSaid) of(c *study.LogCount) stationWork {
	said := stationWork{station: c.Station}
	if w.job {
		said.job = c.Job
	}
	if w.speed {
		said.speed = c.Speed
	}
	return said
}

// alike reports whether a count is of the job and at the speed that a stop says.
func (w workSaid) alike(c *study.LogCount, s *study.LogStop) bool {
	return (!w.job || c.Job == s.Job) && (!w.speed || c.Speed == s.Speed)
}

// fedBy returns the counts in which a station fed; those of all stations if it fed in none.
func fedBy(station string, counts []*study.LogCount) (own []*study.LogCount) {
	for _, c := range counts {
		if c.Station == station && c.Feeds > 0 {
			own = append(own, c)
		}
	}
	if own == nil {
		return slices.Clone(counts)
	}
	return own
}

// give gives a stop the job and the speed of counts, as far as it does not say them and these are one.
func give(s *study.LogStop, counts []*study.LogCount) {
	if len(counts) == 0 {
		return
	}
	job, speed := counts[0].Job, counts[0].Speed
	for _, c := range counts {
		if c.Job != job {
			job = ""
		}
		if c.Speed != speed {
			speed = 0
		}
	}
	if s.Job == "" {
		s.Job = job
	}
	if s.Speed == 0 {
		s.Speed = speed
	}
}
