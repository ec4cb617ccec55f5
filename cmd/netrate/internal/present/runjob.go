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
func finished(s *runs.Study) []fact {
	times := s.Sample(study.Finish)
	e := s.IntervalOf(times, say.Level)
	text := "after " + say.PlusMinus(say.Measured(e.Mean, e.Half)) + " h"
	switch {
	case len(times) < 2:
		text += "; one job alone does not say how far this may be off"
	case len(times) < 20:
		text += fmt.Sprintf("; the quickest took %s h, the slowest %s h", say.Rough(times.Quantile(0), e.Half), say.Rough(times.Quantile(1), e.Half))
	default:
		text += fmt.Sprintf("; one in twenty takes longer than %s h", say.Rough(times.Quantile(0.95), e.Half))
	}
	return []fact{{"Finished", []string{text}}, untilThen(s)}
}

// untilThen returns the net rate of a job until it is finished, and how its remakes were closed.
func untilThen(s *runs.Study) fact {
	rate, intervals := s.IntervalOf(s.NetRates(), say.Level), " (95 % intervals)"
	if len(s.Shifts) < 2 {
		intervals = ""
	}
	net := fact{"Net rate", []string{say.PlusMinus(say.Measured(rate.Mean, rate.Half)) + " good envelopes an hour until then" + intervals}}
	if remakes := closed(s); remakes != "" {
		net.says = append(net.says, remakes)
	}
	return net
}

// closed returns how the remakes of a job were closed, or "" if it has none.
func closed(s *runs.Study) string {
	n, j := float64(len(s.Shifts)), &s.Total.Job
	took := s.Interval(study.Closing, say.Level)
	minutes := say.Rough(took.Mean/60, took.Half/60)
	switch {
	case s.Line.Job.Closing == model.SecondPass && j.Passes == int64(len(s.Shifts)):
		return "One pass of the line: nothing was left to be closed"
	case s.Line.Job.Closing == model.SecondPass:
		return fmt.Sprintf("%s passes of the line, with %s minutes of setting up between them", say.Exact(float64(j.Passes)/n), minutes)
	case s.Line.Job.Closing == model.ByHand:
		made := s.Interval(func(s *runs.Shift) float64 { return s.Remakes }, say.Level)
		return fmt.Sprintf("%s remakes are made by hand, in %s minutes", say.Rough(made.Mean, made.Half), minutes)
	case s.Line.Job.Closing == model.Beside:
		made := s.Interval(func(s *runs.Shift) float64 { return s.Remakes }, say.Level)
		waits := "the job does not wait for them"
		if took.Mean > 0 {
			waits = "the job waits " + minutes + " minutes for the last"
		}
		return fmt.Sprintf("%s remakes are made by hand beside the line; %s", say.Rough(made.Mean, made.Half), waits)
	case s.Line.Personalised():
		return "Remakes are left open: their time is not in this"
	}
	return ""
}

// jobOnPaper returns how long the sets of a job take on paper, and how far that is from what
// was simulated.
func jobOnPaper(s *runs.Study) fact {
	h, paper := study.OnPaperOf(s.Line), study.JobOnPaper(s.Line)
	f := fact{"On paper", []string{
		fmt.Sprintf("%s h = %s / (%s/h × %.2f %% running)", say.Exact(paper), say.Plural(s.Line.Job.Sets, "set"), say.Exact(float64(h.Speed)), 100*h.Efficiency),
	}}
	e := s.Interval(study.Finish, say.Level)
	gap := e.Mean - paper
	switch {
	case e.N < 2 || !(math.Abs(gap) > e.Half):
	case gap < 0:
		f.says = append(f.says, say.Rough(-gap, e.Half)+" h more than simulated")
	default:
		f.says = append(f.says, say.Rough(gap, e.Half)+" h less than simulated")
	}
	return f
}
