package weeks

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// mostFinishes is how many jobs are listed with the time at which they are finished.
const mostFinishes = 24

// screen returns what the seasons came to.
func (s *seasons) screen() string {
	var b strings.Builder
	b.WriteString(s.title() + "\n\n" + say.Wrapped(present.SeasonsFinding(s.answer), say.Screen) + "\n")
	if s.answer.Asked > 1 {
		b.WriteString(s.overview() + "\n")
	}
	for n := range s.answer.Lines {
		x := &s.answer.Lines[n]
		if n > 0 && x.InTime.Share == 1 {
			b.WriteString(say.Wrapped(inShort(x), say.Screen) + "\n")
		} else {
			b.WriteString(weeks(x) + "\n")
		}
	}
	b.WriteString(say.Wrapped("Overtime, in hours, is enough in 50 %, 90 % or 99 % of the seasons; no more sets are left at the end of the week in 50 % or 90 % of them.", say.Screen) + "\n")
	shown := s.shown()
	b.WriteString(jobs(shown) + "\n" + say.Wrapped(present.SeasonsChangeovers(shown), say.Screen) + "\n")
	b.WriteString(say.Wrapped(present.SeasonsNotes, say.Screen) + page.GivenNote(s.answer.Lines[0].Study.Season.Line))
	b.WriteString(s.ending() + " To repeat it:\n  " + s.Again + s.flags() + "\n" +
		"Forecasts are no licence to skip a guard: see the cautions in the README.\n")
	return b.String()
}

// ending returns why no more seasons were run.
func (s *seasons) ending() string {
	asked := "± " + say.Exact(100*s.plan.Precision) + " %"
	switch {
	case s.answer.Settings.Partial:
		return fmt.Sprintf("Interrupted after %s of the base.", say.Plural(s.answer.Settings.Reps, "season"))
	case s.answer.Lines[0].Study.Ending == sim.Precise:
		return "Ended once the work of all weeks was known to " + asked + ", as asked."
	case s.plan.Precision > 0:
		return "NOT KNOWN TO " + asked + " AS ASKED: the most seasons allowed were run."
	}
	return "Ended after the number of seasons asked for."
}

// shown returns the configuration whose jobs are listed: the one that was found, else the base.
func (s *seasons) shown() *study.SeasonsLine {
	if v := s.answer.Service; v != nil && v.Smallest >= 0 {
		return &s.answer.Lines[v.Smallest]
	}
	return &s.answer.Lines[0]
}

func (s *seasons) title() string {
	text := ""
	if s.answer.Settings.Partial {
		text = "PARTIAL ANSWER, interrupted: "
	}
	return text + say.Shortened(s.Name, 40) + " (" + s.sample() + ")"
}

// sample returns how many seasons of how many weeks were simulated.
func (s *seasons) sample() string {
	text := say.Plural(s.answer.Settings.Reps, "season") + " of " + say.Plural(len(s.Season.Weeks), "week")
	if len(s.answer.Lines) > 1 {
		text += " in each of " + say.Thousands(len(s.answer.Lines)) + " ways"
	}
	return text
}

// flags returns the flags that do it again.
func (s *seasons) flags() string {
	text := fmt.Sprintf(" --seed %d --reps %d", s.plan.Seed, s.answer.Settings.Reps)
	if s.order != "" {
		text += " --order " + string(s.order)
	}
	if v := s.answer.Service; v != nil {
		text += " --service " + say.Exact(100*float64(v.Asked)) + "%"
	}
	return text
}

// overview returns a row for each configuration.
func (s *seasons) overview() string {
	rows := [][]string{
		{"All weeks", "crew", "h a week", "paid h", "work, h", "all in time", "overtime", ""},
		{"", "", "", "", "", "", "50 %", "90 %"},
	}
	for i := range s.answer.Lines {
		x := &s.answer.Lines[i]
		rows = append(rows, []string{
			x.Name, say.Thousands(x.Operators), say.Exact(x.Study.Hours), say.Exact(x.Paid), measured(x.Work),
			present.SeasonsOften(x.InTime.Share), hour(x.Overtime.P50), hour(x.Overtime.P90),
		})
	}
	return say.Columns(rows) + say.Wrapped(present.SeasonsOperators, say.Screen)
}

// hour returns hours with one decimal; 0 only if there are none.
func hour(hours study.Number) string {
	h := float64(hours)
	if h > 0 && h < 0.05 {
		return "<0.1"
	}
	if h == 0 {
		return "0"
	}
	return say.Rounded(h, -1)
}

// measured returns a mean with its interval.
func measured(s study.SeasonsSpread) string {
	return say.PlusMinus(say.Measured(float64(s.Mean), float64(s.Half)))
}

// weeks returns a row for each week.
func weeks(x *study.SeasonsLine) string {
	rows := [][]string{
		{"", "work, h", "in time", "overtime", "", "", "sets left", ""},
		{"", "", "", "50 %", "90 %", "99 %", "50 %", "90 %"},
	}
	for i := range x.Weeks {
		w := &x.Weeks[i]
		rows = append(rows, []string{
			present.SeasonsWeek(x, i), measured(w.Work), present.SeasonsOften(w.InTime),
			hour(w.Overtime.P50), hour(w.Overtime.P90), hour(w.Overtime.P99),
			say.Rounded(float64(w.Backlog.P50), 0), say.Rounded(float64(w.Backlog.P90), 0),
		})
	}
	return fmt.Sprintf("%s, %s h of working time a week\n%s", x.Name, say.Exact(x.Study.Hours), say.Columns(rows))
}

// inShort returns the weeks of an untroubled season in a sentence.
func inShort(x *study.SeasonsLine) string {
	least, most := math.Inf(1), 0.0
	for i := range x.Weeks {
		work := float64(x.Weeks[i].Work.Mean)
		least, most = min(least, work), max(most, work)
	}
	return fmt.Sprintf("%s, %s h a week: every week is done in time in every season; its work takes from %s to %s h.",
		x.Name, say.Exact(x.Study.Hours), say.Rounded(least, -1), say.Rounded(most, -1))
}

// jobs returns when each job is finished, in the order in which they are done.
func jobs(x *study.SeasonsLine) string {
	rows := [][]string{{"Week, job: " + x.Name, "sets", "set up", "run, h", "finished, median", "9 times in 10 by"}}
	for n, j := range x.Jobs {
		if n == mostFinishes {
			break
		}
		rows = append(rows, []string{
			fmt.Sprintf("%d %s", j.Week, j.Name), say.Thousands(j.Sets), say.Exact(say.ToDecimals(float64(j.Change.Mean), 2)),
			say.Rounded(float64(j.Run.Mean), -1), j.Median.String(), j.P90.String(),
		})
	}
	text := say.Columns(rows)
	if more := len(x.Jobs) - mostFinishes; more > 0 {
		text += fmt.Sprintf("and %s: --json and --report have all\n", say.Plural(more, "more job"))
	}
	return text
}
