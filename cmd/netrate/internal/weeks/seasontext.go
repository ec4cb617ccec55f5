package weeks

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// mostFinishes is how many jobs are listed with the time at which they are finished.
const mostFinishes = 24

// seasonWords says what the figures of a season are and are not.
const seasonWords = "Hours are working time: breaks without relief, nights and maintenance are not simulated but taken out. " +
	"A job begun in one week goes on in the next, and what is left of a week is done first in the next. " +
	"Hoppers start each job full. No overtime is worked in the figures of what is left and when jobs are finished: " +
	"it is what would have to be added for each week to end with its own work done."

// answer returns what the seasons came to.
func (s *seasons) answer() string {
	var b strings.Builder
	b.WriteString(s.title() + "\n\n" + say.Wrapped(s.finding(), say.Screen) + "\n")
	if len(s.runs) > 1 {
		b.WriteString(s.overview() + "\n")
	}
	for n, x := range s.done() {
		if n > 0 && x.untroubled() {
			b.WriteString(say.Wrapped(x.inShort(), say.Screen) + "\n")
		} else {
			b.WriteString(x.weeks() + "\n")
		}
	}
	b.WriteString(say.Wrapped("Overtime, in hours, is enough in 50 %, 90 % or 99 % of the seasons; no more sets are left at the end of the week in 50 % or 90 % of them.", say.Screen) + "\n")
	shown := s.shown()
	b.WriteString(shown.jobs() + "\n" + say.Wrapped(shown.changeoverWords(), say.Screen) + "\n")
	b.WriteString(say.Wrapped(seasonWords, say.Screen) + page.GivenNote(s.runs[0].study.Season.Line))
	b.WriteString(s.ending() + " To repeat it:\n  " + s.Again + s.flags() + "\n" +
		"Forecasts are no licence to skip a guard: see the cautions in the README.\n")
	return b.String()
}

// ending returns why no more seasons were run.
func (s *seasons) ending() string {
	asked := "± " + say.Exact(100*s.plan.Precision) + " %"
	switch {
	case s.partial():
		return fmt.Sprintf("Interrupted after %s of the base.", say.Plural(s.runs[0].study.Done, "season"))
	case s.runs[0].study.Ending == sim.Precise:
		return "Ended once the work of all weeks was known to " + asked + ", as asked."
	case s.plan.Precision > 0:
		return "NOT KNOWN TO " + asked + " AS ASKED: the most seasons allowed were run."
	}
	return "Ended after the number of seasons asked for."
}

// shown returns the configuration whose jobs are listed: the one that was found, else the
// base.
func (s *seasons) shown() *seasonRun {
	if s.service > 0 {
		if x := s.smallest(); x != nil {
			return x
		}
	}
	return s.done()[0]
}

func (s *seasons) title() string {
	text := ""
	if s.partial() {
		text = "PARTIAL ANSWER, interrupted: "
	}
	return text + say.Shortened(s.Name, 40) + " (" + s.sample() + ")"
}

// sample returns how many seasons of how many weeks were simulated.
func (s *seasons) sample() string {
	text := say.Plural(s.runs[0].study.Done, "season") + " of " + say.Plural(len(s.Season.Weeks), "week")
	if len(s.done()) > 1 {
		text += " in each of " + say.Thousands(len(s.done())) + " ways"
	}
	return text
}

// flags returns the flags that do it again.
func (s *seasons) flags() string {
	text := fmt.Sprintf(" --seed %d --reps %d", s.plan.Seed, s.runs[0].study.Done)
	if s.order != "" {
		text += " --order " + string(s.order)
	}
	if s.service > 0 {
		text += " --service " + say.Exact(100*s.service) + "%"
	}
	return text
}

// overview returns a row for each configuration.
func (s *seasons) overview() string {
	rows := [][]string{
		{"All weeks", "crew", "h a week", "paid h", "work, h", "all in time", "overtime", ""},
		{"", "", "", "", "", "", "50 %", "90 %"},
	}
	for _, x := range s.done() {
		work, over := x.work().Interval(say.Level), x.overtime()
		rows = append(rows, []string{
			x.name, say.Thousands(x.operators()), say.Exact(x.study.Hours), say.Exact(x.paid()), say.PlusMinus(say.Measured(work.Mean, work.Half)),
			often(x.inTime().share), hour(over.Quantile(0.5)), hour(over.Quantile(0.9)),
		})
	}
	return say.Columns(rows) + say.Wrapped(operatorWords, say.Screen)
}

