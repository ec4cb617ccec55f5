package stoplog

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// fresh returns a reading of a file with the given delimiter, of which nothing is settled.
func fresh(delimiter byte) *reading {
	f := &reading{stopLog: true, zone: time.UTC}
	if delimiter == ',' {
		f.report.Layout.Decimal = '.'
	}
	return f
}

// The first two are examples of RFC 3339, section 5.8, with what is said there of them (from
// memory).
func TestMoments(t *testing.T) {
	for _, c := range []struct {
		text string
		way  Times // of the moments before
		want string
	}{
		{"1985-04-12T23:20:50.52Z", "", "1985-04-12T23:20:50.52Z"},
		{"1996-12-19T16:39:57-08:00", "", "1996-12-20T00:39:57Z"},
		{"2026-03-31 14:05:10", "", "2026-03-31T14:05:10Z"},
		{"2026-03-31 14:05:10,5", "", "2026-03-31T14:05:10.5Z"},
		{"2026-03-31T14:05+02:00", "", "2026-03-31T12:05:00Z"},
		{"2026-03-31 9:05", "", "2026-03-31T09:05:00Z"},
		{"2026-03-31  14:05", "", "2026-03-31T14:05:00Z"},
		{"31.03.2026 14:05", "", "2026-03-31T14:05:00Z"},
		{"1.3.2026 14:05:10", "", "2026-03-01T14:05:10Z"},
		{"03/04/2026 14:05", DayFirst, "2026-04-03T14:05:00Z"},
		{"03/04/2026 14:05", MonthFirst, "2026-03-04T14:05:00Z"},
		{"3/4/2026 12:05 AM", MonthFirst, "2026-03-04T00:05:00Z"},
		{"29.02.2028 00:00", "", "2028-02-29T00:00:00Z"},
		{"90.5", FromStart, "0001-01-01T00:01:30.5Z"},

		{"29.02.2026 00:00", "", ""},
		{"2026-03-31 24:00", "", ""},
		{"2026-03-31 14:60", "", ""},
		{"2026-3-31 14:05", "", ""},
		{"2026-03-31", "", ""},
		{"2026-03-31 14:05 o'clock", "", ""},
		{"2026-03-31 14:05ZZ", "", ""},
		{"31.03.26 14:05", "", ""},
		{"03/04/2026 14:05", "", ""},
		{"13/13/2026 14:05", DayFirst, ""},
		{"31.03.2026 14:05", ISO, ""},
		{"14:05", "", ""},
		{"90.5", "", ""},
		{"-1", FromStart, ""},
		{"+", "", ""},
		{"", "", ""},
	} {
		t.Run(c.text+" "+string(c.way), func(t *testing.T) {
			f := fresh(',')
			f.report.Layout.Times, f.dateMet = c.way, c.way != ""
			got, why := f.moment([]byte(c.text))
			if c.want == "" {
				assert.NotEmpty(t, why, got)
				assert.Equal(t, c.way, f.report.Layout.Times, "nothing is settled")
				return
			}
			assert.Empty(t, why)
			assert.Equal(t, c.want, got.UTC().Format(time.RFC3339Nano))
		})
	}
}

func TestDurations(t *testing.T) {
	for _, c := range []struct {
		text      string
		delimiter byte
		unit      Unit
		want      sim.Seconds // -1: none
	}{
		{"90", ',', Seconds, 90},
		{"12.5", ',', Seconds, 12.5},
		{"12,5", ';', Seconds, 12.5},
		{"12.5", ';', Seconds, 12.5},
		{".5", ',', Minutes, 30},
		{"1.5", ',', Hours, 5400},
		{"0", ',', Seconds, 0},
		{"0:01:30", ',', "", 90},
		{"100:00:00.5", ',', "", 360000.5},
		{"31622400", ',', Seconds, maxSeconds},
		{"12,5", ',', Seconds, -1},
		{"1,234.5", ',', Seconds, -1},
		{"1.234,5", ';', Seconds, -1},
		{"90", ',', "", -1},
		{"31622401", ',', Seconds, -1},
		{"8785:00:00", ',', "", -1},
		{"1:30", ',', Minutes, 90},
		{"1:30", ',', Hours, 5400},
		{"1:30", ',', Seconds, -1},
		{"1:30", ',', "", -1},
		{"0:59:59", ',', "", 3599},
		{"0:60:00", ',', "", -1},
		{"0:1:30", ',', "", -1},
		{"0:01:60", ',', "", -1},
		{"0:01:3.5", ',', "", -1},
		{"-0:01:30", ',', "", -1},
		{"::", ',', "", -1},
		{"NaN", ',', Seconds, -1},
		{"Inf", ',', Seconds, -1},
		{"-1", ',', Seconds, -1},
		{"1e3", ',', Seconds, -1},
		{"0x1p3", ',', Seconds, -1},
		{".", ',', Seconds, -1},
		{"90 s", ',', Seconds, -1},
		{"٣", ',', Seconds, -1},
		{"", ',', Seconds, -1},
	} {
		t.Run(c.text+" "+string(c.unit), func(t *testing.T) {
			f := fresh(c.delimiter)
			f.report.Layout.Unit = c.unit
			got, why := f.duration([]byte(c.text))
			if c.want < 0 {
				assert.NotEmpty(t, why, got)
				return
			}
			assert.Empty(t, why)
			assert.Equal(t, c.want, got)
		})
	}
}

