package lines

import (
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// The parts of the document that go station by station. The figures are means a shift.

type handJSON struct {
	Speed      page.Number    `json:"speed"` // cycles an hour
	Efficiency page.Number    `json:"efficiency"`
	Good       page.Number    `json:"good"`
	NetRate    page.Number    `json:"net_rate"`
	Defective  page.Number    `json:"defective"` // share of the sets delivered
	Remakes    page.Number    `json:"remakes"`   // for each set
	Stations   []handTermJSON `json:"stations"`
}

type handTermJSON struct {
	Name  string      `json:"name"`
	Reach page.Number `json:"reach"`
	Stops page.Number `json:"stops"` // in each set it handles
	Down  page.Number `json:"down_s"`
	Lost  page.Number `json:"lost"`
	// Defective for each set it handles, remakes, and seconds in each cycle without a document.
	Flawed  page.Number `json:"flawed"`
	Remakes page.Number `json:"remakes"`
	Starved page.Number `json:"starved_s"`
}

type stationJSON struct {
	Name       string                 `json:"name"`
	Kind       string                 `json:"kind"`
	Attempts   page.Number            `json:"attempts"`
	Faults     map[string]page.Number `json:"faults,omitempty"`
	Missed     page.Number            `json:"missed"`
	Unnoticed  page.Number            `json:"unnoticed"`
	FalseCalls page.Number            `json:"false_calls"`
	Removed    page.Number            `json:"removed"`
	Lost       map[string]page.Number `json:"lost,omitempty"`    // sets not delivered good, by the fault here that they were lost to
	Remakes    map[string]page.Number `json:"remakes,omitempty"` // those to be made again
	Pieces     *piecesJSON            `json:"pieces,omitempty"`
	Stops      map[string]stopJSON    `json:"stops"` // by cause, those that arose
	Stock      accountJSON            `json:"stock"`
	Clearing   accountJSON            `json:"clearing"`
}

type piecesJSON struct {
	Loaded    page.Number `json:"loaded"`
	Good      page.Number `json:"good"`
	Defective page.Number `json:"defective"`
	Diverted  page.Number `json:"diverted"`
	Outsorted page.Number `json:"outsorted"`
	Spoiled   page.Number `json:"spoiled"`
	OnLine    page.Number `json:"on_line"`
	Left      page.Number `json:"left"`
}

type stopJSON struct {
	Count      page.Number `json:"count"`
	Waiting    page.Number `json:"waiting_s"`
	Working    page.Number `json:"working_s"`
	Restarting page.Number `json:"restarting_s"`
	Starved    page.Number `json:"starved_s,omitempty"`
}

type accountJSON struct {
	Calls   page.Number `json:"calls"`
	Waiting page.Number `json:"waiting_s"`
	Walking page.Number `json:"walking_s"`
	Working page.Number `json:"working_s"`
}

type crewJSON struct {
	Operators int           `json:"operators"`
	Busy      page.MeanJSON `json:"busy_s"` // operator seconds
	Clearing  accountJSON   `json:"clearing"`
	Stock     accountJSON   `json:"stock"`
}

// shifts is the divisor that makes a sum a mean.
type shifts float64

func (n shifts) of(total int64) page.Number { return page.Number(float64(total) / float64(n)) }

func (n shifts) time(total sim.Seconds) page.Number { return page.Number(float64(total) / float64(n)) }

func (n shifts) account(a sim.Account) accountJSON {
	return accountJSON{n.of(a.Calls), n.time(a.Waiting), n.time(a.Walking), n.time(a.Working)}
}

func handOf(l *model.Line) handJSON {
	h := l.Hand()
	doc := handJSON{
		Speed: page.Number(h.Speed), Efficiency: page.Number(h.Efficiency), Good: page.Number(h.Good), NetRate: page.Number(h.NetRate),
		Defective: page.Number(h.Defective), Remakes: page.Number(h.Remakes),
	}
	for _, t := range h.Terms {
		doc.Stations = append(doc.Stations, handTermJSON{
			t.Station, page.Number(t.Reach), page.Number(t.Stops), page.Number(t.Down), page.Number(t.Lost),
			page.Number(t.Flawed), page.Number(t.Remakes), page.Number(t.Starved),
		})
	}
	return doc
}

func crewOf(s *model.Study) crewJSON {
	n, crew := shifts(len(s.Shifts)), s.Total.Crew()
	busy := s.Sample(func(s *model.Shift) float64 { return s.CrewBusy }).Interval(say.Level)
	return crewJSON{s.Line.Crew.Operators, page.MeanOf(busy), n.account(crew.Clearing), n.account(crew.Stock)}
}

func stationOf(s *model.Study, i int) stationJSON {
	n, spec, o := shifts(len(s.Shifts)), s.Line.Stations[i], &s.Total.Stations[i]
	faults := spec.Counts()
	doc := stationJSON{
		Name: o.Name, Kind: spec.Kind().Name, Attempts: n.of(o.Attempts), Faults: n.byFault(faults, o.Faults[:]),
		Missed: n.of(o.Missed), Unnoticed: n.of(o.Unnoticed), FalseCalls: n.of(o.FalseCalls), Removed: n.of(o.Removed),
		Lost: n.arisen(faults, o.Lost[:]), Remakes: n.arisen(faults, o.Remakes[:]),
		Stops: map[string]stopJSON{}, Stock: n.account(o.Stock), Clearing: n.account(o.Clearing),
	}
	if spec.Stocked().Pieces {
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
func (n shifts) byFault(faults []model.Fault, totals []int64) map[string]page.Number {
	means := map[string]page.Number{}
	for _, f := range faults {
		means[key(f.String())] = n.of(totals[f])
	}
	return means
}

// arisen returns the means of those of the given faults that came to something.
func (n shifts) arisen(faults []model.Fault, totals []int64) map[string]page.Number {
	return n.byFault(slices.DeleteFunc(slices.Clone(faults), func(f model.Fault) bool { return totals[f] == 0 }), totals)
}
