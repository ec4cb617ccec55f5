package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/model"
)

// The tables of the answer: the times take the left half of the screen, the sets the right.
const (
	screen     = 80 // characters wide
	leftHalf   = 43
	shownStops = 4
	widestStop = 48
)

// timeTable returns where the time went, line by line.
func timeTable(s *model.Study) []string {
	shift := float64(s.Line.Shift)
	operators := s.Line.Crew.Operators
	lines := []string{"Time of a shift       share minutes"}
	for _, row := range []struct {
		name string
		of   func(*model.Shift) float64
	}{
		{"running", func(s *model.Shift) float64 { return s.Running }},
		{"waiting for operator", func(s *model.Shift) float64 { return s.Waiting }},
		{"operator at work", func(s *model.Shift) float64 { return s.Working }},
		{"restarting", func(s *model.Shift) float64 { return s.Restarting }},
		{"crew of " + thousands(operators) + ", busy", func(s *model.Shift) float64 { return s.CrewBusy / float64(operators) }},
	} {
		e := s.Sample(row.of).Interval(level)
		mean, half := measured(e.Mean/60, e.Half/60)
		lines = append(lines, fmt.Sprintf("%-20s%7s%8s", row.name, percent(e.Mean/shift, e.Half/shift), mean)+doubt(half))
	}
	return append(lines, crewShares(s))
}

// crewShares returns what the crew is busy with.
func crewShares(s *model.Study) string {
	crew, time := s.Total.Crew(), float64(s.Line.Crew.Operators)*float64(s.Total.Time.Shift)
	faults, stocks := float64(crew.Clearing.Busy())/time, float64(crew.Stock.Busy())/time
	return fmt.Sprintf("  faults %s, refills, emptying %s", percent(faults, 0), percent(stocks, 0))
}

// plusMinus returns a mean and its half-width, if that is known.
func plusMinus(mean, half string) string { return mean + doubt(half) }

func doubt(half string) string {
	if half == "" {
		return ""
	}
	return " ± " + half
}

// setsTable returns where the sets went, line by line.
func setsTable(s *model.Study) []string {
	lines := []string{"Sets        a shift         per 1,000"}
	for _, row := range []struct {
		name string
		of   func(*model.Shift) float64
	}{
		{"good", func(s *model.Shift) float64 { return s.Good }},
		{"defective", func(s *model.Shift) float64 { return s.Defective }},
		{"diverted", func(s *model.Shift) float64 { return s.Diverted }},
		{"outsorted", func(s *model.Shift) float64 { return s.Outsorted }},
		{"spoiled", func(s *model.Shift) float64 { return s.Spoiled }},
		{"on the line", func(s *model.Shift) float64 { return s.OnLine }},
	} {
		if row.name == "defective" && s.Total.Sets.Defective == 0 {
			lines = append(lines, "defective "+noneDefective(s))
			continue
		}
		e := s.Sample(row.of).Interval(level)
		part := s.Sample(func(s *model.Shift) float64 { return 1000 * row.of(s) / started(s) }).Interval(level)
		mean, half := measured(e.Mean, e.Half)
		lines = append(lines, fmt.Sprintf("%-11s%8s%-9s%9s", row.name, mean, doubt(half), rough(part.Mean, part.Half)))
	}
	return lines
}

// started returns the sets started in a shift, at least 1.
func started(s *model.Shift) float64 {
	return max(1, s.Good+s.Defective+s.Diverted+s.Outsorted+s.Spoiled+s.OnLine)
}

// noneDefective returns what is known of defects when none was seen: their share of n sets
// is below 3/n, with a confidence of 95 %.
//
// Source: Hanley and Lippman-Hand, If nothing goes wrong, is everything all right?,
// JAMA 249 (1983) 1743–1745 (from memory).
func noneDefective(s *model.Study) string {
	delivered := s.Total.Sets.Good
	switch {
	case !canBeDefective(s.Line):
		return "none possible in this model"
	case delivered < 6:
		return "none seen"
	}
	oneIn := float64(delivered) / 3
	step := math.Pow10(max(0, magnitude(oneIn)-1))
	return "none: under 1 in " + short(math.Floor(oneIn/step)*step)
}

// short returns a large number with at most three digits before its word.
func short(x float64) string {
	switch {
	case x >= 1e9:
		return exact(x/1e9) + " bn"
	case x >= 1e6:
		return exact(x/1e6) + " million"
	}
	return exact(x)
}

// canBeDefective reports whether a set could be delivered that is not as it should be.
func canBeDefective(l *model.Line) bool {
	return slices.ContainsFunc(l.Stations, func(s model.Station) bool {
		f, ok := s.(*model.Feeder)
		if !ok {
			return false
		}
		shipped := f.OnMisfeed == model.Ship && f.Misfeed > 0 && f.Streak.StopAfter != 1
		return shipped || f.Double > 0 && (f.Caught < 1 || f.OnDouble == model.Ship)
	})
}

// stopsTable returns the stops that cost most.
func stopsTable(s *model.Study) string {
	costs := s.StopCosts()
	if len(costs) == 0 {
		return "No stops\n"
	}
	costs = costs[:min(len(costs), shownStops)]
	n := float64(len(s.Shifts))
	heading := "Costliest of " + rough(float64(s.Total.Stopped().Count)/n, 2*math.Sqrt(float64(s.Total.Stopped().Count))/n) + " stops a shift"
	width := len(heading)
	for i := range costs {
		costs[i].Name = shortened(costs[i].Name, widestStop)
		width = max(width, utf8.RuneCountInString(costs[i].Name))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%-*s  minutes  times\n", width, heading)
	for _, x := range costs {
		count, total := float64(x.Count), float64(x.Total())/60
		part := 2 / math.Sqrt(count) // the doubt as a share, if stops come at random
		fmt.Fprintf(&b, "%-*s %8s %6s\n", width, x.Name, rough(total/n, part*total/n), rough(count/n, part*count/n))
	}
	return b.String()
}

// shortened returns the text with an end of … if it is too long.
func shortened(text string, most int) string {
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	return string(runes[:most-1]) + "…"
}

// beside returns two tables side by side.
func beside(left, right []string) string {
	var b strings.Builder
	for i := range max(len(left), len(right)) {
		l, r := "", ""
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		b.WriteString(strings.TrimRight(fmt.Sprintf("%-*s %s", leftHalf-1, l, r), " ") + "\n")
	}
	return b.String()
}
