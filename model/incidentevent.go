package model

// IncidentEvent is something that happens in a cycle of an incident.
type IncidentEvent struct {
	What    IncidentWhat
	Station int   // where, as in the line
	Set     int64 // which, the faulty one being 1; 0 of an alarm and of a stop
	Fault   Fault // of Failed
	Cause   Cause // of Stopped
}

// IncidentWhat is what happens.
type IncidentWhat int

// What can happen.
const (
	Failed         IncidentWhat = iota // the station, at a set
	TakenOff                           // a set, by hand
	Left                               // a set, at a gate
	DeliveredWrong                     // a set
	SawMismatch                        // a reader
	Stopped                            // the line, for the station
)
