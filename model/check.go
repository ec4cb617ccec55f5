package model

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"netrate/sim"
	"netrate/sim/portable"
)

// maxStations is how many stations a line may have: the engine keeps one bit for each.
const maxStations = 64

// Problem is something that cannot be in a line.
type Problem struct {
	Station int    // index in the line, or -1 for the line as a whole
	Field   string // what is wrong, as a path of the words of a scenario file: "hopper.warn"
	Text    string // what was found and what is wanted

	kind, name string // of the station
}

// Error returns the text and, of a station, which one it is about: two of one line may have the same
// fault.
func (p *Problem) Error() string {
	switch {
	case p.name == "":
		return p.Text
	case strings.HasPrefix(p.Text, p.name+" "):
		return p.kind + " " + p.Text
	}
	return p.kind + " " + p.name + ": " + p.Text
}

// Check returns everything that is wrong with the line, each a *[Problem]; nothing if it
// can run.
func (l *Line) Check() []error { return l.CheckAmong([]*Line{l}) }

// CheckAmong does the same of a line that shares its crew with the others of some lines, itself among
// them.
func (l *Line) CheckAmong(lines []*Line) []error {
	c := Checks{station: -1, lines: lines}
	if l.checkThere(&c); c.found != nil {
		return c.found
	}
	l.checkWork(&c)
	l.checkBegins(&c)
	l.checkSlow(&c)
	c.Require(l.Job.Sets > 0 || l.Shift > 0 && !math.IsInf(float64(l.Shift), 0), "work.shift", "the shift is %v s long, want more than 0", float64(l.Shift))
	c.Require(l.Restart != nil, "line.restart", "the line has no restart delay: give 0 s if it has none")
	l.checkCrew(&c)
	c.Require(l.Speed >= 0 && !math.IsInf(l.Speed, 0), "line.speed", "the speed is %v cycles an hour, want more than 0", l.Speed)
	c.Require(l.RunSpeed() > 0, "line.speed", "neither the line nor any station says how fast it runs")
	c.Require(len(l.Stations) <= maxStations, "line.stations", "the line has %d stations, want at most %d", len(l.Stations), maxStations)
	for i, s := range l.Stations {
		c.look(i, s)
		l.checkPlace(&c, i)
		s.Downtime().check(&c)
		s.Check(l, &c)
	}
	l.checkTimes(&c)
	c.look(-1, nil)
	l.checkAttributes(&c)
	l.checkDays(&c)
	l.checkLanes(&c)
	l.checkUncertainInputs(&c)
	c.Require(l.First(Inserts) >= 0, "line.stations", "the line has no inserter")
	if last := len(l.Stations) - 1; last < 0 {
		c.Require(false, "line.stations", "the line has no delivery")
	} else {
		c.look(last, l.Stations[last])
		name := l.Stations[last].Where().Name
		c.Require(l.is(last, Delivers), "kind", "%s is the last station and no delivery: a delivery comes last", name)
	}
	return c.found
}

// checkThere checks that all stations and times are there: nothing else can be asked of one that is
// nil, or a pointer to nothing.
func (l *Line) checkThere(c *Checks) {
	for i, s := range l.Stations {
		v := reflect.ValueOf(s)
		c.station = i
		c.Require(s != nil && !(v.Kind() == reflect.Pointer && v.IsNil()), "kind", "station %d of the line is nil", i)
	}
	c.station = -1
	if c.found == nil {
		l.eachTimes(c, func(all *Parameters) {
			for _, name := range all.absent {
				c.Require(false, name, "%s is a pointer to nothing: want a time", name)
			}
		})
	}
}

// checkTimes checks that all times are such: a [sim.Constant], or a duration of a program's own, may
// be any number.
func (l *Line) checkTimes(c *Checks) {
	l.eachTimes(c, func(all *Parameters) {
		for _, name := range all.odd {
			c.Require(false, name, "%s has a mean that is negative, infinite or no number: want a time", name)
		}
	})
}

