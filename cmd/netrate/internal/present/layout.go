package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// LayoutFigure draws a line that is called so to its pitches, with what its stations cost, as cost
// says, and how others differ from it.
func LayoutFigure(name, cost string, a study.Layout, others []OtherLine) (*plots.Figure, error) {
	d := plots.LayoutData{
		Head: plots.Head{Title: layoutTitle(name, a), Subtitle: "The line to its pitches. " + say.Capital(cost)},
		Cost: "lost an hour", Stations: placed(a),
	}
	var same []string
	for _, o := range others {
		if !o.Layout.Differs() {
			same = append(same, o.Name)
			continue
		}
		stations := placed(o.Layout)
		k := slices.IndexFunc(d.Others, func(x plots.OtherLayout) bool { return slices.Equal(x.Stations, stations) })
		if k >= 0 {
			d.Others[k].Name += "; " + o.Name
			continue
		}
		d.Others = append(d.Others, plots.OtherLayout{Name: o.Name, Says: layoutChanges(o.Layout), Stations: stations})
	}
	if same != nil {
		d.Subtitle += leftOutOf(same) + ", whose stations are the same"
	}
	return plots.Layout(d)
}

// BriefLayout draws only the track of a line that is called so, and those of others; together says
// that they are other lines that run beside it, rather than what became of it.
func BriefLayout(name string, a study.Layout, others []OtherLine, together bool) (*plots.Figure, error) {
	title := []string{fmt.Sprintf("%s: %s over %s", say.Capital(name), say.Plural(len(a.Stations), "station"), pitches(a))}
	d := plots.LayoutData{Stations: placed(a), Brief: true}
	for _, o := range others {
		if !together && !o.Layout.Differs() {
			title = append(title, "the stations of "+o.Name+" are the same")
			continue
		}
		other := plots.OtherLayout{Name: o.Name, Stations: placed(o.Layout)}
		if !together {
			other.Says = layoutChanges(o.Layout)
		}
		d.Others = append(d.Others, other)
	}
	d.Head = plots.Head{Title: strings.Join(title, "; ")}
	return plots.Layout(d)
}

// pitches returns how long a line is, in words.
func pitches(a study.Layout) string {
	return pitchesOf(a.Stations[len(a.Stations)-1].At - a.Stations[0].At)
}

// pitchesOf returns a number of pitches, in words.
func pitchesOf(n int) string {
	if n != 1 {
		return say.Thousands(n) + " pitches"
	}
	return "1 pitch"
}

// OtherLine is a line that is set against the one that is drawn.
type OtherLine struct {
	Name   string
	Layout study.Layout
}

// OtherLines returns those of some alternatives that are single lines, set against the first.
func OtherLines(all []study.Alternative) []OtherLine {
	var others []OtherLine
	for _, a := range all[min(1, len(all)):] {
		if a.Line != nil {
			others = append(others, OtherLine{a.Name, study.LayoutAgainst(a.Line, all[0].Line)})
		}
	}
	return others
}

// layoutTitle says which station costs most.
func layoutTitle(name string, a study.Layout) string {
	worst := &a.Stations[0]
	for i := range a.Stations {
		if a.Stations[i].Lost > worst.Lost {
			worst = &a.Stations[i]
		}
	}
	title := fmt.Sprintf("%s: %s over %s", name, say.Plural(len(a.Stations), "station"), pitches(a))
	if worst.Lost < 0.5 {
		return title
	}
	return fmt.Sprintf("%s; %s costs most, %s envelopes an hour", title, worst.Name, say.Rounded(worst.Lost, 0))
}

// layoutLooks are the looks of the stations by what they do.
var layoutLooks = map[model.Role]plots.Look{
	model.Gathers: plots.ChannelLook, model.Envelopes: plots.EnvelopeLook, model.Reads: plots.ReaderLook,
	model.Diverts: plots.TrackGateLook, model.Inserts: plots.InserterLook, model.Outsorts: plots.ExitGateLook, model.Delivers: plots.DeliveryLook,
}

func placed(a study.Layout) []plots.Placed {
	var all []plots.Placed
	for _, s := range a.Stations {
		look, known := layoutLooks[s.Role]
		if !known {
			look = plots.StationLook
			if s.Kind.Name == (&model.Feeder{}).Kind().Name {
				look = plots.FeederLook
			}
		}
		p := plots.Placed{
			Name: s.Name, Kind: s.Kind.Name, Look: look, At: float64(s.At), Cost: s.Lost, Before: float64(s.Before), Otherwise: s.Otherwise,
			Change: [...]plots.LayoutChange{plots.Kept, plots.Altered, plots.Moved, plots.Added, plots.TakenAway}[s.Change],
		}
		if s.Rated > 0 {
			p.Rated = say.Exact(s.Rated) + "/h"
		}
		all = append(all, p)
	}
	return all
}

// layoutChanges says what was done with the stations.
func layoutChanges(a study.Layout) string {
	var added, gone, moved, altered []string
	for _, s := range a.Stations {
		switch s.Change {
		case study.LayoutAdded:
			added = append(added, fmt.Sprintf("%s at pitch %d", s.Name, s.At))
		case study.LayoutTakenAway:
			gone = append(gone, s.Name)
		case study.LayoutMoved:
			moved = append(moved, fmt.Sprintf("%s from %d to %d", s.Name, s.Before, s.At))
			if s.Otherwise {
				altered = append(altered, s.Name)
			}
		case study.LayoutAltered:
			altered = append(altered, s.Name)
		case study.LayoutKept:
		}
	}
	var parts []string
	for _, p := range []struct {
		what  string
		names []string
	}{{"added: ", added}, {"taken away: ", gone}, {"moved: ", moved}, {"changed otherwise: ", altered}} {
		if p.names != nil {
			parts = append(parts, p.what+say.List(p.names))
		}
	}
	return say.Capital(strings.Join(parts, "; ")) + "."
}

// layoutSection is the picture of the line.
func layoutSection(f *plots.Figure) plots.Section {
	return plots.Section{Heading: "The line", Figures: []*plots.Figure{f}}
}

// layouts draws the first line, as it was simulated, and how the others differ from it; nothing of
// line groups, and of lines at several jobs, which are set up anew for each.
func (c Comparison) layouts(r *page.Report) []*plots.Figure {
	if c.grouped() || c.mixed() {
		return nil
	}
	var all []study.Alternative
	for i := range c.Lines {
		all = append(all, c.Lines[i].Of)
	}
	return []*plots.Figure{r.Figure("line")(simulatedLayout(say.Capital(c.called(0)), c.Lines[0], OtherLines(all)))}
}

// What the costs in the drawing of a line are.
const (
	costOnPaper   = "lost on paper: the time of stops for faults at the speed of the line, and sets lost; without waiting for a busy operator and stocks used up"
	costSimulated = "lost: the time of all stops of the station at the speed of the line, and sets lost to it, means; "
)

// LayoutOnPaper draws the first of some alternatives, single lines, as it is on paper, and how
// the others differ from it.
func LayoutOnPaper(all []study.Alternative) (*plots.Figure, error) {
	return LayoutFigure(say.Capital(all[0].Line.Name), costOnPaper, study.LayoutOf(all[0].Line), OtherLines(all))
}

// simulatedLayout draws a line as it was simulated.
func simulatedLayout(name string, x study.LineAnswer, others []OtherLine) (*plots.Figure, error) {
	return LayoutFigure(name, costSimulated+page.Sample(x.Study), study.SimulatedLayout(x.Study), others)
}
