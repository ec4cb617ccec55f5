package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// SeasonsNotes says what the figures of a season are and are not.
func SeasonsNotes(a *study.SeasonsAnswer) string {
	begin := ""
	for i, x := range a.Lines {
		switch {
		case i == 0:
			begin = "Each job begins " + x.JobsBegin
		case x.JobsBegin != a.Lines[0].JobsBegin:
			begin += fmt.Sprintf("; with “%s”, %s", x.Name, x.JobsBegin)
		}
	}
	if len(a.Lines) > 0 {
		begin += ". " + seasonsByHand(&a.Lines[0]) + strings.TrimPrefix(notRemade(a.Lines[0].NotRemade)+seasonsLacking(&a.Lines[0])+" ", " ")
	}
	return "Hours are working time: breaks without relief, nights and maintenance are not simulated but taken out; the line goes on after them as it was left. " +
		"A job begun in one week goes on in the next, and what is left of a week is done first in the next. " +
		begin + "The figures of what is left and when jobs are finished are without overtime, " +
		"which is what would have to be added for each week to end with its own work done." + seasonsDrawn(a.Basis)
}

// seasonsDrawn says what it means that uncertain inputs are drawn; nothing if none are.
func seasonsDrawn(b study.Basis) string {
	if b.Draws == 0 {
		return ""
	}
	inputs := "uncertain input"
	if b.Inputs > 1 {
		inputs = say.Plural(b.Inputs, inputs)
	}
	return " Each season draws the " + inputs + " of the file anew, the same for all of its weeks, " +
		"so that how often something is in time allows for what is not known of the line; a ± is half of the range of 95 % of the seasons."
}

// seasonsByHand says what remakes by hand take of people; nothing where there are none.
func seasonsByHand(x *study.SeasonsLine) string {
	if x.ByHand == 0 {
		return ""
	}
	ends := "a job is finished, and the next begun, when its last one is made. "
	if x.Study.Season.Closing.Closing == model.Beside {
		ends = "a job is finished when its last one is made, and the next begun when the line is free. The work of a week and its overtime are those of the line. "
	}
	return fmt.Sprintf("Remakes made by hand take %s h of the whole season, in the mean, of people who are neither in the crew nor in the paid hours; ",
		say.Rounded(float64(x.ByHand), -1)) + ends
}

// seasonsOperators says what the operators of a season are.
func seasonsOperators(a *study.SeasonsAnswer) string {
	for _, x := range a.Lines {
		if x.Staffed {
			return "The crew is the number of operators, in the mean over the shifts; paid hours are crew × working time."
		}
	}
	return "The crew is the number of operators in each shift; paid hours are crew × working time."
}

// SeasonsOverview returns a row for each configuration.
func SeasonsOverview(a *study.SeasonsAnswer) plots.Table {
	t := plots.Table{
		Name: "Configurations", Caption: "Each configuration: how often all weeks are done in time, with 95 % intervals, and the overtime, in hours, " +
			"that is enough for all weeks together in 50 %, 90 % or 99 % of the seasons. " + seasonsOperators(a),
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Crew", Unit: "operators", Kind: plots.Number},
			{Title: "Working time", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Paid hours", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Work ±", Unit: "h", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "of it standing", Unit: "h", Kind: plots.Number, Decimals: 1, Data: !seasonsStand(a.Lines)},
			{Title: "All in time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "from", Kind: plots.Share, Decimals: 1, Data: true},
			{Title: "to", Kind: plots.Share, Decimals: 1, Data: true},
			{Title: "Overtime", Unit: "h, 50 %", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Changeovers", Unit: "h a week", Kind: plots.Number, Decimals: 2},
			{Title: "Late", Unit: "sets", Kind: plots.Number},
			{Title: "Lost", Unit: "sets", Kind: plots.Number, Data: true},
		},
	}
	t.Caption += seasonsStanding(a.Lines)
	for i := range a.Lines {
		x := &a.Lines[i]
		work := measured(x.Work)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), exact(math.Round(100*float64(x.Operators)) / 100), exact(float64(x.Hours)), exact(float64(x.Paid)), work[0], work[1], hours(x.Standing),
			{Number: float64(x.InTime.Share), Shown: seasonsInTime(x)},
			value(x.InTime.Low), value(x.InTime.High),
			hours(x.Overtime.P50), hours(x.Overtime.P90), hours(x.Overtime.P99), page.Value(float64(x.Changing)),
			setsOf(x.LateSets), setsOf(x.Lacks),
		})
	}
	return t
}

// SeasonsWeeks returns a row for each week of some configurations.
func SeasonsWeeks(lines ...*study.SeasonsLine) plots.Table {
	t := plots.Table{
		Name: "Weeks", Names: 2,
		Caption: "The weeks: how often each is done in time; the overtime that is enough in 50 %, 90 % or 99 % of the seasons; and the sets " +
			"left at its end without overtime: no more than this in 50 % or 90 % of them",
		Columns: []plots.Column{
			{Title: "Line", Data: len(lines) == 1},
			{Title: "Week"},
			{Title: "Sets", Kind: plots.Number, Data: true},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Work ±", Unit: "h", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "of it standing", Unit: "h", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "In time", Kind: plots.Share, Decimals: 1},
			{Title: "Overtime", Unit: "h, 50 %", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Left 50 %", Unit: "sets", Kind: plots.Number},
			{Title: "90 %", Unit: "sets", Kind: plots.Number},
		},
	}
	if len(lines) == 1 {
		t.Caption = lines[0].Name + ", " + say.Exact(lines[0].Study.Hours) + " h of working time a week. " + t.Caption
	}
	if slices.ContainsFunc(lines, func(x *study.SeasonsLine) bool { return x.Standing > 0 }) {
		t.Columns[5].Data = false
		t.Caption += seasonsStood
	}
	for _, x := range lines {
		for i := range x.Weeks {
			w, work := &x.Weeks[i], measured(x.Weeks[i].Work)
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(x.Name), page.Words(SeasonsWeek(x, i)), page.Value(float64(w.Sets)), work[0], work[1], hours(w.Standing),
				{Number: float64(w.InTime), Shown: SeasonsOften(w.InTime)},
				hours(w.Overtime.P50), hours(w.Overtime.P90), hours(w.Overtime.P99), value(w.Backlog.P50), value(w.Backlog.P90),
			})
		}
	}
	return t
}

