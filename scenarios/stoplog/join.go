package stoplog

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"netrate/model"
	"netrate/model/study"
)

// A stop may name no moment but the hour or the shift that it was in, which the counts name too. It
// then is of the work of that hour or shift.

// periodKey is an hour or a shift as rows of both files name it: what the stops do not say is left
// empty.
type periodKey struct{ day, period, shift string }

func (k periodKey) String() string {
	var all []string
	for _, part := range []string{k.day, k.period, k.shift} {
		if part != "" {
			all = append(all, part)
		}
	}
	return strings.Join(all, " ")
}

// keyedBy is what the stops name.
type keyedBy struct{ day, period, shift bool }

func (by keyedBy) key(day time.Time, period, shift string) (k periodKey) {
	if by.day && !day.IsZero() {
		k.day = day.Format(time.DateOnly)
	}
	if by.period {
		k.period = strings.ToLower(hourText(period, true))
	}
	if by.shift {
		k.shift = strings.ToLower(shift)
	}
	return k
}

// Join gives stops that name only an hour or a shift the job and the speed that the counts have of
// it, where these have but one; where they have several, neither these stops nor the feeds of that
// time are of a job or at a speed. Those of an hour with its date get the moment at which it begins, and
// so do its counts, also of stops that name moments: an hour before dayStarts is of the day after. It reports whether the
// counts have moments then, which say themselves when a period begins. An error is a
// [study.LogError]: it says which hours or shifts the counts do not have.
func Join(l *study.Log, dayStarts time.Duration) (timed bool, err error) {
	by, stops := keyOf(l)
	if len(stops) == 0 { // where shifts run over midnight it must be said of which day a night is
		return (dayStarts > 0 || l.OverMidnight() == 0) && moments(l, nil, dayStarts), nil
	}
	of := worksOf(l, by)
	of.asCalendar(l, stops, dayStarts)
	var missing []string
	for _, s := range stops {
		k := by.key(s.When, s.Period, s.Shift)
		if of.counts[k] == nil {
			if text := strconv.Quote(k.String()); !slices.Contains(missing, text) {
				missing = append(missing, text)
			}
		}
	}
	if missing != nil {
		return false, study.LogError{Text: fmt.Sprintf("stops of %s are of %s, which %s does not have: rows of both files must name hours or shifts, and days, alike",
			l.StopFile.Name, model.Listed(first(missing, 3)), l.CountFile.Name)}
	}
	of.place(stops)
	return by.day && moments(l, stops, dayStarts), nil
}

// keyOf returns the stops that name no moment, and what they name.
func keyOf(l *study.Log) (by keyedBy, stops []*study.LogStop) {
	for _, s := range l.Stations {
		for i := range s.Stops {
			if x := &s.Stops[i]; x.Untimed {
				by.day, by.period, by.shift = by.day || !x.When.IsZero(), by.period || x.Period != "", by.shift || x.Shift != ""
				stops = append(stops, x)
			}
		}
	}
	return by, stops
}

// moments gives stops and counts the moment at which their hour begins, if all name one; stops of a
// shift that of their day. It reports whether it is those of hours.
func moments(l *study.Log, stops []*study.LogStop, dayStarts time.Duration) bool {
	hours := slices.ContainsFunc(l.Stations, func(s *study.LogStation) bool { return len(s.Counts) > 0 })
	each := func(period string, day time.Time) {
		_, is := clockOf(period, false)
		_, dated := midnight(day)
		hours = hours && is && dated && !day.IsZero()
	}
	for _, s := range stops {
		each(s.Period, s.When)
	}
	for _, s := range l.Stations {
		for _, c := range s.Counts {
			each(c.Period, c.Day)
		}
	}
	at := func(day time.Time, period string) time.Time {
		clock, _ := clockOf(period, false)
		if !hours {
			clock = dayStarts
		} else if clock < dayStarts {
			clock += 24 * time.Hour
		}
		return day.Add(clock)
	}
	for _, s := range stops {
		if !s.When.IsZero() {
			s.When = at(s.When, s.Period)
		}
	}
	for _, s := range l.Stations {
		for i := range s.Counts {
			if c := &s.Counts[i]; hours {
				c.Day = at(c.Day, c.Period)
			}
		}
	}
	return hours
}

func first(all []string, most int) []string {
	if n := len(all) - most; n > 0 {
		return append(slices.Clone(all[:most]), fmt.Sprintf("%d others", n))
	}
	return all
}

// clockForm is how an hour is written: 06:00, 6:00-7:00, 06-07 or, where the heading is hour, 6.
var clockForm = regexp.MustCompile(`^(\d{1,2})(?:[:.h](\d\d))?(?::\d\d)?\s*((?:-|–|to)\s*\d{1,2}(?:[:.h]\d\d)?(?::\d\d)?)?$`)

// clockOf returns the time of day at which a period begins, by what it is called; hourly says that
// a number alone is an hour.
func clockOf(period string, hourly bool) (at time.Duration, is bool) {
	m := clockForm.FindStringSubmatch(period)
	if m == nil || m[2] == "" && m[3] == "" && !hourly {
		return 0, false
	}
	hour, _ := strconv.Atoi(m[1])
	minute, _ := strconv.Atoi("0" + m[2])
	if hour > 23 || minute > 59 {
		return 0, false
	}
	return time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute, true
}

// hourText returns what a period is called: an hour always as 06:00.
func hourText(period string, hourly bool) string {
	at, is := clockOf(period, hourly)
	if !is {
		return period
	}
	return fmt.Sprintf("%02d:%02d", int(at.Hours()), int(at.Minutes())%60)
}

// period returns what the row calls its period.
func (f *reading) period() string { return hourText(f.name(Period, false), f.hourly) }

// periodStop takes a stop of which the row names no moment, but an hour or a shift, and perhaps the
// date.
func (f *reading) periodStop(s *Stop) {
	s.Period, s.Shift = f.period(), f.name(Shift, false)
	day := f.field(Day)
	if len(day.text) > 0 {
		var why string
		s.When, why = f.moment(day.text)
		f.want(Day, day, why)
		s.Untimed = !strings.ContainsAny(string(day.text), "T ")
	} else {
		s.Untimed = true
	}
	if s.Untimed && s.Period == "" && s.Shift == "" {
		of := Period
		if !f.has(Period) {
			of = Shift
		}
		f.want(of, f.field(of), "the hour or the shift that the stop was in")
	}
}
