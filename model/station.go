package model

import "netrate/sim"

// Station is one machine along the track, as it is specified. The kinds of this package are
// [Feeder], [Channel], [Reader], [Device], [TrackGate], [Inserter], [ExitGate] and [Delivery], a file
// each; a kind may as well stand in another package, and needs nothing but what is exported
// here. Whatever anybody asks about a station is a method of it, so that a kind which has
// no answer does not compile.
//
// A run never changes a station. A kind is a pointer to a struct that embeds [Place].
type Station interface {
	// Where returns the name, the pitch and the rated speed: [Place] does.
	Where() *Place
	// Downtime returns where its breakdowns are kept: [Place] does.
	Downtime() *Breakdowns
	// Kind says what the station is and what it is called.
	Kind() Kind
	// Clone returns a copy that shares nothing with the station that can be changed.
	Clone() Station
	// Check notes what is wrong with the station, by itself and where it stands in its line.
	Check(l *Line, c *Checks)
	// Parameters lists the numbers of the station that can be moved or be uncertain.
	Parameters(all *Parameters)

	answering
	holding
	running
}

// answering is what a divert strategy and its search ask of a station.
type answering interface {
	// Faults returns the faults that it can have in the line and that a strategy can answer,
	// in the order of their values.
	Faults(l *Line) []Fault
	// Counts returns all faults that its outcome counts, in the order of their values, but for
	// [Errors].
	Counts() []Fault
	// Answer returns where it keeps its response to a fault; nil where it can only stop.
	Answer(f Fault) *Response
	// Refusal returns why it cannot answer a fault with a response, as a sentence without a
	// full stop; "" if it can. It stands at place i of the line, and r is not Stop. What
	// follows from where it stands, [Line.NoWay] says.
	Refusal(l *Line, i int, f Fault, r Response) string
	// Leaks returns the faults that go on in it as if nothing had happened: those that
	// nobody notices, and those that are shipped. Where there are none, nothing defective is
	// delivered on its account.
	Leaks(l *Line) []Leak
	// Handles reports whether it does its work on a set that is condemned to leave by a
	// response, Divert or Outsort, at a gate further on.
	Handles(r Response) bool
	// Estimate returns its term of the analytic estimate, but for its reach, its name and, of
	// a line with personalised pieces, one remake for each set that is lost or flawed.
	Estimate(l *Line) AnalyticTerm
}

// holding is what is asked about what a station holds and feeds.
type holding interface {
	// Stocked returns its stock, and what that is called.
	Stocked() Stocked
	// Piece says what a piece of it costs.
	Piece() Piece
	// Carries returns where the stream is kept that its pieces are; nil for a kind whose pieces
	// are never personalised. Only kinds of this package can carry a stream.
	Carries() *Stream
	// Usual returns what is taken for it where nobody says otherwise.
	Usual() []Usual
	// Setting returns what of it is set, or asked, for each job.
	Setting() Setting
}

// running is how a station becomes part of a running line.
type running interface {
	// Install returns the station in use, in the given seat. Everything that it needs is made
	// here: a replication allocates nothing.
	Install(seat *Seat) Unit
}

// Unit is a station in use. A [Seat] is one, so that a station which embeds its seat has
// nothing to do but what happens in between.
type Unit interface {
	// Begin puts the station at the start of a replication.
	Begin()
	// End notes what happened at it by the end of the last cycle. The name, the stops and what was
	// counted when it happened are in the outcome already, and stay.
	End(cycle sim.Cycles, out *StationOutcome)
}

// Kind is what a station is.
type Kind struct {
	Name   string // as in a scenario file: "track gate"
	Group  string // what a strategy calls it together with others that answer alike; "" for Name
	Plural string // of the group; "" for an s more
	Role   Role
	Beside bool // it may stand at the pitch of the station before it
}

// Alike returns what a strategy calls one station of the kind.
func (k Kind) Alike() string {
	if k.Group != "" {
		return k.Group
	}
	return k.Name
}