// SeasonsJobs returns a row for each of the first jobs of a configuration, as many as are shown.
func SeasonsJobs(x *study.SeasonsLine, shown int) plots.Table {
	t := plots.Table{
		Name: "Jobs " + x.Name, Names: 2, Caption: "The jobs of the season in the order in which they are done, without overtime: " + x.Name,
		Columns: []plots.Column{
			{Title: "Week", Kind: plots.Number},
			{Title: "Job"},
			{Title: "Sets", Kind: plots.Number, Data: true},
			{Title: "Waiting", Unit: "h", Kind: plots.Number, Decimals: 1, Data: x.Waits == 0},
			{Title: "Setup", Unit: "h", Kind: plots.Number, Decimals: 2},
			{Title: "Run", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Standing", Unit: "h", Kind: plots.Number, Decimals: 1, Data: x.Standing == 0},
			{Title: "In time", Kind: plots.Share, Decimals: 1},
			{Title: "Finished, median"},
			{Title: "9 times in 10 by"},
			{Title: "Late", Unit: "sets", Kind: plots.Number, Data: x.LateSets == 0},
			{Title: "Lost", Unit: "sets", Kind: plots.Number, Data: x.Lacks == 0},
		},
	}
	if x.Waits > 0 {
		t.Caption += "; waiting: before the setup, until somebody is there who may do it, and not in setup"
	}
	if x.Standing > 0 {
		t.Caption += "; standing: of the line, while its remakes are made by hand, and not in run"
	}
	if x.LateSets > 0 {
		t.Caption += "; late: sets not done when their week ends, in the mean"
	}
	if x.Lacks > 0 {
		t.Caption += "; lost: sets of which no envelope is delivered, in the mean"
	}
	if more := len(x.Jobs) - shown; more > 0 {
		t.Caption += fmt.Sprintf(". The first %d: --json and --report have all", shown)
	}
	for _, j := range x.Jobs[:shown] {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(j.Week)), page.Words(j.Name), page.Value(float64(j.Sets)),
			hours(j.Waits), value(j.Change.Mean), value(j.Run.Mean), hours(j.Standing),
			{Number: float64(j.InTime), Shown: SeasonsOften(j.InTime)},
			page.Words(seasonsMoment(j.Median)), page.Words(seasonsMoment(j.P90)),
			setsOf(j.LateSets), setsOf(j.Lacks),
		})
	}
	return t
}

// seasonsStood says what of the work standing is.
const seasonsStood = "; of the work the line stands for so long while remakes are made by hand"

// seasonsStand reports whether a line waits for remakes that are made by hand.
func seasonsStand(lines []study.SeasonsLine) bool {
	return slices.ContainsFunc(lines, func(x study.SeasonsLine) bool { return x.Standing > 0 })
}

// seasonsStanding says what standing is, where lines do; nothing else.
func seasonsStanding(lines []study.SeasonsLine) string {
	text := " Late: sets not done when their week ends, of all jobs, in the mean, without overtime."
	if seasonsStand(lines) {
		text += " Of the work the line stands for so long while remakes are made by hand."
	}
	return text
}

// setsOf returns a mean number of sets, which is 0 only if there are none.
func setsOf(n study.Number) plots.Entry {
	shown := say.Rounded(float64(n), 0)
	switch {
	case n == 0:
		shown = "0"
	case n > 0 && n < 0.5:
		shown = "<1"
	}
	return plots.Entry{Number: float64(n), Shown: shown}
}

// seasonsMoment returns a time of a season: "Wed 14:20 week 2".
func seasonsMoment(m study.SeasonsMoment) string {
	return fmt.Sprintf("%s %02d:%02d week %d", study.SeasonsWeekdays[m.Day], m.Hour, m.Minute, m.Week)
}

// hours returns hours with one decimal, which are 0 only if there are none.
func hours(h study.Number) plots.Entry {
	shown := say.WithMinus(say.Rounded(float64(h), -1))
	switch {
	case h == 0:
		shown = "0"
	case h > 0 && h < 0.05:
		shown = "<0.1"
	}
	return plots.Entry{Number: float64(h), Shown: shown}
}

// exact returns a number of which no uncertainty is known.
func exact(x float64) plots.Entry { return plots.Entry{Number: x, Shown: say.Exact(x)} }

// measured returns a mean and its half-width as entries: for people the first says both.
func measured(s study.SeasonsSpread) []plots.Entry {
	mean, half := say.Measured(float64(s.Mean), float64(s.Half))
	return []plots.Entry{{Number: float64(s.Mean), Shown: say.PlusMinus(mean, half)}, page.HalfWidth(float64(s.Half))}
}

// SeasonsAll returns all configurations.
func SeasonsAll(a *study.SeasonsAnswer) []*study.SeasonsLine {
	var all []*study.SeasonsLine
	for i := range a.Lines {
		all = append(all, &a.Lines[i])
	}
	return all
}

// value returns a figure as an entry of a table.
func value(x study.Number) plots.Entry { return page.Value(float64(x)) }
