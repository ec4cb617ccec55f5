package main

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// The parts of the document that go station by station. The figures are means a shift.

type handJSON struct {
	Speed      number         `json:"speed"` // cycles an hour
	Efficiency number         `json:"efficiency"`
	Good       number         `json:"good"`
	NetRate    number         `json:"net_rate"`
	Defective  number         `json:"defective"` // share of the sets delivered
	Remakes    number         `json:"remakes"`   // for each set
	Stations   []handTermJSON `json:"stations"`
}

type handTermJSON struct {
	Name  string `json:"name"`
	Reach number `json:"reach"`
	Stops number `json:"stops"` // in each set it handles
	Down  number `json:"down_s"`
	Lost  number `json:"lost"`
	// Defective for each set it handles, remakes, and seconds in each cycle without a document.
	Flawed  number `json:"flawed"`
	Remakes number `json:"remakes"`
	Starved number `json:"starved_s"`
}

type stationJSON struct {
	Name       string              `json:"name"`
	Kind       string              `json:"kind"`
	Attempts   number              `json:"attempts"`
	Faults     map[string]number   `json:"faults,omitempty"`
	Missed     number              `json:"missed"`
	Unnoticed  number              `json:"unnoticed"`
	FalseCalls number              `json:"false_calls"`
	Removed    number              `json:"removed"`
	Lost       map[string]number   `json:"lost,omitempty"`    // sets not delivered good, by the fault here that they were lost to
	Remakes    map[string]number   `json:"remakes,omitempty"` // those to be made again
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
	Starved    number `json:"starved_s,omitempty"`
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
	doc := handJSON{
		Speed: number(h.Speed), Efficiency: number(h.Efficiency), Good: number(h.Good), NetRate: number(h.NetRate),
		Defective: number(h.Defective), Remakes: number(h.Remakes),
	}
	for _, t := range h.Terms {
		doc.Stations = append(doc.Stations, handTermJSON{
			t.Station, number(t.Reach), number(t.Stops), number(t.Down), number(t.Lost),
			number(t.Flawed), number(t.Remakes), number(t.Starved),
		})
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
		Name: o.Name, Kind: kind, Attempts: n.of(o.Attempts), Faults: n.byFault(faults, o.Faults[:]),
		Missed: n.of(o.Missed), Unnoticed: n.of(o.Unnoticed), FalseCalls: n.of(o.FalseCalls), Removed: n.of(o.Removed),
		Lost: n.arisen(faults, o.Lost[:]), Remakes: n.arisen(faults, o.Remakes[:]),
		Stops: map[string]stopJSON{}, Stock: n.account(o.Stock), Clearing: n.account(o.Clearing),
	}
	if hopper {
		p := o.Pieces
		doc.Pieces = &piecesJSON{
			n.of(p.Loaded), n.of(p.Good), n.of(p.Defective), n.of(p.Diverted),
			n.of(p.Outsorted), n.of(p.Spoiled), n.of(p.OnLine), n.of(p.Left),
		}
	}
	for c, t := range o.Stops {
		if t.Count > 0 {
			doc.Stops[key(model.Cause(c).Name(spec))] = stopJSON{
				n.of(t.Count), n.time(t.Waiting), n.time(t.Working), n.time(t.Restarting), n.time(t.Starved),
			}
		}
	}
	return doc
}

// byFault returns the means of the given faults.
func (n shifts) byFault(faults []model.Fault, totals []int64) map[string]number {
	means := map[string]number{}
	for _, f := range faults {
		means[key(f.String())] = n.of(totals[f])
	}
	return means
}

// arisen returns the means of those of the given faults that came to something.
func (n shifts) arisen(faults []model.Fault, totals []int64) map[string]number {
	return n.byFault(slices.DeleteFunc(slices.Clone(faults), func(f model.Fault) bool { return totals[f] == 0 }), totals)
}
