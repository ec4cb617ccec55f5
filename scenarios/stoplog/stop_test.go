package stoplog

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stops reads a log in which nothing is wrong.
func stops(t *testing.T, text string, m Mapping) ([]Stop, Report) {
	t.Helper()
	var all []Stop
	report, err := Read(strings.NewReader(text), m, func(s Stop) error { all = append(all, s); return nil })
	require.NoError(t, err)
	assert.Equal(t, report.Rows, report.Used)
	return all, report
}

func at(day, hour, minute, second int) time.Time {
	return time.Date(2026, 3, day, hour, minute, second, 0, time.UTC)
}

// The same two stops, as different people write them. The data are invented.
func TestTheSameLogInManyHands(t *testing.T) {
	byNumber := map[Column]string{When: "1", Station: "2", Reason: "3", Length: "4"}
	for _, c := range []struct {
		name, text string
		mapping    Mapping
	}{
		{"plain", "start,station,cause,seconds\n2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n", Mapping{}},
		{
			"a spreadsheet with semicolons, byte order mark and CRLF",
			"\uFEFFDate and time;STATION;Reason;Downtime (min)\r\n31.03.2026 14:05;feeder 3;Double;1,5\r\n31.03.2026 23:59:30;inserter;Flap closed;0,75\r\n;;;\r\n",
			Mapping{},
		},
		{"a heading that is a #, and sep=", "sep=;\n#;start;station;cause;seconds,\n1;2026-03-31 14:05;feeder 3;double;90\n2;2026-03-31 23:59:30;inserter;flap;45\n", Mapping{}},
		{"tabs", "# invented\n\nStart\tFeeder\tFault\tDuration [s]\n2026-03-31T14:05:00Z\tfeeder 3\tdouble feed\t90.0\n2026-03-31T23:59:30Z\tinserter\tflap\t45\n", Mapping{}},
		{"bars, h:mm:ss, a column more", "start|id|station|cause|duration\n2026-03-31 14:05|a|feeder 3|double|0:01:30\n2026-03-31 23:59:30|b|inserter|flap|0:00:45\n", Mapping{}},
		{"separators in a quoted heading", "start,station,cause,seconds,\"a;b;c;d;e;f\"\n2026-03-31 14:05,feeder 3,double,90,\n2026-03-31 23:59:30,inserter,flap,45,\"x,\ny\"\n", Mapping{}},
		{"ends", "start,end,station,cause\n2026-03-31 14:05,2026-03-31 14:06:30,feeder 3,double\n2026-03-31 23:59:30,2026-04-01 00:00:15,inserter,flap\n", Mapping{}},
		{"a date for itself, and past midnight", "Date,Start,End,Station,Cause\n2026-03-31,14:05,14:06:30,feeder 3,double\n2026-03-31,23:59:30,00:00:15,inserter,flap\n", Mapping{}},
		{"the end where there is no length", "start,seconds,end,station,cause\n2026-03-31 14:05,90,,feeder 3,double\n2026-03-31 23:59:30,,2026-04-01 00:00:15,inserter,flap\n", Mapping{}},
		{"the date holds the time", "date,station,cause,seconds\n2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n", Mapping{}},
		{"day first, as specified", "time,station,cause,seconds\n31/03/2026 14:05,feeder 3,double,90\n31/3/2026 23:59:30,inserter,flap,45\n", Mapping{Times: DayFirst}},
		{"day first, as specified of another file", "time,station,cause,seconds\n2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n", Mapping{Times: DayFirst}},
		{"month first, as told, AM and PM", "time,station,cause,seconds\n03/31/2026 2:05 PM,feeder 3,double,90\n3/31/2026 11:59:30 PM,inserter,flap,45\n", Mapping{Times: MonthFirst}},
		{
			"seconds from the start", "start (s),station,cause,seconds\n300,feeder 3,double,90\n35970,inserter,flap,45\n",
			Mapping{Start: at(31, 14, 0, 0)},
		},
		{"no header", "2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n", Mapping{Headless: true, Columns: byNumber, Unit: Seconds}},
		{"columns by number", "a,b,c,d\n2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n", Mapping{Columns: byNumber, Unit: Seconds}},
		{
			"headings that mean something else", "time,event,cause,duration (min)\n2026-03-31 14:05,feeder 3,double,90\n2026-03-31 23:59:30,inserter,flap,45\n",
			Mapping{Columns: map[Column]string{Station: "event"}, Unit: Seconds},
		},
		{
			"columns by heading, own words",
			"Beginn;Anlage;Grund;Dauer\n31.03.2026 14:05;feeder 3;Doppelabzug;1,5\n31.03.2026 23:59:30;inserter;Lasche zu;0,75\n",
			Mapping{
				Columns: map[Column]string{When: "beginn", Station: "Anlage", Reason: "GRUND", Length: "Dauer"}, Unit: Minutes,
				Causes: map[string]Cause{"doppelabzug": Double, "Lasche-Zu": Flap},
			},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := stops(t, c.text, c.mapping)
			require.Len(t, got, 2)
			for i, want := range []Stop{
				{When: at(31, 14, 5, 0), Station: "feeder 3", Cause: Double, Seconds: 90},
				{When: at(31, 23, 59, 30), Station: "inserter", Cause: Flap, Seconds: 45},
			} {
				assert.Truef(t, want.When.Equal(got[i].When), "%v, want %v", got[i].When, want.When)
				want.When, want.Line, want.Called = got[i].When, got[i].Line, got[i].Called
				assert.Equal(t, want, got[i])
			}
		})
	}
}

