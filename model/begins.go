package model

import (
	"fmt"
	"math"

	"netrate/sim"
)

// Begins is how a replication begins. The zero Begins is the usual one: full hoppers, empty
// bins, an empty belt, nothing on the track, and the line running.
type Begins struct {
	Level  float64     // share of its capacity that each hopper holds; 0 for full
	Before sim.Seconds // the line has worked this long before, and stocks are as it left them; 0 for a fresh start
	Track  bool        // so is all else: what is on the track, stops, and what the crew is doing
	Kept   bool        // of jobs: hoppers of pieces in no order hold what the pass or the job before has left in them
}

// Fresh reports whether everything is as it is taken to be where nothing is said.
func (b Begins) Fresh() bool { return b == Begins{} }

// check notes what cannot be of the beginning.
func (l *Line) checkBegins(c *Checks) {
	b := l.Begins
	c.Require(b.Level >= 0 && b.Level <= 1, "work.begins.hoppers", "hoppers begin at %v of their capacity, want a share above 0, at most 1", b.Level)
	c.Require(b.Before >= 0 && !math.IsInf(float64(b.Before), 0), "work.begins.after", "the line has worked %v s before, want 0 or more", float64(b.Before))
	c.Require(b.Level == 0 || b.Before == 0, "work.begins.hoppers", "hoppers begin at a level as well as at what was left in them: want one of them")
	c.Require(!b.Track || b.Before > 0, "work.begins.track", "the track begins as it was left, and nothing came before: say how long the line has worked")
	c.Require(!b.Track || len(l.Days.Drift) == 0 || l.Days.Hours > 0, "work.begins.track", "the track begins as it was left, and the day goes on, whose drift would go on too: say how many hours of running make a day")
	c.Require(!b.Kept || l.Job.Sets > 0, "work.begins", "hoppers begin as the job before left them, and the line works for a shift: want how long the line has worked before")
	c.Require(!b.Kept || b.Level == 0, "work.begins.hoppers", "hoppers begin at a level as well as at what was left in them: want one of them")
	c.Require(b.Before == 0 || l.Job.Sets == 0, "work.begins", "a job begins with an empty track and its own pieces: only a shift begins as the one before left things")
}

// opening returns what is in a full stock of a station when a replication begins.
func (l *Line) opening(station int, k Stock) int64 {
	if l.Begins.Level == 0 || k.Capacity == 0 || !l.Stations[station].Stocked().Pieces {
		return k.Capacity
	}
	return max(1, int64(math.Floor(float64(l.Begins.Level*float64(k.Capacity))+0.5)))
}

// OfJob returns how a job begins on a line whose shifts begin so: nothing is left from before.
func (b Begins) OfJob() Begins { return Begins{Level: b.Level} }

// OfJobs is OfJob of jobs one after the other: where shifts begin with what was left in the hoppers,
// so do they.
func (b Begins) OfJobs() Begins { return Begins{Level: b.Level, Kept: b.Before > 0} }

// String says how a shift begins, as a part of a sentence.
func (b Begins) String() string {
	hours := fmt.Sprintf("%.4g h of work", float64(b.Before)/3600)
	switch {
	case b.Track:
		return "with everything as " + hours + " before left it: hoppers, track, stops and tasks"
	case b.Before > 0:
		return "with an empty track, and with what " + hours + " before left in hoppers, bins and on the belt"
	case b.Kept:
		return "with an empty track and empty bins, full hoppers of personalised pieces, and in all others what was left of the same pieces"
	case b.Level > 0:
		return fmt.Sprintf("with an empty track, hoppers at %.4g%% of their capacity and empty bins", 100*b.Level)
	}
	return "with an empty track, full hoppers and empty bins"
}
