package scenarios

import (
	"errors"
	"fmt"
	"regexp"
	"time"

	"netrate/model/seasons"
	"netrate/sim"
)

// moment is a time of a plan: by week, day and time of day, or by its date.
type moment struct {
	Week *weekNumber `yaml:"week,omitempty" jsonschema_description:"from 1; 1 if not given"`
	Day  *days       `yaml:"day" jsonschema_description:"of the week, 1 for its first"`
	Time *clock      `yaml:"time" jsonschema_description:"time of day, such as \"14:00\""`

	dated dated // "" if it is not by its date
}

// decode reads the short form, a date, or the long one.
func (x *moment) decode(r *reader, n *node, key string) {
	if n.Kind == scalarNode {
		r.quantity(n, key, &x.dated)
		return
	}
	r.inside(n, key, x)
}

// of returns the moment in seconds from the start of the first week, and notes a date that cannot be.
func (x *moment) of(r *reader, n *node, p *Plan) sim.Seconds {
	if x.dated == "" {
		return planTime(x.Week, x.Day, x.Time)
	}
	at, err := p.Moment(string(x.dated))
	if err != nil {
		r.note(n, "%v", err)
	}
	return at
}

func planTime(w *weekNumber, d *days, c *clock) sim.Seconds {
	day := 7*int(or(w, 1)-1) + int(or(d, 1)) - 1
	return sim.Seconds(day*24*3600) + sim.Seconds(or(c, 0))
}

// dated is a date and a time of day.
type dated string

const (
	wantDated   = `a time such as "2026-03-25 14:00", with its weekday or without: "Wed 2026-03-25 14:00"`
	datedLayout = "2006-01-02 15:04"
)

var datedPattern = regexp.MustCompile(`^(?:(Mon|Tue|Wed|Thu|Fri|Sat|Sun) )?([0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2})$`)

func (x *dated) read(text string) error {
	at, err := parseDated(text)
	if err != nil || at.Year() < 1970 || at.Year() > 2200 {
		return want(wantDated+", or week, day and time", err)
	}
	*x = dated(text)
	return nil
}

// parseDated returns a date and time of day, as if it were in UTC. A weekday must be that of the date.
func parseDated(text string) (time.Time, error) {
	m := datedPattern.FindStringSubmatch(text)
	if m == nil {
		return time.Time{}, errors.New("it is no date with a time of day")
	}
	at, err := time.Parse(datedLayout, m[2])
	switch {
	case err != nil:
		return at, errors.New("there is no such day, or no such time of day")
	case m[1] != "" && at.Format("Mon") != m[1]:
		return at, fmt.Errorf("that day is a %s", at.Weekday())
	}
	return at, nil
}

// Moment returns a date with a time of day, such as "2026-03-25 14:00" or "Wed 2026-03-25 14:00", in seconds
// from the start of the first week, by the clock on the wall. It is an error if the plan does not say when
// that is; if the date is before it, or later than a plan looks ahead; and if the clock on the wall never
// shows that time, in the night of a change to summer time.
func (p *Plan) Moment(text string) (sim.Seconds, error) {
	at, err := parseDated(text)
	from := time.Date(p.Starts.Year(), p.Starts.Month(), p.Starts.Day(), 0, 0, 0, 0, time.UTC)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q: want %s: %w", text, wantDated, err)
	case p.Starts.IsZero():
		return 0, fmt.Errorf("%q is a date, and the plan does not say when week 1 starts: add starts, or say week, day and time", text)
	case at.Before(from):
		return 0, fmt.Errorf("%q is before week 1 starts, on %s", text, from.Format(time.DateOnly))
	case !at.Before(from.AddDate(0, 0, 7*seasons.MostWeeks)):
		return 0, fmt.Errorf("%q is later than a plan looks ahead: %d weeks from %s on", text, seasons.MostWeeks, from.Format(time.DateOnly))
	}
	if zone, err := time.LoadLocation(p.Zone); err == nil && p.Zone != "" {
		if shown := time.Date(at.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), 0, 0, zone).Format(datedLayout); shown != at.Format(datedLayout) {
			return 0, fmt.Errorf("%q does not come in %s: the clocks go forward then", text, p.Zone)
		}
	}
	return sim.Seconds(at.Sub(from) / time.Second), nil
}
