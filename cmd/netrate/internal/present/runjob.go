package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// finished returns when a job is finished, at what rate, and how its remakes were closed.
func finished(s *runs.Study) string {
	times := s.Sample(study.Finish)
	e, rate := s.IntervalOf(times, say.Level), s.IntervalOf(s.NetRates(), say.Level)
	text, intervals := "Finished  after "+say.PlusMinus(say.Measured(e.Mean, e.Half))+" h", " (95 % intervals)"
	switch {
	case len(times) < 2:
		text, intervals = text+"; one job alone does not say how far this may be off", ""
	case len(times) < 20:
		text += fmt.Sprintf("; the quickest took %s h, the slowest %s h", say.Rough(times.Quantile(0), e.Half), say.Rough(times.Quantile(1), e.Half))
	default:
		text += fmt.Sprintf("; one in twenty takes longer than %s h", say.Rough(times.Quantile(0.95), e.Half))
	}
	return text + "\nNet rate  " + say.PlusMinus(say.Measured(rate.Mean, rate.Half)) + " good envelopes an hour until then" + intervals + "\n" + closed(s)
}

// closed returns how the remakes of a job were closed.
func closed(s *runs.Study) string {
	n, j := float64(len(s.Shifts)), &s.Total.Job
	took := s.Interval(study.Closing, say.Level)
	minutes := say.Rough(took.Mean/60, took.Half/60)
	const indent = "          "
	switch {
	case s.Line.Job.Closing == model.SecondPass && j.Passes == int64(len(s.Shifts)):
		return indent + "One pass of the line: nothing was left to be closed\n"
	case s.Line.Job.Closing == model.SecondPass:
		return fmt.Sprintf("%s%s passes of the line, with %s minutes of setting up between them\n", indent, say.Exact(float64(j.Passes)/n), minutes)
	case s.Line.Job.Closing == model.ByHand:
		made := s.Interval(func(s *runs.Shift) float64 { return s.Remakes }, say.Level)
		return fmt.Sprintf("%s%s remakes are made by hand, in %s minutes\n", indent, say.Rough(made.Mean, made.Half), minutes)
	case s.Line.Personalised():
		return indent + "Remakes are left open: their time is not in this\n"
	}
	return ""
}

// jobOnPaper returns how long the sets of a job take on paper, and how far that is from what
// was simulated.
func jobOnPaper(s *runs.Study) string {
	h := s.Line.Analytic()
	paper := study.JobOnPaper(s.Line)
	text := fmt.Sprintf("On paper  %s h = %s / (%s/h × %.2f %% running)", say.Exact(paper), say.Plural(s.Line.Job.Sets, "set"), say.Exact(h.Speed), 100*h.Efficiency)
	e := s.Interval(study.Finish, say.Level)
	gap := e.Mean - paper
	switch {
	case e.N < 2 || !(math.Abs(gap) > e.Half):
		return text + "\n"
	case gap < 0:
		return text + "\n          " + say.Rough(-gap, e.Half) + " h more than simulated\n"
	}
	return text + "\n          " + say.Rough(gap, e.Half) + " h less than simulated\n"
}