// eachTimes lists the numbers of the line and of each of its stations, and hands what it found.
func (l *Line) eachTimes(c *Checks, found func(*Parameters)) {
	all := Parameters{}
	note := func(i int, s Station) {
		c.look(i, s)
		found(&all)
		all.odd, all.absent = nil, nil
	}
	all.Duration("line.restart", &l.Restart)
	all.Duration(CrewWalk, &l.Crew.Walk)
	all.Duration("work.remakes", &l.Job.Setup)
	note(-1, nil)
	for i, s := range l.Stations {
		all.stationed(s)
		note(i, s)
	}
	c.look(-1, nil)
}

// known reports whether a value is one of those that have names.
func known[T ~int](x T, names []string) bool { return x >= 0 && int(x) < len(names) }

// checkWork checks what a replication is.
func (l *Line) checkWork(c *Checks) {
	j := l.Job
	c.Require(known(j.Closing, closingNames[:]), "work.remakes", "there is no way %d to close remakes", int(j.Closing))
	c.Require(j.PerHour == 0 || j.Closing.Manual(), "work.remakes", "%v remakes an hour are made by hand, and Closing is not ByHand or Beside", j.PerHour)
	c.Require(j.Sets >= 0, "work.sets", "the job has %d sets, want at least 1", j.Sets)
	c.Require(j.Sets == 0 || l.Shift == 0, "work", "the work is a shift and a job of sets: want one of them")
	c.Require(j.Sets > 0 || j.Closing == Open, "work.remakes", "remakes are closed in a job: say how many sets it has")
	c.Require(j.Closing == Open || l.Personalised(), "work.remakes", "remakes are of personalised pieces, and no station carries a stream")
	c.Require(j.Closing != SecondPass || j.Setup != nil, "work.remakes", "a second pass has no time to set it up: give 0 s if it needs none")
	c.Require(!j.Closing.Manual() || j.PerHour > 0 && !math.IsInf(j.PerHour, 0), "work.remakes", "%v remakes are closed by hand an hour, want more than 0", j.PerHour)
}

// checkPlace checks the name, the pitch and the rated speed of station i.
func (l *Line) checkPlace(c *Checks, i int) {
	p := l.Stations[i].Where()
	c.Require(p.Name != "", "name", "a station has no name")
	for _, s := range l.Stations[:i] {
		c.Require(s.Where().Name != p.Name, "name", "two stations are named %q", p.Name)
	}
	if i > 0 {
		before := l.Stations[i-1].Where()
		beside := l.Stations[i].Kind().Beside
		c.Require(p.At > before.At || beside && p.At == before.At, "at", "%s stands at pitch %d, want more than %d, where %s stands before it", p.Name, p.At, before.At, before.Name)
	}
	c.Require(p.Rated >= 0 && !math.IsInf(p.Rated, 0), "rated", "the rated speed is %v, want more than 0", p.Rated)
}

// Checks collects the problems of a line.
type Checks struct {
	station int     // the one being looked at, or -1
	lines   []*Line // that share the crew
	kind    string
	name    string
	found   []error
}

// look turns to a station, or with -1 to the line as a whole.
func (c *Checks) look(i int, s Station) {
	if c.station, c.kind, c.name = i, "", ""; s != nil {
		c.kind, c.name = s.Kind().Name, s.Where().Name
	}
}

// Require notes a problem unless ok holds.
func (c *Checks) Require(ok bool, field, text string, args ...any) {
	if !ok {
		c.found = append(c.found, &Problem{c.station, field, fmt.Sprintf(text, args...), c.kind, c.name})
	}
}

// At returns the place in the line of the station being looked at.
func (c *Checks) At() int { return c.station }

// Before notes a station that stands after an inserter; which ones stand before it, who says.
func (c *Checks) Before(l *Line, who string) {
	at := l.First(Inserts)
	c.Require(at < 0 || at >= c.station, "kind", "%s stands after the inserter: %s come before it", l.Stations[c.station].Where().Name, who)
}

// Behind notes a station that stands before the inserter; which ones stand after it, who says.
func (c *Checks) Behind(l *Line, who string) {
	at := l.First(Inserts)
	c.Require(at >= 0 && at < c.station, "kind", "%s stands before the inserter: %s come after it", l.Stations[c.station].Where().Name, who)
}

