package model

import "netrate/sim"

// Event is one thing that happened on a line: plain numbers, of which each kind uses the
// few that stand beside it. What is not used is zero.
type Event struct {
	Kind     EventKind
	Station  int         // where, as in Line.Stations
	At       sim.Seconds // by the shop clock; when it is reported, where Cycle says when it happened
	Cycle    sim.Cycles  // the last cycle completed when it happened
	Set      sim.Cycles  // number of the set
	Fault    Fault
	Cause    Cause
	Fate     Fate
	Phase    Phase
	Blamed   int  // the station whose Fault it was; -1 for none
	Gate     int  // the station at which the set will leave
	Seen     bool // by the station itself
	Task     int  // number of the task of the crew, among those of the line
	Work     Work
	Operator int         // his number, where operators are stated one by one; -1 where they are not
	N        int64       // sets or pieces
	Ahead    int64       // the pieces are for this many sets later than the one they are in; below 0 for earlier
	Holds    uint64      // the stations of which the set holds pieces, a bit each
	Until    sim.Seconds // by the shop clock
	Length   sim.Seconds // of a cycle
	Arrives  sim.Seconds // of an operator, by the shop clock
}

// EventKind is what an event tells of, and says what numbers the event holds beside the
// time.
type EventKind int

// The kinds. Good sets, and good feeds, are not told of: what is left over is good.
const (
	// PassBegins comes first, with an empty track and full stocks, of a shift and of each
	// pass of a job. The clocks are at zero. N is the number of the last set, 0 for a shift; Until is
	// for how long the line was set up before it, for remakes. A StockLevel follows for each
	// stock that is not full.
	PassBegins EventKind = iota

	// LineStarts and LineHalts are when the line begins to run, and when it stops. While it
	// runs, cycle c + n is completed n cycle lengths after the start at cycle c.
	LineStarts
	LineHalts

	// StopArises and StopEnds are one reason to stand: Station, Cause. Several may be open.
	StopArises
	StopEnds

	// Stood is a stretch for which the line stood, told when it is over: Station and Cause
	// of the stop whose time it is, Phase, from At until Until.
	Stood

	// FaultOccurs is a fault: Station, Set, Fault, and whether the station has Seen it.
	FaultOccurs

	// FalselyCalled is a good feed taken for a double: Station, Set.
	FalselyCalled

	// SetCondemned sends a set to a Gate, for what was found at Station. It will be lost to
	// the Fault at Blamed.
	SetCondemned

	// SetLeaves is the end of a set that is not delivered good: Station, Set, Fate, the Fault
	// at Blamed that it is lost to, N remakes, and the stations of which it Holds pieces: one
	// of its own each, but for what is reported next. What left at a gate or at the delivery may
	// be reported late, but Cycle is when it left. Of the sets still on the line when the pass
	// ends, Station is the last they have come to and Blamed is -1.
	SetLeaves

	// SetHeld follows SetLeaves for each Station of which the set holds anything else: N
	// pieces, the first of them a number of sets Ahead. Of a document channel it says that there
	// are sheets of another document in it; Ahead is then in sheets.
	SetHeld

	// PieceTaken is the piece of a Set that had left, taken out of a lane at Station when
	// its pocket came by; N remakes are due to it. Fate, Fault and Blamed are the set's.
	PieceTaken

	// PiecesDiscarded are N pieces that an operator took out of a hopper, to be thrown away.
	PiecesDiscarded

	// StockLevel is what is left in a stock at the end of Cycle: N pieces or places. It is
	// told when the engine looks, which is when the stock can first have fallen to its
	// warning or to nothing, after each filling, and at the end.
	StockLevel

	// StockFilled is N pieces or places more in a stock.
	StockFilled

	// TaskCalled is a task for which an operator is wanted: Station, Task, Work.
	TaskCalled

	// TaskTaken is an operator setting off for it: he Arrives, and works Until.
	TaskTaken

	// TaskHelped is a second operator setting off to help with a task that somebody has set off
	// for: he Arrives, and from when both are there the rest of the work takes less.
	TaskHelped

	// TaskDone is a task finished.
	TaskDone

	// CrewIs is how many operators are to be there from now on, of a crew that changes: N.
	// Those who are to go and are at work finish first.
	CrewIs

	// StoodForBreak is a stretch for which the line stood for a break, from At until Until.
	StoodForBreak

	// CycleTakes is how long a cycle takes from now on, its Length, on a line that has slow ones:
	// before each start, and where the line turns to another speed as it runs.
	CycleTakes

	// PassEnds comes last. N is the number of sets started.
	PassEnds
)

var eventNames = [...]string{
	"pass begins", "line starts", "line halts", "stop arises", "stop ends", "stood", "fault occurs",
	"falsely called", "set condemned", "set leaves", "set held", "piece taken", "pieces discarded",
	"stock level", "stock filled", "task called", "task taken", "task helped", "task done", "crew is", "stood for break", "cycle takes", "pass ends",
}

func (k EventKind) String() string { return eventNames[k] }

// Observer hears of all that happens in a replication, event by event, in the order in
// which the engine comes to know of it. It must not run the Sim.
type Observer func(Event)

// Observe has the observer told of all replications to come; nil is for nobody. The outcome
// is the same to the last bit whether anybody observes or not, and where nobody does, it
// costs next to nothing.
//
// Of a line whose track begins as it was left, what is told begins at the handover, from when
// shop times count. Nothing is told then of what goes on from before: sets on the track, stops
// that are open, tasks. Cycles and sets are numbered from the start of what came before.
func (s *Sim) Observe(o Observer) {
	s.observer = o
	s.watchTasks()
}

// Ended returns the outcome of the shift, or of the pass of a job, that has ended last. It is for
// an observer who hears that it ends: the next one overwrites it.
func (s *Sim) Ended() *Outcome { return s.out }
