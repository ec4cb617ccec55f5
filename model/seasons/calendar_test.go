package seasons

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

const (
	hour   sim.Seconds = 3600
	minute sim.Seconds = 60
)

// twoShifts is five days of two shifts of 8 h from 6 o'clock, each with a break of 30 min
// after 4 h, and 2 h of maintenance from 10 o'clock on the third day.
func twoShifts() *Calendar {
	return &Calendar{
		Days:        5,
		Shifts:      []ShiftTime{{Start: 6 * hour, Length: 8 * hour}, {Start: 14 * hour, Length: 8 * hour}},
		Breaks:      []Break{{After: 4 * hour, Length: 30 * minute}, {After: 6 * hour, Length: 15 * minute, Relief: true}},
		Maintenance: []Planned{{3, 10 * hour, 2 * hour}},
	}
}

// Worked out by hand: 5 days × 2 shifts × 7.5 h, less the 1.5 h of maintenance that are no
// break already (the break of the first shift is from 10:00 to 10:30). A break with relief
// costs nothing.
func TestCalendarWorkingTime(t *testing.T) {
	c := twoShifts()
	assert.Empty(t, c.Check())
	assert.Equal(t, 73.5*hour, c.Working())
	first := c.Windows()[:4]
	assert.Equal(t, []Window{{6 * hour, 10 * hour}, {10.5 * hour, 14 * hour}, {14 * hour, 18 * hour}, {18.5 * hour, 22 * hour}}, first)
}

// A third shift of 3 h ends before the break comes, and has none; one of 4 h 30 ends with it. Breaks of its
// own are instead of those of the calendar, and may be none.
func TestCalendarBreaksOfShifts(t *testing.T) {
	c := twoShifts()
	c.Days, c.Maintenance = 1, nil
	c.Shifts = append(c.Shifts, ShiftTime{Start: 22 * hour, Length: 3 * hour})
	assert.Empty(t, c.Check())
	assert.Equal(t, 18*hour, c.Working())
	c.Shifts[2].Length = 4.5 * hour
	assert.Equal(t, 19*hour, c.Working(), "it ends with the break")
	c.Shifts[2].Length = 4.5*hour - 1
	assert.Equal(t, 19.5*hour-1, c.Working())
	c.Shifts[2].Breaks = []Break{{After: hour, Length: 10 * minute}}
	assert.Equal(t, 19.5*hour-1-10*minute, c.Working())
	c.Shifts[0].Breaks = []Break{}
	assert.Empty(t, c.Check())
	assert.Equal(t, 20*hour-1-10*minute, c.Working())
}

// The clock on the wall, by hand: 4 h of work bring 10 o'clock, one second more 10:30 and
// a second; 15 h the end of the first day; 73.5 h the end of the week.
func TestClock(t *testing.T) {
	k := twoShifts().Clock()
	for worked, at := range map[sim.Seconds]sim.Seconds{
		0:             6 * hour,
		4 * hour:      10 * hour,
		4*hour + 1:    10.5*hour + 1,
		15 * hour:     22 * hour,
		15*hour + 60:  day + 6*hour + 60,
		73.5 * hour:   4*day + 22*hour,
		73.5*hour + 1: week + 6*hour + 1,
		147*hour + 1:  2*week + 6*hour + 1,
	} {
		assert.InDelta(t, float64(at), float64(k.At(worked)), 1e-6, "after %v h of work", float64(worked/hour))
	}
}

func TestCalendarRefuses(t *testing.T) {
	cases := map[string]func(c *Calendar){
		"working days":                func(c *Calendar) { c.Days = 8 },
		"no shift":                    func(c *Calendar) { c.Shifts = nil },
		"before the one before":       func(c *Calendar) { c.Shifts[1].Start = 13 * hour },
		"first of the next begins":    func(c *Calendar) { c.Shifts[1].Length = 17 * hour },
		"next week begins":            func(c *Calendar) { c.Days = 7; c.Shifts[1].Length = 17 * hour },
		"break 1 is in no shift":      func(c *Calendar) { c.Breaks[0].Length = 5 * hour },
		"break 2 is in no shift":      func(c *Calendar) { c.Shifts[0].Breaks, c.Shifts[1].Breaks = []Break{}, []Break{} },
		"shift 2 ends before":         func(c *Calendar) { c.Shifts[1].Breaks = []Break{{After: 4 * hour, Length: 5 * hour}} },
		"shift 2 has a break":         func(c *Calendar) { c.Shifts[1].Breaks = []Break{{After: 4 * hour}} },
		"break 1 comes after":         func(c *Calendar) { c.Breaks[0].After = -1 },
		"maintenance 1 is not within": func(c *Calendar) { c.Maintenance[0].Day = 0 },
		"no working time is left":     func(c *Calendar) { c.Breaks[0] = Break{Length: 8 * hour} },
	}
	for want, spoil := range cases {
		t.Run(want, func(t *testing.T) {
			c := twoShifts()
			spoil(c)
			all := ""
			for _, err := range c.Check() {
				all += err.Error() + "\n"
			}
			assert.Contains(t, all, want)
		})
	}
}
