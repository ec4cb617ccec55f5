package present

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
)

// A burst over days is shaded on each of them, and on no other.
func TestBurstOverDays(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC) }
	s := &study.FitStation{LogStation: &study.LogStation{Name: "letter"}}
	for day := 2; day <= 7; day++ {
		for hour := 6; hour < 14; hour++ {
			s.Stops = append(s.Stops, study.LogStop{When: at(day, hour)})
		}
	}
	s.Found = []study.FitBurst{{From: at(3, 12), To: at(6, 8), Stops: 20, Expected: 4}}
	f, err := burstTimes(s)
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	assert.Equal(t, 4, strings.Count(string(svg), "<title>2026-03-03 12:00 to 2026-03-06 08:00, 20 stops</title>"))
}
