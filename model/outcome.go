package model

import "netrate/sim"

// Outcome is what one replication came to. Both its ledgers balance, or the run was an
// error: see [Outcome.Balance].
type Outcome struct {
	Cycles     int64 // completed
	Sets       Sets
	LongestRun int64 // of sets delivered defective, one right after another
	Time       Time
	LeftOver   LeftOver         // when it ended
	Stations   []StationOutcome // as in the line
	Job        JobOutcome       // zero for a shift
}

// LeftOver is what is left to do for faults for which the line stands.
type LeftOver struct {
	Work    sim.Seconds // of operators on the way or at work
	Restart sim.Seconds // of the restart delay, or its mean
}

// JobOutcome is how a job was brought to its end.
type JobOutcome struct {
	Passes int64       // on the line
	ByHand int64       // remakes closed by hand
	Setup  sim.Seconds // before the second pass and those after it
	Hand   sim.Seconds // closing by hand, once the line is done
	Finish sim.Seconds // from the start to the end of the job: all passes, setups and closing
}

// Sets is the first ledger, in sets: Started is the sum of the others.
type Sets struct {
	Started   int64
	Good      int64 // delivered, and as they should be
	Defective int64 // delivered, but not as they should be
	Diverted  int64 // taken off at a track gate
	Outsorted int64 // taken out at an exit gate
	Spoiled   int64 // destroyed in a jam
	OnLine    int64 // still on the line at the end of the shift
}

// Time is the ledger of time: Shift is the sum of the others and of all stops of all
// stations.
type Time struct {
	Shift   sim.Seconds
	Running sim.Seconds
	Slow    SlowTime    // of it, beyond what the cycles would have taken at the speed of the line
	Breaks  sim.Seconds // for which the line stood
}

// StationOutcome is what happened at one station.
type StationOutcome struct {
	Name       string
	Attempts   int64 // feeds or insertions tried
	Faults     [faults]int64
	Missed     int64 // doubles that nobody noticed
	Unnoticed  int64 // misfeeds that nobody noticed
	FalseCalls int64 // good feeds taken for doubles
	Removed    int64 // sets taken out here (gates), or delivered (delivery)
	Pieces     Pieces
	Lost       [faults]int64 // sets started that were not delivered good, still on the line apart, by the fault here that they were lost to
	Remakes    [faults]int64 // those of them, or of their pieces, that must be made again
	Defective  [faults]int64 // those of them that were delivered
	Runs       [faults]int64 // of sets delivered defective, one right after another, by what the first was lost to
	Stops      [Causes]StopTotal
	Stock      sim.Account // refilling, emptying or sweeping, also while the line ran
	Clearing   sim.Account // clearing faults
	Repair     sim.Account // of technicians
}

// Pieces is the second ledger, for one hopper: Loaded is the sum of the others.
type Pieces struct {
	Loaded    int64 // at the start and in every refill
	Good      int64 // in good sets
	Defective int64 // in sets delivered defective
	Diverted  int64
	Outsorted int64
	Spoiled   int64
	OnLine    int64
	Left      int64 // in the hopper at the end
}

// Cause is why a line stands.
type Cause int

// The causes: the faults, in the same order, and what comes besides.
const (
	CauseMisfeed Cause = iota
	CauseDouble
	CauseJam
	CauseEnvelopeMisfeed
	CauseFlap
	CauseInsertionJam
	CauseNoRead
	CauseMismatch
	CauseFalseAlarm
	_ // of a misread the line knows nothing,
	_ // nor of a wrong repair,
	_ // nor of a wrong realigning
	CauseWrongStock
	CauseStreak    // too many misfeeds in a row
	CauseStock     // hopper empty, bin full or belt full
	CauseStarved   // no document was ready, for a channel too slow
	CauseBreakdown // it broke down: a technician has to come
	Causes         = iota
	faults         = int(WrongStock) + 1
)

var causeNames = [Causes]string{
	"misfeed", "double", "jam", "envelope misfeed", "flap", "insertion jam",
	"no-read", "mismatch", "false alarm", "misread", "wrong repair", "wrong realigning", "wrong stock",
	"misfeeds in a row", "", "channel too slow", "breakdown",
}

// StopTotal is how often and how long a line stood for one cause.
type StopTotal struct {
	Count      int64
	Waiting    sim.Seconds // for an operator to arrive
	Working    sim.Seconds // he was at work on it
	Restarting sim.Seconds
	Starved    sim.Seconds // it stood for a channel too slow
}

// Total returns the whole time of the stops.
func (t StopTotal) Total() sim.Seconds { return t.Waiting + t.Working + t.Restarting + t.Starved }

// ForFault reports whether it is a fault at which an operator clears the line: not what is used up or full, a channel
// too slow, or a breakdown, for which a technician has to come.
func (c Cause) ForFault() bool {
	switch c {
	case CauseMisfeed, CauseStreak, CauseDouble, CauseJam, CauseEnvelopeMisfeed, CauseFlap, CauseInsertionJam,
		CauseNoRead, CauseMismatch, CauseFalseAlarm, CauseWrongStock:
		return true
	case CauseStock, CauseStarved, CauseBreakdown:
	}
	return false // nor what the line knows nothing of
}

