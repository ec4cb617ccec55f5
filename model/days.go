package model

import (
	"math"
	"slices"

	"netrate/sim"
)

// Days is how the faults of all stations of a line change from day to day and within a day. The
// zero Days is not at all.
type Days struct {
	CV    float64     // of gamma factors with mean 1, one a day; 0 for none
	Hours float64     // of running, that make a day; 0 for the whole replication or pass
	Level float64     // a factor on all days, at which the rates of the line are; 0 is taken for 1
	Drift []DriftStep // within a day, in order; from the start to the first one 1
}

// DriftStep is a factor from some hours of running on.
type DriftStep struct{ From, Times float64 }

// Given reports whether anything changes.
func (d *Days) Given() bool { return d.CV > 0 || len(d.Drift) > 0 || d.Level > 0 }

// SpreadGiven reports whether it is said of the line how lots or days differ.
func (l *Line) SpreadGiven() bool {
	return l.Days.CV > 0 || slices.ContainsFunc(l.Stations, func(s Station) bool {
		lots := LotsOf(s)
		return lots != nil && lots.Given()
	})
}

// Clone returns a copy.
func (d Days) Clone() Days {
	d.Drift = append([]DriftStep(nil), d.Drift...)
	return d
}

func (d *Days) level() float64 {
	if d.Level > 0 {
		return d.Level
	}
	return 1
}

// checkDays notes what cannot be of the days of a line.
func (l *Line) checkDays(c *Checks) {
	d := &l.Days
	c.factorCV(d.CV, "line.days.cv")
	c.Require(d.Hours == 0 || d.Hours >= 0.01 && d.Hours <= 1e4, "line.days.every", "a day has %v hours of running, want from 0.01 to 10000", d.Hours)
	c.Require(d.Hours == 0 || d.Given(), "line.days", "it is said how long a day is, and not what days differ by: give cv or drift")
	c.Require(d.Level >= 0 && d.Level <= MostFactor, "line.days.level", "level is %v, want a factor above 0, at most %d", d.Level, MostFactor)
	before := -1.0
	for _, step := range d.Drift {
		c.Require(step.From >= 0 && step.From <= 1e4, "line.days.drift", "a step of the drift begins after %v hours, want from 0 to 10000", step.From)
		c.Require(!(step.From <= before), "line.days.drift", "a step of the drift begins after %v hours, and the one before it after %v: want them in order", step.From, before)
		c.Require(step.Times > 0 && step.Times <= MostFactor, "line.days.drift", "a step of the drift is a factor of %v, want above 0, at most %d", step.Times, MostFactor)
		before = step.From
	}
}

// dayNumbers lists the numbers of days.
func (v *Parameters) dayNumbers(d *Days) {
	if !d.Given() {
		return
	}
	v.number("line.days.cv", &d.CV, "%.3g")
	if d.Level > 0 {
		v.number("line.days.level", &d.Level, "%.3g")
	}
}

// MeanDrift returns the mean of the factor of level and drift over the first hours of running of
// a day, or over whole days where they are shorter.
func (d *Days) MeanDrift(hours float64) float64 {
	if d.Hours > 0 {
		hours = min(hours, d.Hours)
	}
	sum, from, times := 0.0, 0.0, 1.0
	for _, step := range d.Drift {
		if step.From >= hours {
			break
		}
		sum += float64((step.From - from) * times)
		from, times = step.From, step.Times
	}
	if hours <= 0 || math.IsInf(hours, 0) {
		return times * d.level()
	}
	return (sum + float64((hours-from)*times)) / hours * d.level()
}

// atMeanDrift returns the line with its fault rates at the mean over the running time of a
// replication, and without drift: what paper takes. The line runs for a share of a shift.
func (l *Line) atMeanDrift(share float64) *Line {
	hours := float64(l.Shift) / 3600 * share
	if l.Job.Sets > 0 {
		hours = float64(l.Job.Sets) / l.RunSpeed()
	}
	mean := l.Clone()
	mean.Days.Drift, mean.Days.Level = nil, 0
	for _, s := range mean.Stations {
		all := Parameters{whole: true}
		s.Parameters(&all)
		for _, v := range all.list {
			if v.fault != nil || slices.Contains([]string{"misfeed", "double", "jam"}, v.Name) {
				*v.rate *= l.Days.MeanDrift(hours)
			}
		}
	}
	return mean
}

// days are the days of a line in use.
type days struct {
	Days
	s      *Sim
	random *sim.Stream
	timer  *sim.Slot
	known  []float64  // the factors of the days up to now
	length sim.Cycles // of a day; oneDay if all is one
	steps  []sim.Cycles
	now    float64   // in the next cycle
	rates  []*factor // of the stations at the track
}

// oneDay is more cycles than any run has: all is one day.
const oneDay = 1 << 50

func newDays(s *Sim) *days {
	d := &days{Days: s.line.Days, s: s, length: oneDay, random: s.stream("line", "days")}
	speed := s.line.RunSpeed()
	if d.Hours > 0 {
		d.length = max(1, sim.Cycles(math.Round(d.Hours*speed)))
	}
	for _, step := range d.Drift {
		d.steps = append(d.steps, sim.Cycles(math.Round(step.From*speed)))
	}
	d.timer = s.clocks.Track.Timer(d.turn)
	return d
}

func (d *days) begin() {
	d.known = d.known[:0]
	d.await(0)
}

// at returns the factor in a cycle, and the last cycle for which it is that.
func (d *days) at(cycle sim.Cycles) (factor float64, last sim.Cycles) {
	day := (cycle - 1) / d.length
	for sim.Cycles(len(d.known)) <= day {
		f := d.level()
		if d.CV > 0 {
			f *= gammaFactor(d.random, d.CV)
		}
		d.known = append(d.known, f)
	}
	within, times := cycle-day*d.length, 1.0
	last = d.length
	for i, after := range d.steps {
		if within <= after {
			last = min(last, after)
			break
		}
		times = d.Drift[i].Times
	}
	return d.known[day] * times, day*d.length + last
}

// await takes the factor of the next cycle and sets the timer for when it changes.
func (d *days) await(cycle sim.Cycles) {
	var last sim.Cycles
	if d.now, last = d.at(cycle + 1); last < oneDay {
		d.timer.Set(last)
	}
}

// turn gives the stations the rates of what comes, once all have done their work in this cycle.
func (d *days) turn() {
	now := d.s.clocks.Track.Now()
	for _, x := range d.rates {
		if d.s.due(x.before) {
			d.timer.Set(now) // again, behind what is due there
			return
		}
	}
	d.await(now)
	for _, x := range d.rates {
		x.turn(now)
	}
}
