package plots_test

import (
	"fmt"
	"math"
	"strings"

	"netrate/plots"
	"netrate/sim"
)

// A figure is made of plain data and drawn as SVG or PNG.
func ExampleDifferences() {
	figure, err := plots.Differences(plots.DifferencesData{
		Head: plots.Head{
			Title:    "Only the gate pays",
			Subtitle: "Change of the net rate, good envelopes an hour, of 1,000 paired shifts (invented)",
		},
		Axis: "against the line as it is, good envelopes an hour",
		Rows: []plots.Difference{
			{Name: "track gate", Mean: sim.Estimate{Mean: 994, Half: 31, Level: 0.95, N: 1000}},
			{Name: "second operator", Mean: sim.Estimate{Mean: 12, Half: 22, Level: 0.95, N: 1000}},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	svg, err := figure.SVG()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Count(string(svg), "<text"), "pieces of text, among them:")
	for _, s := range []string{"Only the gate pays", "+990 ± 30", "+10 ± 20"} {
		fmt.Println(s, strings.Contains(string(svg), ">"+s+"<"))
	}
	// Output:
	// 14 pieces of text, among them:
	// Only the gate pays true
	// +990 ± 30 true
	// +10 ± 20 true
}

// said tells which of the texts a figure says.
func said(figure *plots.Figure, err error, texts ...string) {
	if err != nil {
		fmt.Println(err)
		return
	}
	svg, err := figure.SVG()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range texts {
		fmt.Println(s, strings.Contains(string(svg), ">"+s+"<"))
	}
}

// On an axis of logarithms a strategy without any risk has a column of its own.
func ExampleFrontier() {
	rate := func(mean float64) sim.Estimate { return sim.Estimate{Mean: mean, Half: 40, Level: 0.95, N: 100} }
	figure, err := plots.Frontier(plots.FrontierData{
		Head:   plots.Head{Title: "Diverting doubles pays", Subtitle: "Net rate and risk of three strategies (invented)"},
		Across: "defective envelopes in a million delivered",
		Up:     "good envelopes an hour",
		Log:    true,
		Limit:  &plots.Limit{X: 2, Label: "accepted: 2 in a million"},
		Points: []plots.FrontierPoint{
			{Label: "A", Name: "all stop", X: plots.Range{High: 0.3}, Y: rate(11200), Frontier: true},
			{Label: "B", Name: "doubles divert", X: plots.Range{Value: 1.1, Low: 0.8, High: 1.5}, Y: rate(12100), Frontier: true, Best: true},
			{Label: "C", Name: "doubles ship", X: plots.Range{Value: 40, Low: 36, High: 45}, Y: rate(12400), Frontier: true},
		},
	})
	said(figure, err, "0", "A", "B best", "accepted: 2 in a million", "Over the limit:", "doubles ship")
	// Output:
	// 0 true
	// A true
	// B best true
	// accepted: 2 in a million true
	// Over the limit: true
	// doubles ship true
}

// Parts that are too short for their numbers have them below the bar.
func ExampleFates() {
	figure, err := plots.Fates(plots.FatesData{
		Head:  plots.Head{Title: "Diverting loses six sets in a thousand more", Subtitle: "Sets that were not good (invented)"},
		Axis:  "sets in a thousand started",
		Parts: []plots.Part{{Fate: "defective"}, {Fate: "diverted", Cause: "misfeed"}, {Fate: "spoiled", Cause: "jam"}},
		Bars: []plots.FateBar{
			{Name: "all stop", Amounts: []float64{0.002, 0, 1.6}},
			{Name: "misfeeds divert", Amounts: []float64{0.002, 6.1, 1.4}},
		},
	})
	said(figure, err, "b  diverted, misfeed", "diverted, misfeed 6.10", "a 0.0020", "7.50")
	// Output:
	// b  diverted, misfeed true
	// diverted, misfeed 6.10 true
	// a 0.0020 true
	// 7.50 true
}

// The set after a misfed letter takes two, and both leave at the gate.
func ExampleRecovery() {
	figure, err := plots.Recovery(plots.RecoveryData{
		Head:     plots.Head{Title: "One misfed letter costs two sets", Subtitle: "An invented line, cycle by cycle"},
		Stations: []string{"letters", "track gate"},
		Cycles: []plots.Cycle{
			{Name: "cycle 4", Note: "letters misfed", Pockets: []plots.Pocket{
				{Set: "set 4", Text: "letter missing", Condition: plots.Faulty}, {Set: "set 3"},
			}},
			{Name: "cycle 5", Note: "set 4 leaves", Pockets: []plots.Pocket{
				{Set: "set 5", Text: "letters 4 and 5", Condition: plots.CatchUp}, {Set: "set 4", Condition: plots.Gone},
			}},
		},
	})
	said(figure, err, "letter missing", "letters 4 and 5", "leaves the track", "set 4 leaves")
	// Output:
	// letter missing true
	// letters 4 and 5 true
	// leaves the track true
	// set 4 leaves true
}

// A job that no line runs is said so beside its name.
func ExampleCoverage() {
	figure, err := plots.Coverage(plots.CoverageData{
		Head:  plots.Head{Title: "The magazine needs a wider throat", Subtitle: "Jobs and configurations of an invented line"},
		Lines: []string{"as it is", "sixth feeder"},
		Jobs:  []string{"bank letter", "magazine"},
		Cells: [][]plots.Ability{
			{{Why: "no free feeder"}, {Runs: true, Says: "12,000/h", Why: "the inserter"}},
			{{Why: "too thick for the throat"}, {Why: "too thick for the throat"}},
		},
	})
	said(figure, err, "12,000/h", "no free feeder", "1 of 2", "no line runs it")
	// Output:
	// 12,000/h true
	// no free feeder true
	// 1 of 2 true
	// no line runs it true
}

// A backlog is a fan with words of its own.
func ExampleFan() {
	figure, err := plots.Fan(plots.FanData{
		Head: plots.Head{Title: "All is done by week 50", Subtitle: "Work not yet done, 400 seasons (invented)"},
		Time: "end of the week", Axis: "sets", Zero: "all done",
		Of: plots.Runs{One: "season", Many: "seasons"},
		Points: []plots.FanPoint{
			{Time: 48, Name: "week 48", Spread: plots.Percentiles{P5: 60000, P25: 70000, P50: 80000, P75: 90000, P95: 110000}},
			{Time: 49, Name: "week 49", Spread: plots.Percentiles{P25: 2000, P50: 9000, P75: 20000, P95: 40000}},
			{Time: 50, Name: "week 50"},
		},
	})
	said(figure, err, "middle half of seasons", "week 49", "all done")
	// Output:
	// middle half of seasons true
	// week 49 true
	// all done true
}

// A job whose bar is too short for its name has a letter below it.
func ExampleWeek() {
	figure, err := plots.Week(plots.WeekData{
		Head: plots.Head{Title: "Monday ends in overtime", Subtitle: "One day of an invented line"},
		Axis: "hours from the start of the shift", Length: 10,
		Lanes: []plots.Roster{{
			Name: "Monday", Note: "63,000 sets", Ends: []float64{8},
			Stints: []plots.Stint{
				{From: 0, To: 0.5, Activity: plots.ChangingOver},
				{From: 0.5, To: 4, Activity: plots.Producing, Job: "bank letter"},
				{From: 4, To: 4.5, Activity: plots.Pausing},
				{From: 4.5, To: 4.6, Activity: plots.Remaking, Job: "magazine"},
				{From: 4.6, To: 8, Activity: plots.Producing, Job: "payslips"},
				{From: 8, To: 8.4, Activity: plots.Producing, Job: "payslips", Overtime: true},
			},
		}},
	})
	said(figure, err, "bank letter", "magazine", "payslips", "overtime", "end of a shift", "63,000 sets")
	// Output:
	// bank letter true
	// magazine true
	// payslips true
	// overtime true
	// end of a shift true
	// 63,000 sets true
}

// A job that is not always finished has percentiles of +Inf.
func ExampleCompletion() {
	never := math.Inf(1)
	figure, err := plots.Completion(plots.CompletionData{
		Head: plots.Head{Title: "The magazine is late in two seasons of five", Subtitle: "400 seasons (invented)"},
		Axis: "days from the start of the season", Of: plots.Runs{One: "season", Many: "seasons"},
		Jobs: []plots.Finish{
			{
				Box: plots.Box{Name: "bank letter", Min: 3, Spread: plots.Percentiles{P5: 4, P25: 5, P50: 6, P75: 7, P95: 9}, Max: 12},
				Due: 9.5, Note: "in time in 96 %",
			},
			{
				Box: plots.Box{Name: "magazine", Min: 8, Spread: plots.Percentiles{P5: 9, P25: 10, P50: 12, P75: 15, P95: never}, Max: never},
				Due: 14, Note: "in time in 60 %",
			},
		},
	})
	said(figure, err, "in time in 96 %", "due", "late", "Arrow: in some seasons the job is not finished in the time simulated.")
	// Output:
	// in time in 96 % true
	// due true
	// late true
	// Arrow: in some seasons the job is not finished in the time simulated. true
}
