package lines

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
)

// Of an incident, the rows of the fault and right after it are shown, and those in which
// something happens.
const (
	rowsAfter  = 3
	mostRows   = 12
	mostPlaces = 12 // columns
)

// incident draws what a misfeed of a stream leads to, cycle by cycle.
func incident(name string, l *model.Line) (*plots.Figure, error) {
	lane := laneToShow(l)
	in, err := l.Incident(lane, model.Misfeed, true)
	if err != nil {
		return nil, err
	}
	d := plots.RecoveryData{Head: plots.Head{
		Title: fmt.Sprintf("%s: a misfeed of %s costs %s", name, l.Stations[lane].Where().Name, price(in)),
		Subtitle: "What the stations along the track have before them, cycle by cycle, if nothing else goes wrong; the set with the misfeed is " +
			"called set 1, and the pieces are numbered as the sets that they are for",
	}}
	columns, used := columnsOf(l, lane), 0
	for _, row := range in.Rows {
		if row.Cycle < 0 || row.Cycle > rowsAfter && len(row.Notes) == 0 || len(d.Cycles) == mostRows {
			continue
		}
		cycle := plots.Cycle{Name: when(row.Cycle), Note: strings.Join(row.Notes, "; ")}
		for k, c := range columns {
			p := pocket(row.Cells[c.station], leavesHere(l.Stations[c.station], row))
			cycle.Pockets = append(cycle.Pockets, p)
			if (p != plots.Pocket{}) {
				used = max(used, k+1)
			}
		}
		d.Cycles = append(d.Cycles, cycle)
	}
	for _, c := range columns[:used] {
		d.Stations = append(d.Stations, strings.Join(c.names, ", "))
	}
	for i := range d.Cycles {
		d.Cycles[i].Pockets = d.Cycles[i].Pockets[:used]
	}
	return plots.Recovery(d)
}

// laneToShow returns the station whose incident tells most: the first feeder that carries a
// stream, or else the document channel; -1 if no stream of the line can come out of step.
func laneToShow(l *model.Line) int {
	var lanes []int
	channel := l.First(model.Gathers)
	for i, s := range l.Stations {
		if stream := s.Carries(); i != channel && stream != nil && stream.Name != "" {
			lanes = append(lanes, i)
		}
	}
	if len(lanes) > 0 && (len(lanes) > 1 || channel >= 0) {
		return lanes[0]
	}
	return channel
}

// place is a column: a station, with those that stand at the same pitch.
type place struct {
	station int
	names   []string
}

// columnsOf returns the places from a station to the last gate.
func columnsOf(l *model.Line, from int) []place {
	var places []place
	last := from
	for i := from; i < len(l.Stations); i++ {
		if role := l.Stations[i].Kind().Role; role == model.Diverts || role == model.Outsorts {
			last = i
		}
	}
	for i := from; i <= last && len(places) < mostPlaces; i++ {
		at := l.Stations[i].Where()
		if k := len(places) - 1; k >= 0 && l.Stations[places[k].station].Where().At == at.At {
			places[k].names = append(places[k].names, at.Name)
			continue
		}
		places = append(places, place{i, []string{at.Name}})
	}
	return places
}

// pocket returns a cell as it is drawn: nothing for the sets before the faulty one.
func pocket(c model.IncidentCell, leaving []int64) plots.Pocket {
	p := plots.Pocket{Set: fmt.Sprintf("set %d", c.Set), Text: c.Words}
	switch {
	case slices.Contains(leaving, c.Set):
		p.Condition = plots.Gone
	case c.State == model.Empty:
		p.Condition = plots.Empty
	case c.State == model.Condemned && c.Set > 1:
		p.Condition = plots.CatchUp
	case c.State == model.Condemned || c.State == model.Wrong:
		p.Condition = plots.Faulty
	case c.Set < 1:
		return plots.Pocket{}
	}
	return p
}

// leavesHere returns the set that leaves the track at a station in a cycle, if one does.
func leavesHere(s model.Station, row model.IncidentRow) []int64 {
	for _, c := range row.Cells {
		if slices.Contains(row.Notes, fmt.Sprintf("set %d leaves at %s", c.Set, s.Where().Name)) {
			return []int64{c.Set}
		}
	}
	return nil
}

// when returns when a cycle is.
func when(cycle int64) string {
	if cycle == 0 {
		return "the fault"
	}
	return fmt.Sprintf("%d after", cycle)
}

// price returns what an incident costs, in words.
func price(in *model.Incident) string {
	sets := "no set"
	if in.Lost > 0 {
		sets = say.Plural(in.Lost, "set")
	}
	if in.Stops == 0 {
		return sets + ", and the line runs on"
	}
	return sets + " and " + say.Plural(in.Stops, "stop")
}
