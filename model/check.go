package model

import (
	"fmt"
	"math"
	"slices"

	"netrate/sim"
)

// maxStations is how many stations a line may have: the engine keeps one bit for each.
const maxStations = 64

// Problem is something that cannot be in a line.
type Problem struct {
	Station int    // index in the line, or -1 for the line as a whole
	Field   string // what is wrong, as a path of the words of a scenario file: "hopper.warn"
	Text    string // what was found and what is wanted
}

func (p *Problem) Error() string { return p.Text }

// Check returns everything that is wrong with the line, each a *[Problem]; nothing if it
// can run.
func (l *Line) Check() []error {
	c := checks{station: -1}
	l.checkWork(&c)
	c.require(l.Job.Sets > 0 || l.Shift > 0 && !math.IsInf(float64(l.Shift), 0), "work.shift", "the shift is %v s long, want more than 0", float64(l.Shift))
	c.require(l.Restart != nil, "line.restart", "the line has no restart delay: give 0 s if it has none")
	c.require(l.Crew.Operators >= 1, "crew.operators", "the crew has %d operators, want at least 1", l.Crew.Operators)
	c.require(l.Crew.Walk != nil, "crew.walk", "the crew has no walk time: give 0 s if it has none")
	c.require(l.Speed >= 0 && !math.IsInf(l.Speed, 0), "line.speed", "the speed is %v cycles an hour, want more than 0", l.Speed)
	c.require(l.RunSpeed() > 0, "line.speed", "neither the line nor any station says how fast it runs")
	c.require(len(l.Stations) <= maxStations, "line.stations", "the line has %d stations, want at most %d", len(l.Stations), maxStations)
	inserters := 0
	for i, s := range l.Stations {
		c.station = i
		l.checkPlace(&c, i)
		inserters += l.checkOrder(&c, i, inserters)
		s.check(l, &c)
	}
	c.station = -1
	l.checkLanes(&c)
	l.checkDoubts(&c)
	c.require(inserters > 0, "line.stations", "the line has no inserter")
	last := len(l.Stations) - 1
	c.require(last >= 0 && isDelivery(l.Stations[last]), "line.stations", "the last station is not a delivery")
	return c.found
}

// checkWork checks what a replication is.
func (l *Line) checkWork(c *checks) {
	j := l.Job
	c.require(j.Sets >= 0, "work.sets", "the job has %d sets, want at least 1", j.Sets)
	c.require(j.Sets == 0 || l.Shift == 0, "work", "the work is a shift and a job of sets: want one of them")
	c.require(j.Sets > 0 || j.Closing == Open, "work.remakes", "remakes are closed in a job: say how many sets it has")
	c.require(j.Closing == Open || l.Personalised(), "work.remakes", "remakes are of personalised pieces, and no station carries a stream")
	c.require(j.Closing != SecondPass || j.Setup != nil, "work.remakes", "a second pass has no time to set it up: give 0 s if it needs none")
	c.require(j.Closing != ByHand || j.PerHour > 0 && !math.IsInf(j.PerHour, 0), "work.remakes", "%v remakes are closed by hand an hour, want more than 0", j.PerHour)
}

// checkPlace checks the name, the pitch and the rated speed of station i.
func (l *Line) checkPlace(c *checks, i int) {
	p := l.Stations[i].Where()
	c.require(p.Name != "", "name", "a station has no name")
	for _, s := range l.Stations[:i] {
		c.require(s.Where().Name != p.Name, "name", "two stations are named %q", p.Name)
	}
	if i > 0 {
		before := l.Stations[i-1].Where()
		_, reader := l.Stations[i].(*Reader)
		c.require(p.At > before.At || reader && p.At == before.At, "at", "%s stands at pitch %d, want more than %d, where %s stands before it", p.Name, p.At, before.At, before.Name)
	}
	c.require(p.Rated >= 0 && !math.IsInf(p.Rated, 0), "rated", "the rated speed is %v, want more than 0", p.Rated)
}

