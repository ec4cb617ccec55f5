package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// Of an incident, the rows of the fault and right after it are shown, and those in which
// something happens.
const (
	rowsAfter  = 3
	mostRows   = 12
	mostPlaces = 12 // columns
)

// IncidentFigure draws what a misfeed of a stream leads to on a line that is called so, cycle
// by cycle.
func IncidentFigure(a *study.IncidentAnswer, name string) (*plots.Figure, error) {
	d := plots.RecoveryData{Head: plots.Head{
		Title: fmt.Sprintf("%s: a misfeed of %s costs %s", name, a.Station, incidentPrice(a)),
		Subtitle: "What the stations along the track have before them, cycle by cycle, if nothing else goes wrong; the set with the misfeed is " +
			"called set 1, and the pieces are numbered as the sets that they are for",
	}}
	places, used := a.Places[:min(len(a.Places), mostPlaces)], 0
	for _, c := range a.Cycles {
		if c.Cycle > rowsAfter && len(c.Events) == 0 || len(d.Cycles) == mostRows {
			continue
		}
		cycle := plots.Cycle{Name: incidentWhen(c.Cycle), Note: incidentNote(c.Events)}
		for k := range places {
			p := incidentPocket(&c.Pockets[k])
			cycle.Pockets = append(cycle.Pockets, p)
			if (p != plots.Pocket{}) {
				used = max(used, k+1)
			}
		}
		d.Cycles = append(d.Cycles, cycle)
	}
	for _, p := range places[:used] {
		d.Stations = append(d.Stations, strings.Join(p.Stations, ", "))
	}
	for i := range d.Cycles {
		d.Cycles[i].Pockets = d.Cycles[i].Pockets[:used]
	}
	return plots.Recovery(d)
}

// incidentPocket returns a pocket as it is drawn: nothing for the sets before the faulty one.
func incidentPocket(p *study.IncidentPocket) plots.Pocket {
	drawn := plots.Pocket{Set: fmt.Sprintf("set %d", p.Set), Text: incidentHoldings(p.Holds)}
	switch p.State {
	case study.IncidentLeaves:
		drawn.Condition = plots.Gone
	case study.IncidentEmpty:
		drawn.Condition = plots.Empty
	case study.IncidentCatchUp:
		drawn.Condition = plots.CatchUp
	case study.IncidentFaulty:
		drawn.Condition = plots.Faulty
	case study.IncidentGood:
		if p.Set < 1 {
			return plots.Pocket{}
		}
	}
	return drawn
}

// incidentHoldings says what is unusual in a set: "letters: 1 and 2".
func incidentHoldings(holds []study.IncidentHolding) string {
	var words []string
	for _, h := range holds {
		said := "none"
		switch {
		case h.Sheets:
			said = "sheets of another set"
		case h.Pieces != nil:
			var pieces []string
			for _, set := range h.Pieces {
				pieces = append(pieces, fmt.Sprint(set))
			}
			said = strings.Join(pieces, " and ")
		}
		words = append(words, h.Stream+": "+said)
	}
	return strings.Join(words, "; ")
}

// incidentNote says what happened in a cycle.
func incidentNote(events []study.IncidentEvent) string {
	var notes []string
	for i := range events {
		notes = append(notes, incidentEvent(&events[i]))
	}
	return strings.Join(notes, "; ")
}

func incidentEvent(e *study.IncidentEvent) string {
	switch e.What {
	case study.IncidentFails:
		return fmt.Sprintf("%s: a %s at set %d", e.Station, e.Fault, e.Set)
	case study.IncidentTakenOff:
		return fmt.Sprintf("set %d is taken off by hand", e.Set)
	case study.IncidentLeft:
		return fmt.Sprintf("set %d leaves at %s", e.Set, e.Station)
	case study.IncidentDelivered:
		return fmt.Sprintf("set %d is delivered, wrong", e.Set)
	case study.IncidentMismatch:
		return e.Station + " sees a mismatch"
	case study.IncidentStops:
		return fmt.Sprintf("the line stops: %s, %s", e.Station, e.Cause)
	}
	panic("present: an incident in which something else happens: " + e.What)
}

// incidentWhen says when a cycle is.
func incidentWhen(cycle int64) string {
	if cycle == 0 {
		return "the fault"
	}
	return fmt.Sprintf("%d after", cycle)
}

// incidentPrice says what an incident costs.
func incidentPrice(a *study.IncidentAnswer) string {
	sets := "no set"
	if a.Lost > 0 {
		sets = say.Plural(a.Lost, "set")
	}
	if a.Stops == 0 {
		return sets + ", and the line runs on"
	}
	return sets + " and " + say.Plural(a.Stops, "stop")
}
