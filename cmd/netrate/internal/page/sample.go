package page

import (
	"fmt"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/sim"
)

// Caution returns what every screen that forecasts ends with.
func Caution() string {
	return say.Wrapped("Forecasts are no licence to skip a guard: see netrate help cautions.", say.Prose())
}

// Period returns what one replication of a line is: a shift, or a job.
func Period(l *model.Line) string {
	if l.Job.Sets > 0 {
		return "job"
	}
	return "shift"
}

// Extent returns how long a shift of the line is, or how large a job.
func Extent(l *model.Line) string {
	if l.Job.Sets > 0 {
		return say.Plural(l.Job.Sets, "set")
	}
	return Hours(l.Shift)
}

// Sample returns how many shifts or jobs of a line were simulated: "1,024 shifts of 8 h".
func Sample(s *runs.Study) string {
	if s.Each > 0 {
		return say.Plural(len(s.Shifts)/s.Each, "draw") + " of " + say.Plural(s.Each, Period(s.Line)) + " of " + Extent(s.Line)
	}
	return say.Plural(len(s.Shifts), Period(s.Line)) + " of " + Extent(s.Line)
}

// Hours returns a time in hours: "8 h"; in seconds, if it is so short that hours say nothing.
func Hours(t sim.Seconds) string {
	switch {
	case t >= 360:
		return say.Exact(float64(t)/3600) + " h"
	case t >= 1:
		return say.Exact(float64(t)) + " s"
	}
	return strconv.FormatFloat(float64(t), 'g', 3, 64) + " s"
}

// Partial returns a warning if the study was interrupted.
func Partial(s *runs.Study) string {
	if s.Ending == sim.Cancelled {
		return "PARTIAL ANSWER: the run was interrupted. "
	}
	return ""
}

// Headline returns the name of what was run and how much of it, on one line.
func Headline(name string, s *runs.Study) string {
	partial := ""
	if s.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	each := " (" + Sample(s) + " each)"
	return strings.TrimSuffix(say.Wrapped(partial+name+each, say.Screen()), "\n")
}

// Repeated returns how to repeat what was run, all on common random numbers.
func Repeated(s *runs.Study, basis study.Basis, command string) string {
	why := "All ran the same " + Period(s.Line) + "s, with the same random events."
	if s.Ending == sim.Cancelled {
		why = fmt.Sprintf("Interrupted after %s of %s.", say.Plural(len(s.Shifts), Period(s.Line)), say.Thousands(s.Plan.Max))
	}
	return BasisNote(basis) + say.Wrapped(why+" To repeat it:", say.Prose()) +
		fmt.Sprintf("  %s --seed %d --reps %d\n", command, s.Plan.Seed, len(s.Shifts)) + Caution()
}

// SampleEach returns what was simulated.
func SampleEach(s *runs.Study) string {
	return Sample(s) + " each, with the same random events"
}