// checkOrder checks that station i may stand where it does, after so many inserters, and
// returns how many inserters it is itself.
func (l *Line) checkOrder(c *checks, i, inserters int) int {
	name := l.Stations[i].Where().Name
	switch l.Stations[i].(type) {
	case *Channel:
		c.require(inserters == 0, "kind", "%s stands after the inserter: feeders and channels come before it", name)
		c.require(!slices.ContainsFunc(l.Stations[:i], isChannel), "kind", "%s is a second document channel: a line with more than one is not built", name)
		c.require(!slices.ContainsFunc(l.Stations[:i], isTrackGate), "kind", "%s stands after a track gate: sets that left there would leave their documents behind", name)
	case *Feeder, *TrackGate:
		c.require(inserters == 0, "kind", "%s stands after the inserter: feeders and track gates come before it", name)
	case *Inserter:
		c.require(inserters == 0, "kind", "%s is a second inserter: a line has one", name)
		return 1
	case *ExitGate:
		c.require(inserters > 0, "kind", "%s stands before the inserter: exit gates come after it", name)
	case *Delivery:
		c.require(i == len(l.Stations)-1, "kind", "%s is a delivery, but not the last station", name)
	}
	return 0
}

func isChannel(s Station) bool  { _, ok := s.(*Channel); return ok }
func isDelivery(s Station) bool { _, ok := s.(*Delivery); return ok }

// checks collects the problems of a line.
type checks struct {
	station int // the one being looked at, or -1
	found   []error
}

// require notes a problem unless ok holds.
func (c *checks) require(ok bool, field, text string, args ...any) {
	if !ok {
		c.found = append(c.found, &Problem{c.station, field, fmt.Sprintf(text, args...)})
	}
}

// probability notes a problem unless p is a probability.
func (c *checks) probability(p float64, field string) {
	c.require(p >= 0 && p <= 1, field, "%s is %v, want a probability in [0, 1]", field, p)
}

// faults notes a problem unless the three are probabilities and, at the speed the line
// runs at, still are and leave room for a good set.
func (c *checks) faults(fields [3]string, p [3]float64, factor float64) {
	sum := 0.0
	for i, field := range fields {
		c.probability(p[i], field)
		sum += p[i]
	}
	if sum <= 1 {
		c.require(sum*factor <= 1, fields[0], "%s, %s and %s come to %.4g at the speed the line runs at, want at most 1", fields[0], fields[1], fields[2], sum*factor)
	} else {
		c.require(!(sum > 1), fields[0], "%s, %s and %s come to %.4g, want at most 1", fields[0], fields[1], fields[2], sum)
	}
}

// growth returns (speed/rated)^exponent: the factor on a station's faults.
func (l *Line) growth(rated, exponent float64) float64 {
	if exponent == 0 || rated == 0 {
		return 1
	}
	return math.Pow(l.RunSpeed()/rated, exponent)
}

// exponent notes a problem unless faults can grow with speed by this exponent.
func (c *checks) exponent(p Place, growth float64) {
	c.require(growth >= 0 && growth <= 20, "growth", "growth is %v, want an exponent from 0 to 20", growth)
	c.require(growth == 0 || p.Rated > 0, "growth", "%s has a growth with speed but no rated speed to measure it from", p.Name)
}

// stock notes what is wrong with a stock; only bins and belts may go without a limit.
func (c *checks) stock(s Stock, field string, limitless bool) {
	if limitless && s.Capacity == 0 {
		return
	}
	c.require(s.Capacity >= 1, field, "the %s holds %d, want at least 1", field, s.Capacity)
	if s.Capacity >= 1 {
		c.require(s.Warn >= 0 && s.Warn < s.Capacity, field+".warn", "the warning comes at %d left, want from 0 to %d, one less than the capacity", s.Warn, s.Capacity-1)
	}
	c.require(s.Work != nil, field, "the %s has no time for the operator's work", field)
}

// clear notes a missing clearing time.
func (c *checks) clear(d sim.Duration) {
	c.require(d != nil, "clear", "there is no time for clearing a fault")
}

// response notes a response that the station being looked at cannot have.
func (c *checks) response(l *Line, f Fault, r Response) {
	why := l.Refusal(c.station, f, r)
	c.require(why == "", "policy."+f.String(), "%s cannot answer a %s with %s: %s", l.Stations[c.station].Where().Name, f, r, why)
}