// All that a row can hold.
func TestAFullRow(t *testing.T) {
	got, report := stops(t, "start,station,cause,seconds,job,speed (cycles/h),cut off\n"+
		"2026-03-31 14:05,feeder 3,Coffee spilt,90,march 17,9500,x\n2026-03-31 14:08,feeder 3,,1,,,\n", Mapping{})
	assert.Equal(t, []Stop{
		{Line: 2, When: at(31, 14, 5, 0), Station: "feeder 3", Cause: Other, Called: "Coffee spilt", Seconds: 90, CutOff: true, Job: "march 17", Speed: 9500},
		{Line: 3, When: at(31, 14, 8, 0), Station: "feeder 3", Cause: Other, Seconds: 1},
	}, got)
	assert.Equal(t, map[string]int64{"Coffee spilt": 1, "": 1}, report.Others)
}

// On 29 March 2026 clocks in Berlin went from 2:00 to 3:00 (EU directive 2000/84/EC: the
// last Sunday of March, at 1:00 UTC).
func TestAStopInTheNightOfTheClocks(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip("no time zones here:", err)
	}
	text := "start,end,station,cause\n2026-03-29 01:50,2026-03-29 03:10,feeder 3,jam\n"
	got, _ := stops(t, text, Mapping{Zone: zone})
	assert.EqualValues(t, 20*60, got[0].Seconds)
	got, _ = stops(t, text, Mapping{})
	assert.EqualValues(t, 80*60, got[0].Seconds)
}

// A night of more than twelve hours is not taken for granted.
func TestTheLongestNight(t *testing.T) {
	text := "date,start,end,station,cause\n2026-03-31,20:00,%s,feeder 3,jam\n"
	got, report := stops(t, fmt.Sprintf(text, "08:00"), Mapping{})
	assert.EqualValues(t, 12*3600, got[0].Seconds)
	assert.EqualValues(t, 1, report.Midnights)
	report, err := Read(strings.NewReader(fmt.Sprintf(text, "08:01")), Mapping{}, nil)
	require.Error(t, err)
	assert.EqualValues(t, 1, report.Skipped)
}

var errFull = errors.New("the disk is full")

func TestReadingEndsAtAnError(t *testing.T) {
	text := "start,station,cause,seconds\n2026-03-31 14:05,feeder 3,jam,90\n2026-03-31 14:06,feeder 3,jam,90\n"
	t.Run("of the caller", func(t *testing.T) {
		report, err := Read(strings.NewReader(text), Mapping{File: "a.csv"}, func(Stop) error { return errFull })
		require.ErrorIs(t, err, errFull)
		assert.EqualError(t, err, "a.csv:2: the disk is full")
		assert.EqualValues(t, 1, report.Rows)
		assert.EqualValues(t, 1, report.Used)
	})
	t.Run("of the reader", func(t *testing.T) {
		in := io.MultiReader(strings.NewReader(text), iotest.ErrReader(errFull))
		_, err := Read(in, Mapping{File: "a.csv"}, func(Stop) error { return nil })
		require.ErrorIs(t, err, errFull)
	})
}

// Bad rows are left out and counted where that is wanted, and an error where not.
func TestBadRowsAreCounted(t *testing.T) {
	text := "start,station,cause,seconds\n" + strings.Repeat("2026-03-31 14:05,feeder 3,jam,90\n2026-03-31 14:06,feeder 3,jam,9,9\n", 70)
	used := 0
	count := func(Stop) error { used++; return nil }
	_, err := Read(strings.NewReader(text), Mapping{}, count)
	var bad BadRows
	require.ErrorAs(t, err, &bad)
	assert.EqualValues(t, 70, bad.Skipped)
	assert.True(t, strings.HasSuffix(err.Error(), "\n70 of 140 rows cannot be read; the problems shown are the first 50"), err)
	assert.Equal(t, 70, used)

	report, err := Read(strings.NewReader(text), Mapping{SkipBad: true, Keep: 3}, count)
	require.NoError(t, err)
	assert.Equal(t, []int64{140, 70, 70}, []int64{report.Rows, report.Used, report.Skipped})
	assert.Len(t, report.Problems, 3)
	assert.Equal(t, 140, used)
}

// Names are kept up to a limit; all stops are counted.
func TestManyOtherCauses(t *testing.T) {
	var text strings.Builder
	text.WriteString("start,station,cause,seconds\n")
	for i := range 2 * maxNames {
		fmt.Fprintf(&text, "2026-03-31 14:05,feeder %d,cause %d,90\n", i, i)
	}
	got, report := stops(t, text.String(), Mapping{})
	assert.Len(t, report.Others, maxOthers)
	assert.EqualValues(t, 2*maxNames-maxOthers, report.OthersMore)
	assert.EqualValues(t, 2*maxNames, report.Causes[Other])
	assert.Equal(t, fmt.Sprintf("cause %d", 2*maxNames-1), got[len(got)-1].Called)
}
