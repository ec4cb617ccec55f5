package weeks

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// mostFinishes is how many jobs are listed with the time at which they are finished.
const mostFinishes = 24

// screen returns what the seasons came to: of the configurations that have every week done in
// time in every season, the base apart, the weeks are in the report alone.
func (s *simulated) screen() string {
	var tables []plots.Table
	if s.answer.Asked > 1 {
		tables = append(tables, present.SeasonsOverview(s.answer))
	}
	lines := present.SeasonsAll(s.answer)
	lines = slices.DeleteFunc(lines, func(x *study.SeasonsLine) bool { return x != lines[0] && x.InTime.Share == 1 })
	shown := s.shown()
	tables = append(tables, present.SeasonsWeeks(lines...), present.SeasonsJobs(shown, min(len(shown.Jobs), mostFinishes)))
	return present.Screen(s.title(), present.SeasonsFinding(s.answer), tables...) +
		"\n" + say.Wrapped(present.SeasonsChangeovers(shown), say.Screen) +
		"\n" + say.Wrapped(present.SeasonsNotes, say.Screen) + page.BasisNote(s.answer.Basis) +
		s.ending() + " To repeat it:\n  " + s.Again + s.flags() + "\n" + page.Caution
}

// ending returns why no more seasons were run.
func (s *simulated) ending() string {
	asked := "± " + say.Exact(100*s.plan.Precision) + " %"
	switch {
	case s.answer.Settings.Partial:
		return fmt.Sprintf("Interrupted after %s of the base.", say.Plural(s.answer.Settings.Reps, "season"))
	case s.answer.Lines[0].Study.Ending == sim.Precise:
		return "Stopped when the work of all weeks was known to " + asked + ", as asked."
	case s.plan.Precision > 0:
		return "NOT KNOWN TO " + asked + " AS ASKED: stopped at the maximum number of seasons."
	}
	return "Stopped after the number of seasons asked for."
}

// shown returns the configuration whose jobs are listed: the one that was found, else the base.
func (s *simulated) shown() *study.SeasonsLine {
	if v := s.answer.Service; v != nil && v.Smallest >= 0 {
		return &s.answer.Lines[v.Smallest]
	}
	return &s.answer.Lines[0]
}

func (s *simulated) title() string {
	text := ""
	if s.answer.Settings.Partial {
		text = "PARTIAL ANSWER, interrupted: "
	}
	return text + say.Shortened(s.Name, 40) + " (" + s.sample() + ")"
}

// sample returns how many seasons of how many weeks were simulated.
func (s *simulated) sample() string {
	text := say.Plural(s.answer.Settings.Reps, "season") + " of " + say.Plural(len(s.Season.Weeks), "week")
	if len(s.answer.Lines) > 1 {
		text += " in each of " + say.Thousands(len(s.answer.Lines)) + " ways"
	}
	return text
}

// flags returns the flags that do it again.
func (s *simulated) flags() string {
	text := fmt.Sprintf(" --seed %d --reps %d", s.plan.Seed, s.answer.Settings.Reps)
	if s.order != "" {
		text += " --order " + string(s.order)
	}
	if v := s.answer.Service; v != nil {
		text += " --service " + say.Exact(100*float64(v.Asked)) + "%"
	}
	return text
}