// Probability notes a problem unless p is a probability.
func (c *Checks) Probability(p float64, field string) {
	c.Require(p >= 0 && p <= 1, field, "%s is %v, want a probability in [0, 1]", field, p)
}

// Faults notes a problem unless these are probabilities of outcomes of one attempt and, times
// a factor as at the speed the line runs at, still are and leave room for a good one.
func (c *Checks) Faults(fields []string, p []float64, factor float64) {
	sum := 0.0
	for i, field := range fields {
		c.Probability(p[i], field)
		sum += p[i]
	}
	all := Listed(fields)
	if sum <= 1 {
		c.Require(sum*factor <= 1, fields[0], "%s come to %s at the speed the line runs at, want at most 1", all, aboveOne(sum*factor))
	} else {
		c.Require(!(sum > 1), fields[0], "%s come to %s, want at most 1", all, aboveOne(sum))
	}
}

// aboveOne returns a number with four digits, or with as many as it takes to tell it from 1.
func aboveOne(x float64) string {
	for digits := 4; ; digits++ {
		if text := strconv.FormatFloat(x, 'g', digits, 64); text != "1" || x == 1 {
			return text
		}
	}
}

// noticing notes shares of misfeeds and doubles that are no probabilities, or were forgotten.
func (c *Checks) noticing(misfeed, noticed, double, caught float64, unwatched bool) {
	c.Probability(noticed, "noticed")
	c.Probability(caught, "caught")
	const forgotten = "%s is 0, so that nobody would notice a %s: give the share that is noticed, 1 as a rule, or say Unwatched"
	c.Require(noticed != 0 || misfeed == 0 || unwatched, "noticed", forgotten, "noticed", Misfeed)
	c.Require(caught != 0 || double == 0 || unwatched, "caught", forgotten, "caught", Double)
}

// Growth returns (speed/rated)^exponent: the factor on a station's faults.
func (l *Line) Growth(rated, exponent float64) float64 {
	if exponent == 0 || rated == 0 {
		return 1
	}
	return portable.Pow(l.RunSpeed()/rated, exponent)
}

// MostGrowth is the highest exponent with which faults can grow with the speed.
const MostGrowth = 20

// Growth notes a problem unless faults can grow with speed by this exponent.
func (c *Checks) Growth(p Place, growth float64) {
	c.Require(growth >= 0 && growth <= MostGrowth, "growth", "growth is %v, want an exponent from 0 to %v", growth, MostGrowth)
	c.Require(growth == 0 || p.Rated > 0, "growth", "%s has a growth with speed but no rated speed to measure it from", p.Name)
}

// Stock notes what is wrong with a stock; only bins and belts may go without a limit.
func (c *Checks) Stock(s Stock, field string, limitless bool) {
	if limitless && s.Capacity == 0 {
		c.Require(s.Warn == 0 && s.Work == nil, field, "the %s never fills up, as its capacity is 0, and has a warning or a time for work: give its capacity", field)
		return
	}
	c.Require(s.Capacity >= 1, field, "the %s holds %d, want at least 1", field, s.Capacity)
	if s.Capacity >= 1 {
		c.Require(s.Warn >= 0 && s.Warn < s.Capacity, field+".warn", "the warning comes at %d left, want from 0 to %d, one less than the capacity", s.Warn, s.Capacity-1)
	}
	c.Require(s.Work != nil, field, "the %s has no time for the operator's work", field)
}

// Clear notes a missing clearing time.
func (c *Checks) Clear(d sim.Duration) {
	c.Require(d != nil, "clear", "there is no time for clearing a fault")
}

// Response notes a response that the station being looked at cannot have.
func (c *Checks) Response(l *Line, f Fault, r Response) {
	if !known(r, responseNames[:]) {
		c.Require(false, "policy."+f.String(), "there is no response %d to a %s", int(r), f)
		return
	}
	why := l.Refusal(c.station, f, r)
	c.Require(why == "", "policy."+f.String(), "%s cannot answer a %s with %s: %s", l.Stations[c.station].Where().Name, f, r, why)
}
