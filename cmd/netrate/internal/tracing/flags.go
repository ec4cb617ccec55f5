package tracing

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"netrate/model/study"
	"netrate/model/trace"
)

// shifts is a flag: some shifts in a row, such as 1-20.
type shifts struct{ first, last int }

// mostShift is the highest number that a shift can have.
const mostShift = 10_000_000

// Set reads two numbers, or one.
func (s *shifts) Set(text string) error {
	from, to, several := strings.Cut(text, "-")
	if !several {
		to = from
	}
	first, err := strconv.Atoi(from)
	last, err2 := strconv.Atoi(to)
	if err != nil || err2 != nil || first < 0 || last < first || last > mostShift || last-first >= study.MostTraced {
		return fmt.Errorf("want numbers of shifts such as 1-20, from 0, at most %d of them", study.MostTraced)
	}
	s.first, s.last = first, last
	return nil
}

// String returns the numbers as the command line has them.
func (s *shifts) String() string { return fmt.Sprintf("%d-%d", s.first, s.last) }

// Type returns what the help calls the value.
func (s *shifts) Type() string { return "N-M" }

// oneShift is a flag: a single shift.
type oneShift shifts

// Set reads the number of a shift.
func (s *oneShift) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > mostShift {
		return errors.New("want the number of a shift, from 0")
	}
	s.first, s.last = n, n
	return nil
}

// String returns the number as the command line has it.
func (s *oneShift) String() string { return strconv.Itoa(s.first) }

// Type returns what the help calls the value.
func (s *oneShift) Type() string { return "N" }

// start is a flag: when the first shift begins.
type start struct{ time.Time }

// startLayout is how the flag is written, as in ISO 8601.
const startLayout = "2006-01-02T15:04"

// usualStart is a Monday.
var usualStart = start{time.Date(2026, time.January, 5, 6, 0, 0, 0, time.UTC)}

// Set reads a moment.
func (s *start) Set(text string) error {
	t, err := time.Parse(startLayout, strings.Replace(text, " ", "T", 1))
	if err != nil {
		return errors.New("want a date and a time such as 2026-01-05T06:00")
	}
	s.Time = t
	return nil
}

// String returns the moment as the command line has it.
func (s *start) String() string { return s.Format(startLayout) }

// Type returns what the help calls the value.
func (s *start) Type() string { return "TIME" }

// of returns when a shift begins, by its place among those that are traced: each a day after the
// one before, or as many days as a shift takes.
func (s *start) of(place int) time.Time { return s.AddDate(0, 0, place) }

// begins returns when each shift begins: those of a replication after the one before, each pass of
// a job when it does.
func (s *start) begins(all []*trace.Shift) []time.Time {
	const day = 24 * 3600
	var begins []time.Time
	place, days := 0, 0
	for i, x := range all {
		if i > 0 && x.Replication != all[i-1].Replication {
			place += days
			days = 0
		}
		begins = append(begins, s.of(place).Add(time.Duration(thousandths(x.Begins))*time.Millisecond))
		days = max(days, 1, int((x.Begins+x.Lasts()+day-1)/day))
	}
	return begins
}
