package learn

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// A shift over midnight is noticed where the counts give dates alone, until somebody says when a day
// begins; planned stops are set apart.
func TestShiftsOverMidnight(t *testing.T) {
	log := logHead + stopsOf("letter", "misfeed") + "2026-03-02 23:40:00,letter,misfeed,30\n2026-03-03 00:20:00,letter,misfeed,30\n2026-03-03 02:20:00,letter,lunch break,1800\n"
	x := textsOf(t, log, "day,station,feeds\n2026-03-02,letter,9000\n")
	notes := strings.Join(x.Notes(), " ")
	assert.Contains(t, notes, "The line ran over midnight on 1 night, and the counts give dates alone: --day-starts 06:00 says")
	assert.Contains(t, notes, "1 planned stop, a break, a changeover or the like, for 30 min: set apart: lunch break 1 × in 30 min.")
	assert.NotContains(t, notes, "stops for stocks")
	a, err := study.Fit{Log: x.Log.Log, Quick: true, DayStarts: 6 * 3600e9}.Ask(t.Context(), nil)
	assert.NoError(t, err)
	x.FitAnswer = a
	assert.NotContains(t, strings.Join(x.Notes(), " "), "over midnight")
	assert.NotContains(t, strings.Join(textsOf(t, log, "day,station,feeds\n2026-03-02 06:00,letter,9000\n").Notes(), " "), "over midnight")
}
