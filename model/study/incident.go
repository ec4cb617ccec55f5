package study

import (
	"fmt"
	"slices"

	"netrate/model"
)

// Incident asks what one misfeed of a stream leads to, cycle by cycle, if it is seen and
// nothing else goes wrong.
type Incident struct {
	Line *model.Line // which passes its Check
}

// IncidentAnswer is how an incident goes at the stations from the fault to the last gate.
type IncidentAnswer struct {
	Station string          `json:"station"` // with the misfeed
	Lost    int64           `json:"lost"`    // sets that are not delivered good
	Stops   int64           `json:"stops"`
	Ended   bool            `json:"ended"` // everything is in order again
	Places  []IncidentPlace `json:"places"`
	Cycles  []IncidentCycle `json:"cycles"` // from that of the fault on
}

// IncidentPlace is the stations at one pitch.
type IncidentPlace struct {
	Stations []string `json:"stations"`

	first int // of them, its number in the line
}

// IncidentCycle is how the track stands when a cycle is completed.
type IncidentCycle struct {
	Cycle   int64            `json:"cycle"`   // after the fault
	Pockets []IncidentPocket `json:"pockets"` // at each place
	Events  []IncidentEvent  `json:"events,omitempty"`
}

// IncidentEvent is something that happens in a cycle.
type IncidentEvent struct {
	What    IncidentWhat `json:"what"`
	Station string       `json:"station"`
	Set     int64        `json:"set,omitempty"`   // not of an alarm and of a stop
	Fault   string       `json:"fault,omitempty"` // of a failure
	Cause   string       `json:"cause,omitempty"` // of a stop
}

// IncidentWhat is what happens.
type IncidentWhat string

// What can happen.
const (
	IncidentFails     IncidentWhat = "fails"     // the station, at a set
	IncidentTakenOff  IncidentWhat = "taken off" // a set, by hand
	IncidentLeft      IncidentWhat = "left"      // a set, at a gate
	IncidentDelivered IncidentWhat = "delivered" // a set that is wrong
	IncidentMismatch  IncidentWhat = "mismatch"  // a reader sees one
	IncidentStops     IncidentWhat = "stops"     // the line, for the station
)

// IncidentPocket is the pocket at a place.
type IncidentPocket struct {
	Set   int64             `json:"set"` // the faulty one is 1; less were before it
	State IncidentState     `json:"state"`
	Holds []IncidentHolding `json:"holds,omitempty"` // what is unusual in it
}

// IncidentHolding is what a set holds of a stream that is not as it should be.
type IncidentHolding struct {
	Stream string  `json:"stream"`
	Sheets bool    `json:"sheets_of_another_set,omitempty"`
	Pieces []int64 `json:"pieces"` // the sets that they are for; null for none, and of sheets
}

// IncidentState is how the set in a pocket is.
type IncidentState string

// The states.
const (
	IncidentGood    IncidentState = "good"
	IncidentFaulty  IncidentState = "faulty"   // it has the fault, or is wrong on account of it
	IncidentCatchUp IncidentState = "catch-up" // it is condemned, to put the stream in step again
	IncidentLeaves  IncidentState = "leaves"   // here, in this cycle
	IncidentEmpty   IncidentState = "empty"    // it has left
)

// IncidentLane returns the station whose incident tells most: the first feeder that carries a
// stream which is matched to another, or else the document channel; -1 if no stream of the line
// can come out of step.
func IncidentLane(l *model.Line) int {
	lanes, channel := []int(nil), -1
	for i, s := range l.Stations {
		switch stream := s.Carries(); {
		case stream == nil || stream.Name == "":
		case s.Kind().Role == model.Gathers:
			channel = i
		default:
			lanes = append(lanes, i)
		}
	}
	if len(lanes) > 0 && (len(lanes) > 1 || channel >= 0) {
		return lanes[0]
	}
	return channel
}

// Ask follows the incident until everything is in order again, or for some 40 cycles. It is an
// error if no stream of the line can come out of step.
func (q Incident) Ask() (*IncidentAnswer, error) {
	if q.Line == nil {
		return nil, errNoLine
	}
	lane := IncidentLane(q.Line)
	if lane < 0 {
		return nil, fmt.Errorf("no stream of %s can come out of step", q.Line.Name)
	}
	in, err := q.Line.Incident(lane, model.Misfeed, true)
	if err != nil {
		return nil, err
	}
	a := &IncidentAnswer{
		Station: in.Stations[lane], Lost: in.Lost, Stops: in.Stops, Ended: in.Ended,
		Places: incidentPlaces(q.Line, lane),
	}
	for i := range in.Rows {
		row := &in.Rows[i]
		if row.Cycle < 0 {
			continue
		}
		cycle := IncidentCycle{Cycle: row.Cycle}
		for _, e := range row.Events {
			cycle.Events = append(cycle.Events, incidentEvent(q.Line.Stations[e.Station], e))
		}
		for _, p := range a.Places {
			cycle.Pockets = append(cycle.Pockets, incidentPocket(row, p.first))
		}
		a.Cycles = append(a.Cycles, cycle)
	}
	return a, nil
}

// incidentPlaces returns the places from a station to the last gate.
func incidentPlaces(l *model.Line, from int) []IncidentPlace {
	var places []IncidentPlace
	last := from
	for i := from; i < len(l.Stations); i++ {
		if role := l.Stations[i].Kind().Role; role == model.Diverts || role == model.Outsorts {
			last = i
		}
	}
	for i := from; i <= last; i++ {
		at := l.Stations[i].Where()
		if k := len(places) - 1; k >= 0 && l.Stations[places[k].first].Where().At == at.At {
			places[k].Stations = append(places[k].Stations, at.Name)
			continue
		}
		places = append(places, IncidentPlace{[]string{at.Name}, i})
	}
	return places
}

// incidentPocket returns the pocket that a station has handled in a cycle.
func incidentPocket(row *model.IncidentRow, station int) IncidentPocket {
	c := &row.Cells[station]
	p := IncidentPocket{Set: c.Set, State: IncidentGood}
	for _, h := range c.Holds {
		holding := IncidentHolding{Stream: h.Stream, Sheets: h.Sheets}
		for k := range h.Pieces {
			holding.Pieces = append(holding.Pieces, h.First+int64(k))
		}
		p.Holds = append(p.Holds, holding)
	}
	switch {
	case slices.Contains(row.Events, model.IncidentEvent{What: model.Left, Station: station, Set: c.Set}):
		p.State = IncidentLeaves
	case c.State == model.Empty:
		p.State = IncidentEmpty
	case c.State == model.Condemned && c.Set > 1:
		p.State = IncidentCatchUp
	case c.State == model.Condemned || c.State == model.Wrong:
		p.State = IncidentFaulty
	}
	return p
}

// incidentEvent returns an event at a station with its names.
func incidentEvent(s model.Station, e model.IncidentEvent) IncidentEvent {
	event := IncidentEvent{Station: s.Where().Name, Set: e.Set}
	switch e.What {
	case model.Failed:
		event.What, event.Fault = IncidentFails, e.Fault.String()
	case model.TakenOff:
		event.What = IncidentTakenOff
	case model.Left:
		event.What = IncidentLeft
	case model.DeliveredWrong:
		event.What = IncidentDelivered
	case model.SawMismatch:
		event.What = IncidentMismatch
	case model.Stopped:
		event.What, event.Cause = IncidentStops, e.Cause.Name(s)
	}
	return event
}
