package main

import (
	"fmt"
	"math"

	"netrate/model"
)

// finished returns when a job is finished, at what rate, and how its remakes were closed.
func finished(s *model.Study) string {
	times := s.Sample(finish)
	e, rate := times.Interval(level), s.NetRates().Interval(level)
	text, intervals := "Finished  after "+plusMinus(measured(e.Mean, e.Half))+" h", " (95 % intervals)"
	switch {
	case len(times) < 2:
		text, intervals = text+"; one job alone does not say how far this may be off", ""
	case len(times) < 20:
		text += fmt.Sprintf("; the quickest took %s h, the slowest %s h", rough(times.Quantile(0), e.Half), rough(times.Quantile(1), e.Half))
	default:
		text += fmt.Sprintf("; one in twenty takes longer than %s h", rough(times.Quantile(0.95), e.Half))
	}
	return text + "\nNet rate  " + plusMinus(measured(rate.Mean, rate.Half)) + " good envelopes an hour until then" + intervals + "\n" + closed(s)
}

func finish(s *model.Shift) float64 { return s.Finish }

// closing returns the seconds in which a job goes on and the line is not at work: before
// further passes, and while remakes are made by hand.
func closing(s *model.Shift) float64 {
	if rest := s.Finish*3600 - stretch(s); rest > noTime {
		return rest
	}
	return 0
}

// noTime is less time than anything takes, and more than rounding makes.
const noTime = 1e-6

// stretch returns the seconds in which the line was at work on a shift or a job.
func stretch(s *model.Shift) float64 {
	return s.Running + s.Waiting + s.Working + s.Restarting + s.Starved
}

// closed returns how the remakes of a job were closed.
func closed(s *model.Study) string {
	n, j := float64(len(s.Shifts)), &s.Total.Job
	took := s.Sample(closing).Interval(level)
	minutes := rough(took.Mean/60, took.Half/60)
	const indent = "          "
	switch {
	case s.Line.Job.Closing == model.SecondPass && j.Passes == int64(len(s.Shifts)):
		return indent + "One pass of the line: nothing was left to be closed\n"
	case s.Line.Job.Closing == model.SecondPass:
		return fmt.Sprintf("%s%s passes of the line, with %s minutes of setting up between them\n", indent, exact(float64(j.Passes)/n), minutes)
	case s.Line.Job.Closing == model.ByHand:
		made := s.Sample(func(s *model.Shift) float64 { return s.Remakes }).Interval(level)
		return fmt.Sprintf("%s%s remakes are made by hand, in %s minutes\n", indent, rough(made.Mean, made.Half), minutes)
	case s.Line.Personalised():
		return indent + "Remakes are left open: their time is not in this\n"
	}
	return ""
}

// jobOnPaper returns how long the sets of a job take on paper, and how far that is from what
// was simulated.
func jobOnPaper(s *model.Study) string {
	h := s.Line.Hand()
	paper := float64(s.Line.Job.Sets) / (h.Speed * h.Efficiency)
	text := fmt.Sprintf("On paper  %s h = %s / (%s/h × %.2f %% running)", exact(paper), plural(s.Line.Job.Sets, "set"), exact(h.Speed), 100*h.Efficiency)
	e := s.Sample(finish).Interval(level)
	gap := e.Mean - paper
	switch {
	case e.N < 2 || !(math.Abs(gap) > e.Half):
		return text + "\n"
	case gap < 0:
		return text + "\n          " + rough(-gap, e.Half) + " h more than simulated\n"
	}
	return text + "\n          " + rough(gap, e.Half) + " h less than simulated\n"
}
