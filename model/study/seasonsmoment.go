package study

import (
	"fmt"
	"math"

	"netrate/model/seasons"
	"netrate/sim"
)

// SeasonsMoment is a time of a season as the clock on the wall has it. Weeks begin on Monday.
type SeasonsMoment struct {
	Week         int // from 1
	Day          int // 0 for Monday
	Hour, Minute int
}

// SeasonsWeekdays are the days of a week, in short.
var SeasonsWeekdays = [7]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

// SeasonsMomentOf returns when the working time has run for a number of hours.
func SeasonsMomentOf(clock *seasons.Clock, worked float64) SeasonsMoment {
	const day, week = 24 * 60, 7 * 24 * 60 // minutes
	at := int(math.Round(float64(clock.At(sim.Seconds(3600*worked))) / 60))
	return SeasonsMoment{Week: at/week + 1, Day: at % week / day, Hour: at % day / 60, Minute: at % 60}
}

// String returns the moment: "Wed 14:20 of week 2".
func (m SeasonsMoment) String() string {
	return fmt.Sprintf("%s %02d:%02d of week %d", SeasonsWeekdays[m.Day], m.Hour, m.Minute, m.Week)
}

// MarshalText returns the moment as String has it.
func (m SeasonsMoment) MarshalText() ([]byte, error) { return []byte(m.String()), nil }