// operatorWords says what the operators of a season are.
const operatorWords = "The crew is the operators of each shift; paid hours are crew × hours of working time a week."

// hour returns hours with one decimal; 0 only if there are none.
func hour(h float64) string {
	if h > 0 && h < 0.05 {
		return "<0.1"
	}
	if h == 0 {
		return "0"
	}
	return say.Rounded(h, -1)
}

// weeks returns a row for each week.
func (x *seasonRun) weeks() string {
	rows := [][]string{
		{"", "work, h", "in time", "overtime", "", "", "sets left", ""},
		{"", "", "", "50 %", "90 %", "99 %", "50 %", "90 %"},
	}
	for i := range x.study.Weeks {
		w := &x.study.Weeks[i]
		work := w.Work.Interval(say.Level)
		rows = append(rows, []string{
			weekName(x.season, i), say.PlusMinus(say.Measured(work.Mean, work.Half)), often(w.InTime()),
			hour(w.Overtime.Quantile(0.5)), hour(w.Overtime.Quantile(0.9)), hour(w.Overtime.Quantile(0.99)),
			say.Rounded(w.Backlog.Quantile(0.5), 0), say.Rounded(w.Backlog.Quantile(0.9), 0),
		})
	}
	return fmt.Sprintf("%s, %s h of working time a week\n%s", x.name, say.Exact(x.study.Hours), say.Columns(rows))
}

// untroubled reports whether every week was done in time in every season.
func (x *seasonRun) untroubled() bool { return x.inTime().share == 1 }

// inShort returns the weeks of an untroubled season in a sentence.
func (x *seasonRun) inShort() string {
	least, most := math.Inf(1), 0.0
	for i := range x.study.Weeks {
		work := x.study.Weeks[i].Work.Mean()
		least, most = min(least, work), max(most, work)
	}
	return fmt.Sprintf("%s, %s h a week: every week is done in time in every season; its work takes from %s to %s h.",
		x.name, say.Exact(x.study.Hours), say.Rounded(least, -1), say.Rounded(most, -1))
}

func setsOf(w model.Week) (all int64) {
	for _, sets := range w.Sets {
		all += sets
	}
	return all
}

// jobs returns when each job is finished, in the order in which they are done.
func (x *seasonRun) jobs() string {
	rows := [][]string{{"Week, job: " + x.name, "sets", "set up", "run, h", "finished, median", "9 times in 10 by"}}
	clock := x.season.Calendar.Clock()
	for n, j := range x.study.Jobs {
		if n == mostFinishes {
			break
		}
		rows = append(rows, []string{
			fmt.Sprintf("%d %s", j.Week+1, x.season.Products[j.Product].Name), say.Thousands(j.Sets), say.Exact(say.ToDecimals(j.Change.Mean(), 2)),
			say.Rounded(j.Hours.Mean(), -1), moment(clock, j.Finished.Quantile(0.5)), moment(clock, j.Finished.Quantile(0.9)),
		})
	}
	text := say.Columns(rows)
	if more := len(x.study.Jobs) - mostFinishes; more > 0 {
		text += fmt.Sprintf("and %s: --json and --report have all\n", say.Plural(more, "more job"))
	}
	return text
}

// changeoverWords says what changeovers take, and what the order is worth.
func (x *seasonRun) changeoverWords() string {
	hours, changes := x.changeHours()
	text := fmt.Sprintf("Changeovers (%s): %s h a week, before %s jobs.", x.name, say.Exact(say.ToDecimals(hours, 2)), say.Exact(say.ToDecimals(changes, 1)))
	saved := float64(x.given-x.best) / 3600
	switch {
	case saved < 0.005:
		return text + " The best order of the jobs in each week takes no less than that of the file."
	case x.season.Best:
		return text + fmt.Sprintf(" That is in the best order, which is used; the order of the file would take %s h more in the whole season.", say.Exact(say.ToDecimals(saved, 2)))
	}
	return text + fmt.Sprintf(" The best order would take %s h less in the whole season: --order best.", say.Exact(say.ToDecimals(saved, 2)))
}
