package stoplog

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

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
		way  Times // as specified
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
			f.report.Layout.Times = c.way
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
		{"1:30", ',', Minutes, -1},
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
}
