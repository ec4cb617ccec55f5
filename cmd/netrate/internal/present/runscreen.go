package present

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// The tables of the answer: the times take the left half of the screen, the sets the right.
const (
	leftHalf   = 43
	shownStops = 4
	widestStop = 48
	timeLines  = 8
)

// timeTable returns where the time went, line by line.
func timeTable(s *runs.Study) []string {
	all := study.Length(s)
	operators := s.Line.Crew.Operators
	lines := []string{fmt.Sprintf("%-21s%6s minutes", "Time of a "+page.Period(s.Line), "share")}
	for _, row := range []struct {
		name string
		of   func(*runs.Shift) float64
		told bool
	}{
		{"running", func(s *runs.Shift) float64 { return s.Running }, true},
		{"waiting for operator", func(s *runs.Shift) float64 { return s.Waiting }, true},
		{"operator at work", func(s *runs.Shift) float64 { return s.Working }, true},
		{"restarting", func(s *runs.Shift) float64 { return s.Restarting }, true},
		{"starved of documents", func(s *runs.Shift) float64 { return s.Starved }, study.HasChannel(s.Line)},
		{"closing remakes", study.Closing, s.Line.Job.Closing != model.Open},
		{"crew of " + say.Thousands(operators) + ", busy", func(s *runs.Shift) float64 { return s.CrewBusy / float64(operators) }, true},
	} {
		if !row.told {
			continue
		}
		e := s.Interval(row.of, say.Level)
		line := fmt.Sprintf("%-20s%7s", row.name, say.Percent(e.Mean/all, e.Half/all))
		lines = append(lines, line+minutes(e.Mean/60, e.Half/60, leftHalf-1-len(line)))
	}
	if len(lines) == timeLines { // the screen has no room for more
		return lines
	}
	return append(lines, crewShares(s))
}

// minutes returns a mean and its half-width, with no more digits than there is room for.
func minutes(mean, half float64, room int) string {
	m, h := say.Measured(mean, half)
	text := fmt.Sprintf("%8s", m) + say.Half(h)
	if h == "" || utf8.RuneCountInString(text) <= room {
		return text
	}
	coarser := 2 * math.Pow10(say.Magnitude(half))
	if half >= coarser {
		coarser *= 10
	}
	return minutes(mean, coarser, room)
}

// crewShares returns what the crew is busy with.
func crewShares(s *runs.Study) string {
	crew, time := s.Total.Crew(), float64(s.Line.Crew.Operators)*study.Length(s)*float64(len(s.Shifts))
	faults, stocks := float64(crew.Clearing.Busy())/time, float64(crew.Stock.Busy())/time
	return fmt.Sprintf("  faults %s, refills, emptying %s", say.Percent(faults, 0), say.Percent(stocks, 0))
}

// setsTable returns where the sets went, line by line.
func setsTable(s *runs.Study) []string {
	lines := []string{fmt.Sprintf("%-12s%-7s%18s", "Sets", "a "+page.Period(s.Line), "per 1,000")}
	for _, row := range []struct {
		name string
		of   func(*runs.Shift) float64
		told bool
	}{
		{"good", func(s *runs.Shift) float64 { return s.Good }, true},
		{"defective", func(s *runs.Shift) float64 { return s.Defective }, true},
		{"diverted", func(s *runs.Shift) float64 { return s.Diverted }, true},
		{"outsorted", func(s *runs.Shift) float64 { return s.Outsorted }, true},
		{"spoiled", func(s *runs.Shift) float64 { return s.Spoiled }, true},
		{"on the line", func(s *runs.Shift) float64 { return s.OnLine }, s.Line.Job.Sets == 0},
		{"remakes", func(s *runs.Shift) float64 { return s.Remakes }, s.Line.Personalised()},
	} {
		switch {
		case !row.told:
			continue
		case row.name == "defective" && s.Total.Sets.Defective == 0:
			lines = append(lines, "defective "+noneDefective(s))
			continue
		}
		e := s.Interval(row.of, say.Level)
		if row.name == "defective" && e.Low() < 0 && e.N > 1 {
			both := figureEntries(s, runs.Figure{Name: row.name, Of: row.of})
			lines = append(lines, fmt.Sprintf("%-11s%8s (%s)", row.name, both[0].Shown, both[1].Text))
			continue
		}
		part := study.PerThousand(s, row.of)
		mean, half := say.Measured(e.Mean, e.Half)
		lines = append(lines, fmt.Sprintf("%-11s%8s%-9s%9s", row.name, mean, say.Half(half), say.Rough(part.Mean, part.Half)))
	}
	return lines
}

// noneDefective returns what is known of defects when none was seen: their share of n sets
// is below 3/n, with a confidence of 95 %.
//
// Source: Hanley and Lippman-Hand, If nothing goes wrong, is everything all right?,
// JAMA 249 (1983) 1743–1745 (from memory).
func noneDefective(s *runs.Study) string {
	delivered := s.Total.Sets.Good
	switch {
	case !s.Line.CanLeak():
		return "none possible in this model"
	case delivered < 6:
		return "none seen"
	}
	oneIn := float64(delivered) / 3
	step := math.Pow10(max(0, say.Magnitude(oneIn)-1))
	return "none: under 1 in " + say.InShort(math.Floor(oneIn/step)*step)
}

// stopsTable returns the stops that cost most, at most so many.
func stopsTable(s *runs.Study, most int) string {
	costs := s.StopCosts()
	if len(costs) == 0 {
		return "No stops\n"
	}
	costs = costs[:min(len(costs), most)]
	n := float64(len(s.Shifts))
	heading := "Costliest of " + say.Rough(float64(s.Total.Stopped().Count)/n, 2*math.Sqrt(float64(s.Total.Stopped().Count))/n) + " stops a " + page.Period(s.Line)
	width := len(heading)
	for i := range costs {
		costs[i].Name = say.Shortened(costs[i].Name, widestStop)
		width = max(width, utf8.RuneCountInString(costs[i].Name))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%-*s  minutes  times\n", width, heading)
	for _, x := range costs {
		count, total := float64(x.Count), float64(x.Total())/60
		part := 2 / math.Sqrt(count) // the uncertainty as a share, if stops come at random
		fmt.Fprintf(&b, "%-*s %8s %6s\n", width, x.Name, say.Rough(total/n, part*total/n), say.Rough(count/n, part*count/n))
	}
	return b.String()
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
