package stoplog_test

import (
	"fmt"
	"strings"

	"netrate/scenarios/stoplog"
)

// A log as a spreadsheet writes it; the data are invented.
func ExampleRead() {
	log := "Beginn;Station;Reason;Downtime (min)\r\n" +
		"31.03.2026 14:05;feeder 3;double feed;1,5\r\n" +
		"31.03.2026 14:31;inserter;flap closed;0,75\r\n" +
		"31.03.2026 15:02;feeder 3;coffee spilt;12\r\n"
	m := stoplog.Mapping{Columns: map[stoplog.Column]string{stoplog.When: "Beginn"}}
	report, err := stoplog.Read(strings.NewReader(log), m, func(s stoplog.Stop) error {
		fmt.Printf("%s: %s, %.0f s\n", s.Station, s.Cause, s.Seconds)
		return nil
	})
	fmt.Println(report.Layout)
	fmt.Printf("%d rows, %d used, other causes %v, error %v\n", report.Rows, report.Used, report.Others, err)
	// Output:
	// feeder 3: double, 90 s
	// inserter: flap, 45 s
	// feeder 3: other, 720 s
	// fields are separated by semicolons, decimals by commas
	// column 1 "Beginn" is when, written like 31.03.2026 14:05:10, as specified
	// column 2 "Station" is station
	// column 3 "Reason" is cause
	// column 4 "Downtime (min)" is length, counted in minutes
	// 3 rows, 3 used, other causes map[coffee spilt:1], error <nil>
}

// The counts beside it.
func ExampleReadCounts() {
	counts := "Date,Shift,Station,Feeds\n2026-03-31,late,feeder 3,58120\n2026-03-31,late,feeder 4,57 988\n"
	report, err := stoplog.ReadCounts(strings.NewReader(counts), stoplog.Mapping{File: "counts.csv"}, func(c stoplog.Count) error {
		fmt.Println(c.Station, c.Feeds, c.Shift, c.Day.Format("2 January"))
		return nil
	})
	fmt.Println(err)
	fmt.Println(report.Used, report.Skipped)
	// Output:
	// feeder 3 58120 late 31 March
	// counts.csv:3:26: feeds is "57 988", want a whole number, without sign, point, comma or blank
	//     2026-03-31,late,feeder 4,57 988
	//                              ^
	// 1 of 2 rows cannot be read
	// 1 1
}
