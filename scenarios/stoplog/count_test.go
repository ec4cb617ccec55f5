package stoplog

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The data are invented.
func TestCounts(t *testing.T) {
	day := time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name, text string
		want       Count
	}{
		{"the least", "station,feeds\nfeeder 3,118250\n", Count{Line: 2, Station: "feeder 3", Feeds: 118250}},
		{
			"everything", "Date;Shift;Station;Job;Speed;Cycles run\n31.03.2026;late;feeder 3;march 17;9500,5;118250\n",
			Count{Line: 2, Station: "feeder 3", Feeds: 118250, Job: "march 17", Speed: 9500.5, Shift: "late", Day: day},
		},
		{"a moment for a day", "when,station,feeds\n2026-03-31T06:00,feeder 3,0\n", Count{Line: 2, Station: "feeder 3", Day: day.Add(6 * time.Hour)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []Count
			_, err := ReadCounts(strings.NewReader(c.text), Mapping{}, func(c Count) error { got = append(got, c); return nil })
			require.NoError(t, err)
			assert.Equal(t, []Count{c.want}, got)
		})
	}
}
