package weeks

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// inTime is how often all weeks of a season were done in time, and what that is known to.
type inTime struct{ share, low, high float64 }

// inTime returns the share of the seasons in which every week was done when it ended, with
// its exact interval.
func (x *seasonRun) inTime() inTime {
	n := 0
	for r := range x.study.Done {
		late := false
		for _, w := range x.study.Weeks {
			late = late || w.Backlog[r] > 0
		}
		if !late {
			n++
		}
	}
	low, high := output.ExactInterval(int64(n), int64(x.study.Done), say.Level)
	return inTime{float64(n) / float64(x.study.Done), low, high}
}

// inWords returns the share with its interval.
func (t inTime) inWords() string {
	return fmt.Sprintf("%s (%s to %s)", often(t.share), often(t.low), often(t.high))
}

// often returns a share of the seasons with one decimal, unless it is none or all of them.
func often(share float64) string {
	if share == 0 || share == 1 {
		return say.Exact(100*share) + " %"
	}
	return say.Rounded(100*share, -1) + " %"
}

// work returns the hours of all weeks of each season.
func (x *seasonRun) work() sim.Sample {
	return x.sum(func(w *model.SeasonWeek) sim.Sample { return w.Work })
}

// overtime returns the hours beyond the working time of each season.
func (x *seasonRun) overtime() sim.Sample {
	return x.sum(func(w *model.SeasonWeek) sim.Sample { return w.Overtime })
}

func (x *seasonRun) sum(of func(*model.SeasonWeek) sim.Sample) sim.Sample {
	all := make(sim.Sample, x.study.Done)
	for i := range x.study.Weeks {
		for r, hours := range of(&x.study.Weeks[i]) {
			all[r] += hours
		}
	}
	return all
}

// changes returns the mean hours of changeovers in a week, and how many there are in it.
func (x *seasonRun) changeHours() (hours, changes float64) {
	for _, j := range x.study.Jobs {
		if mean := j.Change.Mean(); mean > 0 {
			hours += mean
			changes++
		}
	}
	weeks := float64(len(x.study.Weeks))
	return hours / weeks, changes / weeks
}

// call returns what a configuration is called in a sentence.
func (x *seasonRun) call() string {
	if x.name == scenarios.BaseName {
		return "the base"
	}
	return "“" + x.name + "”"
}

func (x *seasonRun) operators() int { return x.season.Line.Crew.Operators }

// smallest returns the configuration with the fewest operators that has all weeks in time
// as often as asked for, the first in the file of equals; nil if none has.
func (s *seasons) smallest() *seasonRun {
	var found *seasonRun
	for _, x := range s.done() {
		if x.inTime().share >= s.service && (found == nil || x.operators() < found.operators()) {
			found = x
		}
	}
	return found
}

// finding returns the answer in a sentence or a few.
func (s *seasons) finding() string {
	if s.service > 0 {
		return s.serviceFinding()
	}
	base, best := s.done()[0], s.other()
	text := fmt.Sprintf("%s has all weeks done in time in %s of the seasons.", say.Capital(base.call()), base.inTime().inWords())
	var names []string
	for _, x := range s.done() {
		if x.inTime().share == best.inTime().share {
			names = append(names, x.call())
		}
	}
	switch {
	case len(s.done()) == 1:
		return text
	case best == base:
		return text + " No variant has that more often."
	case len(names) == 1:
		return text + fmt.Sprintf(" Most often has %s: in %s.", names[0], best.inTime().inWords())
	}
	return text + fmt.Sprintf(" Most often have %s: in %s.", say.List(names), best.inTime().inWords())
}

// serviceFinding names the smallest configuration that is in time often enough.
func (s *seasons) serviceFinding() string {
	asked := say.Exact(100*s.service) + " %"
	x := s.smallest()
	if x == nil {
		best := s.other()
		if best.inTime().share == 0 {
			return "None has all weeks done in time in any of the seasons."
		}
		return fmt.Sprintf("None has all weeks done in time in %s of the seasons: most often has %s, in %s.%s",
			asked, best.call(), best.inTime().inWords(), s.doubt(nil))
	}
	return fmt.Sprintf("The smallest configuration that has all weeks done in time in %s of the seasons is %s, with %s in each shift: in %s.%s%s",
		asked, x.call(), say.Plural(x.operators(), "operator"), x.inTime().inWords(), s.fewerHours(x), s.doubt(x))
}

// paid returns the operator hours of a week: those of all shifts together.
func (x *seasonRun) paid() float64 { return float64(x.operators()) * x.study.Hours }

// fewerHours says which configuration is in time often enough with the fewest operator hours
// a week, where that is another than the smallest: more people in fewer shifts.
func (s *seasons) fewerHours(smallest *seasonRun) string {
	least := smallest
	for _, x := range s.done() {
		if x.inTime().share >= s.service && x.paid() < least.paid() {
			least = x
		}
	}
	if least == smallest {
		return ""
	}
	return fmt.Sprintf(" It takes %s operator hours a week; %s takes %s, the fewest.", say.Exact(smallest.paid()), least.call(), say.Exact(least.paid()))
}

// doubt says what so many seasons do not settle: whether the one found really is in time so
// often, and whether a smaller one is.
func (s *seasons) doubt(found *seasonRun) string {
	var open []string
	for _, x := range s.done() {
		if found != nil && x.operators() > found.operators() {
			continue
		}
		if t := x.inTime(); t.low < s.service && t.high > s.service {
			open = append(open, x.call())
		}
	}
	if open == nil {
		return ""
	}
	return " So many seasons do not settle it for " + say.List(open) + ": --reps takes more."
}

// tightest returns the week that is in time least often, and of equals the one with most
// work.
func (x *seasonRun) tightest() int {
	worst := 0
	for i := range x.study.Weeks {
		a, b := &x.study.Weeks[i], &x.study.Weeks[worst]
		if a.InTime() < b.InTime() || a.InTime() == b.InTime() && a.Work.Mean() > b.Work.Mean() {
			worst = i
		}
	}
	return worst
}

// median returns the replication whose work of all weeks is nearest to the median.
func (x *seasonRun) median() int {
	work := x.work()
	middle, nearest := work.Quantile(0.5), 0
	for r := range work {
		if math.Abs(work[r]-middle) < math.Abs(work[nearest]-middle) {
			nearest = r
		}
	}
	return nearest
}

// weekName returns what a week is called, with its number.
func weekName(s *model.Season, week int) string {
	number := fmt.Sprintf("week %d", week+1)
	if name := s.Weeks[week].Name; name != number && name != "" {
		return fmt.Sprintf("%d %s", week+1, name)
	}
	return number
}

// moment returns what the clock on the wall says after so many hours of working time: "Wed
// 14:20 of week 2". Weeks begin on Monday.
func moment(clock *model.Clock, worked float64) string {
	const day, week = 24 * 60, 7 * 24 * 60 // minutes
	at := int(math.Round(float64(clock.At(sim.Seconds(3600*worked))) / 60))
	return fmt.Sprintf("%s %02d:%02d of week %d", weekdays[at%week/day], at%day/60, at%60, at/week+1)
}

var weekdays = [7]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}
