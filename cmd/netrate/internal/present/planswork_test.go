package present

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/sim"
)

// The axis of a plan has each day, and of a long one each week, by its first day with work.
func TestTicksOfPlans(t *testing.T) {
	s := Plans{PlansAnswer: &study.PlansAnswer{}, Starts: time.Date(2026, 3, 23, 0, 0, 0, 0, time.UTC)}
	ticks := func(days int) (names []string) {
		var windows []seasons.Window
		for d := range days {
			for _, hour := range []sim.Seconds{6, 14} {
				windows = append(windows, seasons.Window{From: sim.Seconds(d)*24*3600 + hour*3600})
			}
		}
		for _, tick := range s.ticks(windows, func(m study.PlansMoment) float64 { return float64(m.At) }) {
			names = append(names, tick.Name)
		}
		return names
	}
	assert.Equal(t, []string{"Mon 23 Mar", "Tue 24 Mar"}, ticks(2))
	assert.Len(t, ticks(mostDays), mostDays)
	assert.Equal(t, []string{"23 Mar", "30 Mar", "6 Apr"}, ticks(15))
	s.Starts = time.Time{}
	assert.Equal(t, []string{"day 1", "week 2 day 1", "week 3 day 1"}, ticks(15))
}