// Several returns what a strategy calls stations of the kind.
func (k Kind) Several() string {
	if k.Plural != "" {
		return k.Plural
	}
	return k.Alike() + "s"
}

// Role is what a station does to the order of a line: which others it must stand before or
// after, and what becomes of the sets there.
type Role int

// The roles. Of some a line has one station: [Line.Check] says so.
const (
	Works     Role = iota // on the sets that pass, as feeders and readers do
	Reads                 // the pieces of a stream
	Gathers               // documents, by the shop clock, so that the line can starve
	Envelopes             // feeds the personalised envelopes of the sets
	Diverts               // takes condemned sets off the track, before insertion
	Inserts               // puts sets into their envelopes
	Outsorts              // takes condemned sets out in their envelopes
	Delivers              // takes the finished envelopes: the last station
)

// Faultless is what a station answers that has no fault, feeds no piece and is not set for a
// job: a gate or a delivery.
type Faultless struct{}

// Faults returns none.
func (Faultless) Faults(*Line) []Fault { return nil }

// Counts returns none.
func (Faultless) Counts() []Fault { return nil }

// Answer says that there is nothing to answer.
func (Faultless) Answer(Fault) *Response { return nil }

// Refusal refuses nothing, as there is nothing to answer.
func (Faultless) Refusal(*Line, int, Fault, Response) string { return "" }

// Leaks returns none.
func (Faultless) Leaks(*Line) []Leak { return nil }

// Estimate is nothing.
func (Faultless) Estimate(*Line) AnalyticTerm { return AnalyticTerm{} }

// Piece says that it feeds none.
func (Faultless) Piece() Piece { return Piece{} }

// Carries says that it carries no stream.
func (Faultless) Carries() *Stream { return nil }

// Usual returns none.
func (Faultless) Usual() []Usual { return nil }

// Setting returns nothing to be set.
func (Faultless) Setting() Setting { return Setting{} }

// Leak is a fault that goes on as if nothing had happened.
type Leak struct {
	Fault   Fault
	Shipped bool    // it was noticed, and the answer is to ship it
	Rate    float64 // of each attempt, in the mean; above 0

	as Fault // what the set looks like that was put right wrongly: a misfeed or a double
}

// Leaking returns the leaks of a fault, given how many go unnoticed for each attempt and how
// many are noticed and answered with a response; none of what is 0.
func Leaking(f Fault, unnoticed, noticed float64, r Response) []Leak {
	var all []Leak
	if unnoticed > 0 {
		all = append(all, Leak{Fault: f, Rate: unnoticed})
	}
	if noticed > 0 && r == Ship {
		all = append(all, Leak{Fault: f, Shipped: true, Rate: noticed})
	}
	return all
}

// Stocked is a station's stock.
type Stocked struct {
	*Stock        // nil for a station without one
	UsedUp string // what it is called when nothing is left: "hopper empty", "bin full"
	Pieces bool   // it holds pieces that go into sets, which the second ledger accounts for
}

// Piece is what a station's pieces cost.
type Piece struct {
	Fed   bool   // there are pieces, which may have a price of their own
	Price string // the price in [Costs] that they have otherwise: "insert", "envelope"; "" for none
}

// Usual is a number of a station that has a usual value.
type Usual struct {
	Name  string // in the words of a scenario file
	Value float64
	Share bool // it is a share or a probability
}

// is reports whether station i has the role.
func (l *Line) is(i int, r Role) bool { return l.Stations[i].Kind().Role == r }

// First returns the first station of a role, or -1.
func (l *Line) First(r Role) int { return l.next(0, r) }

// next returns the first station of a role from station i on, or -1.
func (l *Line) next(i int, r Role) int {
	for ; i < len(l.Stations); i++ {
		if l.is(i, r) {
			return i
		}
	}
	return -1
}

// CanLeak reports whether the line, which must have passed Check, can deliver a set that is not as it should be, but for two
// faults that come together.
func (l *Line) CanLeak() bool {
	for _, s := range l.Stations {
		if len(s.Leaks(l)) > 0 {
			return true
		}
	}
	return false
}
