package study

import (
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// What goes station by station. The figures are means of a replication.

// RunStation is what one station came to.
type RunStation struct {
	Name       string             `json:"name"`
	Kind       string             `json:"kind"`
	Attempts   Number             `json:"attempts"`
	Faults     map[string]Number  `json:"faults,omitempty"`
	Missed     Number             `json:"doubles_unnoticed"`
	Unnoticed  Number             `json:"misfeeds_unnoticed"`
	FalseCalls Number             `json:"false_calls"`
	Removed    Number             `json:"removed"`
	Lost       map[string]Number  `json:"lost,omitempty"`    // sets not delivered good, by the fault here that they were lost to
	Remakes    map[string]Number  `json:"remakes,omitempty"` // those to be made again
	Pieces     *RunPieces         `json:"pieces,omitempty"`
	Stops      map[string]RunStop `json:"stops"` // by cause, those that arose
	Stock      RunTasks           `json:"stock"`
	Clearing   RunTasks           `json:"clearing"`
}

// RunPieces is what became of the pieces of a hopper.
type RunPieces struct {
	Loaded    Number `json:"loaded"`
	Good      Number `json:"good"`
	Defective Number `json:"defective"`
	Diverted  Number `json:"diverted"`
	Outsorted Number `json:"outsorted"`
	Spoiled   Number `json:"spoiled"`
	OnLine    Number `json:"on_line"`
	Left      Number `json:"left"`
}

// RunStop is the stops of one cause.
type RunStop struct {
	Count      Number `json:"count"`
	Waiting    Number `json:"waiting_s"`
	Working    Number `json:"working_s"`
	Restarting Number `json:"restarting_s"`
	Starved    Number `json:"channel_too_slow_s,omitempty"`
}

// RunTasks is what the crew did of one sort.
type RunTasks struct {
	Calls   Number `json:"calls"`
	Waiting Number `json:"waiting_s"`
	Walking Number `json:"walking_s"`
	Working Number `json:"working_s"`
}

// RunCrew is what the crew did.
type RunCrew struct {
	Operators Number   `json:"operators"` // in the mean of the shift, breaks counted
	Busy      Mean     `json:"busy_s"`    // operator seconds
	Clearing  RunTasks `json:"clearing"`
	Stock     RunTasks `json:"stock"`
}

// replications is the divisor that makes a sum a mean.
type replications float64

func (n replications) of(total int64) Number { return Number(float64(total) / float64(n)) }

func (n replications) time(total sim.Seconds) Number { return Number(float64(total) / float64(n)) }

func (n replications) account(a sim.Account) RunTasks {
	return RunTasks{n.of(a.Calls), n.time(a.Waiting), n.time(a.Walking), n.time(a.Working)}
}

func runCrew(s *runs.Study) RunCrew {
	n, crew := replications(len(s.Shifts)), s.Total.Crew()
	busy := MeanIn(s, func(s *runs.Shift) float64 { return s.CrewBusy })
	return RunCrew{Number(s.Line.Crew.Mean(s.Line.Shift)), busy, n.account(crew.Clearing), n.account(crew.Stock)}
}

func runStation(s *runs.Study, i int) RunStation {
	n, spec, o := replications(len(s.Shifts)), s.Line.Stations[i], &s.Total.Stations[i]
	faults := slices.DeleteFunc(model.Errors(), func(f model.Fault) bool { return o.Faults[f] == 0 && o.Lost[f] == 0 })
	faults = append(spec.Counts(), faults...)
	doc := RunStation{
		Name: o.Name, Kind: spec.Kind().Name, Attempts: n.of(o.Attempts), Faults: n.byFault(faults, o.Faults[:]),
		Missed: n.of(o.Missed), Unnoticed: n.of(o.Unnoticed), FalseCalls: n.of(o.FalseCalls), Removed: n.of(o.Removed),
		Lost: n.arisen(faults, o.Lost[:]), Remakes: n.arisen(faults, o.Remakes[:]),
		Stops: map[string]RunStop{}, Stock: n.account(o.Stock), Clearing: n.account(o.Clearing),
	}
	if spec.Stocked().Pieces {
		p := o.Pieces
		doc.Pieces = &RunPieces{
			n.of(p.Loaded), n.of(p.Good), n.of(p.Defective), n.of(p.Diverted),
			n.of(p.Outsorted), n.of(p.Spoiled), n.of(p.OnLine), n.of(p.Left),
		}
	}
	for c, t := range o.Stops {
		if t.Count > 0 {
			doc.Stops[key(model.Cause(c).Name(spec))] = RunStop{
				n.of(t.Count), n.time(t.Waiting), n.time(t.Working), n.time(t.Restarting), n.time(t.Starved),
			}
		}
	}
	return doc
}

// byFault returns the means of the given faults.
func (n replications) byFault(faults []model.Fault, totals []int64) map[string]Number {
	means := map[string]Number{}
	for _, f := range faults {
		means[key(f.String())] = n.of(totals[f])
	}
	return means
}

// arisen returns the means of those of the given faults that came to something.
func (n replications) arisen(faults []model.Fault, totals []int64) map[string]Number {
	return n.byFault(slices.DeleteFunc(slices.Clone(faults), func(f model.Fault) bool { return totals[f] == 0 }), totals)
}

// key returns a name as a key of the encoding: words joined by underscores.
func key(name string) string { return strings.ReplaceAll(name, " ", "_") }
