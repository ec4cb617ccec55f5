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

// Counts with a column for each station; what has no number in the first row is none.
func TestCountsWithAColumnAStation(t *testing.T) {
	var all []Count
	report, err := ReadCounts(strings.NewReader("Date,Job,Feeder 1,Feeder 2 feeds,Remark\n2026-03-02,plain,900,880,fine\n2026-03-03,coated,700,,\n"), Mapping{}, func(c Count) error {
		all = append(all, c)
		return nil
	})
	require.NoError(t, err)
	require.Len(t, all, 3)
	assert.Equal(t, []string{"Feeder 1", "Feeder 2", "Feeder 1"}, []string{all[0].Station, all[1].Station, all[2].Station})
	assert.Equal(t, []int64{900, 880, 700}, []int64{all[0].Feeds, all[1].Feeds, all[2].Feeds})
	assert.Equal(t, "coated", all[2].Job)
	assert.Equal(t, []string{"Remark"}, report.Layout.Unread)
	assert.EqualValues(t, 2, report.Used)
	_, err = ReadCounts(strings.NewReader("Date,Feeder 1\n2026-03-02,900\n2026-03-03,many\n"), Mapping{}, func(Count) error { return nil })
	require.ErrorContains(t, err, `feeds is "many"`)
	_, err = ReadCounts(strings.NewReader("Date,Remark\n2026-03-02,none\n"), Mapping{}, func(Count) error { return nil })
	require.ErrorContains(t, err, "have one for each station")
}