func TestIntegerDistributionNumbers(t *testing.T) {
	n, why := whole([]byte("1000000000000"))
	assert.Empty(t, why)
	assert.EqualValues(t, maxCount, n)
	for _, text := range []string{"", "-0", "+1", "1.0", "1,000", "1 000", "1_000", "1000000000001", "99999999999999999999", "x"} {
		_, why := whole([]byte(text))
		assert.NotEmpty(t, why, text)
	}
	_, why = whole([]byte("1000000000001"))
	assert.Equal(t, "at most 1000000000000", why)
}

// foreignLog reads a log of one heading row and others, and returns its stops.
func foreignLog(t *testing.T, m Mapping, rows ...string) ([]Stop, Report, error) {
	t.Helper()
	var stops []Stop
	report, err := Read(strings.NewReader(strings.Join(rows, "\n")+"\n"), m, func(s Stop) error {
		stops = append(stops, s)
		return nil
	})
	return stops, report, err
}

// Headings as people write them are known, and lengths with one colon where the unit is said.
func TestForeignLog(t *testing.T) {
	for heading, want := range map[string]map[string]sim.Seconds{
		"Duration (mm:ss)":  {"1:30": 90, "75:05": 4505},
		"Downtime (min)":    {"1:30": 90, "2": 120, "1.5": 90},
		"Stopped (h:mm)":    {"0:45": 2700},
		"Length (hh:mm:ss)": {"0:01:30": 90},
	} {
		for text, seconds := range want {
			stops, _, err := foreignLog(t, Mapping{}, "When,Where,What happened,"+heading+",Set speed", "2026-03-31 14:05,feeder 3,jam,"+text+",9000")
			require.NoError(t, err, heading)
			assert.InDelta(t, float64(seconds), float64(stops[0].Seconds), 1e-9, "%s: %s", heading, text)
			assert.Equal(t, "feeder 3", stops[0].Station)
			assert.Equal(t, Jam, stops[0].Cause)
			assert.InDelta(t, 9000, stops[0].Speed, 0)
		}
	}
	for heading, text := range map[string]string{"Duration": "1:30", "Duration (s)": "1:30", "Duration (mm:ss)": "1:75", "Downtime (h)": "1:5"} {
		_, _, err := foreignLog(t, Mapping{}, "When,Where,What happened,"+heading, "2026-03-31 14:05,feeder 3,jam,"+text)
		require.Error(t, err, "%s: %s", heading, text)
	}
}

// A date that can be read in one way only is read so, and with it those that could be read in two.
func TestDatesThatLeaveOneWay(t *testing.T) {
	head := "start,station,cause,seconds"
	stops, report, err := foreignLog(t, Mapping{}, head, "03/04/2026 14:05,a,jam,5", "31/03/2026 14:05,a,jam,5")
	require.NoError(t, err)
	assert.Equal(t, DayFirst, report.Layout.Times)
	assert.Equal(t, time.April, stops[0].When.Month())
	stops, report, err = foreignLog(t, Mapping{}, head, "03/04/2026 14:05,a,jam,5", "03/31/2026 14:05,a,jam,5")
	require.NoError(t, err)
	assert.Equal(t, MonthFirst, report.Layout.Times)
	assert.Equal(t, time.March, stops[0].When.Month())
	for _, rows := range [][]string{{"03/04/2026 14:05,a,jam,5", "05/04/2026 14:05,a,jam,5"}, {"13/04/2026 14:05,a,jam,5", "03/31/2026 14:05,a,jam,5"}} {
		_, _, err = foreignLog(t, Mapping{}, head, rows[0], rows[1])
		require.ErrorContains(t, err, "which comes first in 03/04/2026")
	}
}

// One cause of trouble in many rows is one message with their number.
func TestOneMessageForOneCause(t *testing.T) {
	rows := []string{"start,station,cause,seconds"}
	for range 152 {
		rows = append(rows, "03/04/2026 14:05,a,jam,5")
	}
	rows = append(rows, "2026-03-04 14:05,a,jam,forty")
	_, _, err := foreignLog(t, Mapping{}, rows...)
	require.Error(t, err)
	text := err.Error()
	assert.Contains(t, text, "the day or the month; so in 152 rows\n")
	assert.Contains(t, text, `length is "forty"`)
	assert.True(t, strings.HasSuffix(text, "153 of 153 rows cannot be read"), text)
	assert.Less(t, strings.Count(text, "\n"), 8)
}

// Breaks, changeovers and what else is meant to be are set apart, and stops without a cause counted
// as such.
func TestPlannedStops(t *testing.T) {
	stops, report, err := foreignLog(t, Mapping{}, "start,station,cause,duration (min)", "2026-03-31 14:05,a,Lunch break,30", "2026-03-31 15:05,a,changeover,12", "2026-03-31 16:05,a,,2", "2026-03-31 17:05,a,make-ready,9")
	require.NoError(t, err)
	assert.Equal(t, []Cause{Planned, Planned, Other, Planned}, []Cause{stops[0].Cause, stops[1].Cause, stops[2].Cause, stops[3].Cause})
	assert.EqualValues(t, 3, report.Causes[Planned])
	assert.Equal(t, []string{"no cause at all (1)"}, Frequent(report.Others, 2))
}
