package stoplog

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
)

// A bad pallet in a log whose stops name only their hour is in the caution that the fitted station carries,
// and its counts are those of fewer stops; without it neither is.
func TestBurstsOfHoursAreWritten(t *testing.T) {
	written := func(bad int) string {
		var stops, counts strings.Builder
		stops.WriteString("day,hour,station,cause,seconds\n")
		counts.WriteString("day,hour,job,speed,letter\n")
		for day := 2; day <= 4; day++ {
			for hour := 8; hour < 16; hour++ {
				n := 2 + hour%2
				if day == 3 && (hour == 10 || hour == 11) {
					n += bad
				}
				fmt.Fprintf(&counts, "2026-03-%02d,%02d-%02d,letters,9000,8000\n", day, hour, hour+1)
				for k := range n {
					fmt.Fprintf(&stops, "2026-03-%02d,%02d-%02d,letter,misfeed,%d\n", day, hour, hour+1, 30+k)
				}
			}
		}
		l, _, err := joined(t, stops.String(), counts.String(), 0)
		require.NoError(t, err)
		l.Kinds = study.LogKindsOf(&model.Feeder{})
		for i := range l.Find("letter").Stops {
			l.Find("letter").Stops[i].Cause = study.LogCause(model.Misfeed)
		}
		a, err := study.Fit{Log: l, Seed: 1}.Ask(t.Context(), nil)
		require.NoError(t, err)
		if bad > 0 {
			require.Len(t, a.Stations[0].Found, 1)
			assert.Equal(t, time.Date(2026, 3, 3, 10, 0, 0, 0, time.UTC), a.Stations[0].Found[0].From)
			assert.Equal(t, time.Date(2026, 3, 3, 12, 0, 0, 0, time.UTC), a.Stations[0].Found[0].To)
		}
		return Fragment(a)
	}
	bad, quiet := written(12), written(0)
	assert.Contains(t, bad, "they come in bursts, so that shifts differ more than a forecast says")
	assert.Contains(t, bad, "84 in 192,000, in bursts, which tell no more than this")
	assert.Contains(t, quiet, "misfeed: {seen: 60, of: 192000}")
	assert.NotContains(t, quiet, "bursts")
}
