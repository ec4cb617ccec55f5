package main

import (
	"netrate/model"
	"netrate/sim"
)

// The parts of the document that go station by station. The figures are means a shift.

type handJSON struct {
	Speed      number         `json:"speed"` // cycles an hour
	Efficiency number         `json:"efficiency"`
	Good       number         `json:"good"`
	NetRate    number         `json:"net_rate"`
	Stations   []handTermJSON `json:"stations"`
}

type handTermJSON struct {
	Name  string `json:"name"`
	Reach number `json:"reach"`
	Stops number `json:"stops"` // in each set it handles
	Down  number `json:"down_s"`
	Lost  number `json:"lost"`
}

type stationJSON struct {
	Name       string              `json:"name"`
	Kind       string              `json:"kind"`
	Attempts   number              `json:"attempts"`
	Faults     map[string]number   `json:"faults,omitempty"`
	Missed     number              `json:"missed"`
	FalseCalls number              `json:"false_calls"`
	Removed    number              `json:"removed"`
	Pieces     *piecesJSON         `json:"pieces,omitempty"`
	Stops      map[string]stopJSON `json:"stops"` // by cause, those that arose
	Stock      accountJSON         `json:"stock"`
	Clearing   accountJSON         `json:"clearing"`
}

type piecesJSON struct {
	Loaded    number `json:"loaded"`
	Good      number `json:"good"`
	Defective number `json:"defective"`
	Diverted  number `json:"diverted"`
	Outsorted number `json:"outsorted"`
	Spoiled   number `json:"spoiled"`
	OnLine    number `json:"on_line"`
	Left      number `json:"left"`
}

type stopJSON struct {
	Count      number `json:"count"`
	Waiting    number `json:"waiting_s"`
	Working    number `json:"working_s"`
	Restarting number `json:"restarting_s"`
}

type accountJSON struct {
	Calls   number `json:"calls"`
	Waiting number `json:"waiting_s"`
	Walking number `json:"walking_s"`
	Working number `json:"working_s"`
}

type crewJSON struct {
	Operators int         `json:"operators"`
	Busy      mean        `json:"busy_s"` // operator seconds
	Clearing  accountJSON `json:"clearing"`
	Stock     accountJSON `json:"stock"`
}

// shifts is the divisor that makes a sum a mean.
type shifts float64

func (n shifts) of(total int64) number { return number(float64(total) / float64(n)) }

func (n shifts) time(total sim.Seconds) number { return number(float64(total) / float64(n)) }

func (n shifts) account(a sim.Account) accountJSON {
	return accountJSON{n.of(a.Calls), n.time(a.Waiting), n.time(a.Walking), n.time(a.Working)}
}

func handOf(l *model.Line) handJSON {
	h := l.Hand()
	doc := handJSON{Speed: number(h.Speed), Efficiency: number(h.Efficiency), Good: number(h.Good), NetRate: number(h.NetRate)}
	for _, t := range h.Terms {
		doc.Stations = append(doc.Stations, handTermJSON{t.Station, number(t.Reach), number(t.Stops), number(t.Down), number(t.Lost)})
	}
	return doc
}

func crewOf(s *model.Study) crewJSON {
	n, crew := shifts(len(s.Shifts)), s.Total.Crew()
	busy := s.Sample(func(s *model.Shift) float64 { return s.CrewBusy }).Interval(level)
	return crewJSON{s.Line.Crew.Operators, mean{number(busy.Mean), number(busy.Half)}, n.account(crew.Clearing), n.account(crew.Stock)}
}

func stationOf(s *model.Study, i int) stationJSON {
	n, spec, o := shifts(len(s.Shifts)), s.Line.Stations[i], &s.Total.Stations[i]
	kind, faults, hopper := kindOf(spec)
	doc := stationJSON{
		Name: o.Name, Kind: kind, Attempts: n.of(o.Attempts),
		Missed: n.of(o.Missed), FalseCalls: n.of(o.FalseCalls), Removed: n.of(o.Removed),
		Stops: map[string]stopJSON{}, Stock: n.account(o.Stock), Clearing: n.account(o.Clearing),
	}
	if hopper {
		p := o.Pieces
		doc.Pieces = &piecesJSON{
			n.of(p.Loaded), n.of(p.Good), n.of(p.Defective), n.of(p.Diverted),
			n.of(p.Outsorted), n.of(p.Spoiled), n.of(p.OnLine), n.of(p.Left),
		}
	}
	for _, f := range faults {
		if doc.Faults == nil {
			doc.Faults = map[string]number{}
		}
		doc.Faults[key(f.String())] = n.of(o.Faults[f])
	}
	for c, t := range o.Stops {
		if t.Count > 0 {
			doc.Stops[key(model.Cause(c).Name(spec))] = stopJSON{n.of(t.Count), n.time(t.Waiting), n.time(t.Working), n.time(t.Restarting)}
		}
	}
	return doc
}

// kindOf returns what a station is called, the faults it can have, and whether it has a
// hopper.
func kindOf(s model.Station) (kind string, faults []model.Fault, hopper bool) {
	switch s.(type) {
	case *model.Feeder:
		return "feeder", []model.Fault{model.Misfeed, model.Double, model.Jam}, true
	case *model.TrackGate:
		return "track gate", nil, false
	case *model.Inserter:
		return "inserter", []model.Fault{model.EnvelopeMisfeed, model.Flap, model.InsertionJam}, true
	case *model.ExitGate:
		return "exit gate", nil, false
	case *model.Delivery:
		return "delivery", nil, false
	}
	panic("netrate: a station of an unknown kind")
}