// Name returns what the cause is called at a station of the line.
func (c Cause) Name(s Station) string {
	if c != CauseStock {
		return causeNames[c]
	}
	return s.Stocked().UsedUp
}

// Stopped returns how long the line stood, all stops of all stations.
func (o *Outcome) Stopped() StopTotal {
	var sum StopTotal
	for i := range o.Stations {
		for _, t := range o.Stations[i].Stops {
			sum.Add(t)
		}
	}
	return sum
}

// Refilling returns how long operators worked on stocks while the line stood for them.
func (o *Outcome) Refilling() sim.Seconds {
	sum := sim.Seconds(0)
	for i := range o.Stations {
		sum += o.Stations[i].Stops[CauseStock].Working
	}
	return sum
}

// Repairing returns how long technicians were at work while the line stood for that.
func (o *Outcome) Repairing() sim.Seconds {
	sum := sim.Seconds(0)
	for i := range o.Stations {
		sum += o.Stations[i].Stops[CauseBreakdown].Working
	}
	return sum
}

// Remakes returns how many remakes there are, to all faults together.
func (o *Outcome) Remakes() int64 {
	n := int64(0)
	for i := range o.Stations {
		for _, k := range o.Stations[i].Remakes {
			n += k
		}
	}
	return n
}

// NetRate returns good envelopes an hour of the shift or, of a job, an hour until it is
// finished.
func (o *Outcome) NetRate() float64 {
	if o.Job.Finish > 0 {
		return float64(o.Sets.Good+o.Job.ByHand) * 3600 / float64(o.Job.Finish)
	}
	return float64(o.Sets.Good) * 3600 / float64(o.Time.Shift)
}

// CrewTotal is what the crew did: its two kinds of task.
type CrewTotal struct {
	Clearing sim.Account // faults
	Stock    sim.Account // refilling, emptying, sweeping
}

// Crew returns what the crew did, all stations together.
func (o *Outcome) Crew() CrewTotal {
	var c CrewTotal
	for i := range o.Stations {
		c.Clearing.Add(o.Stations[i].Clearing)
		c.Stock.Add(o.Stations[i].Stock)
	}
	return c
}

// Add adds another outcome of the same line to this one.
func (o *Outcome) Add(b *Outcome) {
	if o.Stations == nil {
		o.Stations = make([]StationOutcome, len(b.Stations))
	}
	o.Cycles += b.Cycles
	o.Sets.Add(b.Sets)
	o.LongestRun = max(o.LongestRun, b.LongestRun)
	o.LeftOver.Work += b.LeftOver.Work
	o.LeftOver.Restart += b.LeftOver.Restart
	o.Time.Shift += b.Time.Shift
	o.Time.Running += b.Time.Running
	o.Time.Slow.Add(b.Time.Slow)
	o.Time.Breaks += b.Time.Breaks
	o.Job.Add(b.Job)
	for i := range o.Stations {
		o.Stations[i].add(&b.Stations[i])
	}
}

// Add adds what another replication needed for the same job.
func (j *JobOutcome) Add(b JobOutcome) {
	j.Passes += b.Passes
	j.ByHand += b.ByHand
	j.Setup += b.Setup
	j.Hand += b.Hand
	j.Finish += b.Finish
}

// Add adds the sets of another replication, fate by fate.
func (s *Sets) Add(b Sets) {
	s.Started += b.Started
	s.Good += b.Good
	s.Defective += b.Defective
	s.Diverted += b.Diverted
	s.Outsorted += b.Outsorted
	s.Spoiled += b.Spoiled
	s.OnLine += b.OnLine
}

func (o *StationOutcome) add(b *StationOutcome) {
	o.Name = b.Name
	o.Attempts += b.Attempts
	for i := range o.Faults {
		o.Faults[i] += b.Faults[i]
	}
	o.Missed += b.Missed
	o.Unnoticed += b.Unnoticed
	for i := range o.Lost {
		o.Lost[i] += b.Lost[i]
		o.Remakes[i] += b.Remakes[i]
		o.Defective[i] += b.Defective[i]
		o.Runs[i] += b.Runs[i]
	}
	o.FalseCalls += b.FalseCalls
	o.Removed += b.Removed
	o.Pieces.add(b.Pieces)
	for i := range o.Stops {
		o.Stops[i].Add(b.Stops[i])
	}
	o.Stock.Add(b.Stock)
	o.Clearing.Add(b.Clearing)
	o.Repair.Add(b.Repair)
}

func (p *Pieces) add(b Pieces) {
	p.Loaded += b.Loaded
	p.Good += b.Good
	p.Defective += b.Defective
	p.Diverted += b.Diverted
	p.Outsorted += b.Outsorted
	p.Spoiled += b.Spoiled
	p.OnLine += b.OnLine
	p.Left += b.Left
}

// Add adds other stops to these.
func (t *StopTotal) Add(b StopTotal) {
	t.Count += b.Count
	t.Waiting += b.Waiting
	t.Working += b.Working
	t.Restarting += b.Restarting
	t.Starved += b.Starved
}
