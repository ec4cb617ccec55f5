package seasons

import (
	"fmt"
	"slices"

	"netrate/sim"
)

// The lengths of a day and of a week.
const (
	day  sim.Seconds = 24 * 3600
	week             = 7 * day
)

// Calendar is when people work: the same every week.
type Calendar struct {
	Days        int         // working days of a week, from its first
	Shifts      []ShiftTime // of each of these days
	Breaks      []Break     // of each shift that says nothing of its own and in which they are over before it ends
	Maintenance []Planned   // of each week
}

// ShiftTime is when one shift of a day is.
type ShiftTime struct {
	Start  sim.Seconds // from midnight
	Length sim.Seconds
	Breaks []Break // instead of those of the calendar, and empty for none; nil for those of the calendar
}

// Break is a break in a shift. With relief others take over and the line runs on.
type Break struct {
	After  sim.Seconds // from the start of the shift
	Length sim.Seconds
	Relief bool
	Who    []string // people of the crew, by their names, who alone have it: the others work on; nil for everybody
}

// Planned is time kept free for maintenance. What of it falls into a shift is lost to work.
type Planned struct {
	Day    int         // 1 for the first of the week
	Start  sim.Seconds // from midnight
	Length sim.Seconds
}

// Window is a stretch of working time, in seconds from the start of the week.
type Window struct{ From, To sim.Seconds }

// Check returns everything that is wrong with the calendar.
func (c *Calendar) Check() []error {
	var found []error
	require := func(ok bool, text string, args ...any) {
		if !ok {
			found = append(found, fmt.Errorf(text, args...))
		}
	}
	require(c.Days >= 1 && c.Days <= 7, "a week has %d working days, want from 1 to 7", c.Days)
	require(len(c.Shifts) > 0, "the calendar has no shift")
	end := sim.Seconds(0)
	for i, s := range c.Shifts {
		require(s.Start >= 0 && s.Start < day && s.Length > 0, "shift %d starts at %v s and lasts %v s, want a start within the day and a length above 0", i+1, float64(s.Start), float64(s.Length))
		require(s.Start >= end, "shift %d starts before the one before it ends", i+1)
		end = s.Start + s.Length
		for k, b := range s.Breaks {
			require(b.sound(), "shift %d has a break, its number %d, that comes after %v s and lasts %v s, want more than 0", i+1, k+1, float64(b.After), float64(b.Length))
			require(b.within(s), "shift %d ends before its break %d is over", i+1, k+1)
			if wrong := b.ownWrong(); wrong != "" {
				require(false, "shift %d has a break, its number %d, %s", i+1, k+1, wrong)
			}
		}
	}
	if len(c.Shifts) > 0 {
		require(end <= day+c.Shifts[0].Start, "the last shift of a day is not over when the first of the next begins")
		require(c.Days < 7 || end <= day || end-day <= c.Shifts[0].Start, "the last shift of a week is not over when the next week begins")
	}
	for i, b := range c.Breaks {
		require(b.sound(), "break %d comes after %v s and lasts %v s, want more than 0", i+1, float64(b.After), float64(b.Length))
		taken := func(s ShiftTime) bool { return s.Breaks == nil && b.within(s) }
		require(len(c.Shifts) == 0 || slices.ContainsFunc(c.Shifts, taken), "break %d is in no shift: none without breaks of its own goes on until it is over", i+1)
	}
	for i, b := range c.Breaks {
		if wrong := b.ownWrong(); wrong != "" {
			require(false, "break %d is one %s", i+1, wrong)
		}
	}
	for i, p := range c.Maintenance {
		require(p.Day >= 1 && p.Day <= 7 && p.Start >= 0 && p.Length > 0 && p.Start+p.Length <= day, "maintenance %d is not within a day of the week", i+1)
	}
	if len(found) == 0 {
		require(c.Working() > 0, "no working time is left in a week")
	}
	return found
}

// sound reports whether a break can be: numbers that are none are refused too.
func (b Break) sound() bool { return b.After >= 0 && b.Length > 0 }

// within reports whether a break is over before a shift ends, or when it does.
func (b Break) within(s ShiftTime) bool { return b.After+b.Length <= s.Length }

// breaks returns the breaks of a shift.
func (c *Calendar) breaks(s ShiftTime) []Break {
	if s.Breaks != nil {
		return s.Breaks
	}
	return slices.DeleteFunc(slices.Clone(c.Breaks), func(b Break) bool { return !b.within(s) })
}

// Windows returns the working time of a week, in order. A shift may reach into the first
// hours after the last day.
func (c *Calendar) Windows() []Window {
	var windows []Window
	for d := range c.Days {
		for _, s := range c.Shifts {
			from := sim.Seconds(sim.Seconds(d)*day) + s.Start
			windows = append(windows, Window{from, from + s.Length})
			for _, b := range c.breaks(s) {
				if !b.Relief && !b.alone() {
					windows = without(windows, Window{from + b.After, from + b.After + b.Length})
				}
			}
		}
	}
	for _, p := range c.Maintenance {
		from := sim.Seconds(sim.Seconds(p.Day-1)*day) + p.Start
		windows = without(windows, Window{from, from + p.Length})
	}
	return windows
}

// without takes a stretch out of some windows.
func without(windows []Window, out Window) []Window {
	var left []Window
	for _, w := range windows {
		if before := (Window{w.From, min(w.To, out.From)}); before.From < before.To {
			left = append(left, before)
		}
		if after := (Window{max(w.From, out.To), w.To}); after.From < after.To {
			left = append(left, after)
		}
	}
	return left
}

// Working returns how long the working time of a week is.
func (c *Calendar) Working() sim.Seconds {
	sum := sim.Seconds(0)
	for _, w := range c.Windows() {
		sum += w.To - w.From
	}
	return sum
}

// Clock tells the time of the week from the working time.
type Clock struct {
	windows []Window
	before  []sim.Seconds // working time of the week before each window, and at the end all of it
}

// Clock returns a clock of the calendar, which must pass its Check.
func (c *Calendar) Clock() *Clock {
	k := &Clock{windows: c.Windows(), before: []sim.Seconds{0}}
	for _, w := range k.windows {
		k.before = append(k.before, k.before[len(k.before)-1]+w.To-w.From)
	}
	return k
}

// At returns when so much working time has passed, in seconds from the start of the first
// week: at the end of a window rather than the start of the next.
func (k *Clock) At(worked sim.Seconds) sim.Seconds {
	all := k.before[len(k.before)-1]
	weeks := sim.Seconds(0)
	for worked > all {
		worked -= all
		weeks += week
	}
	i, found := slices.BinarySearch(k.before, worked)
	if i > 0 {
		i-- // the window in which it lies, or at whose end it lies
	}
	if found && worked == 0 {
		i = 0
	}
	return weeks + k.windows[i].From + worked - k.before[i]
}
