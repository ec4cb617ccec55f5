package workbench

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/sim"
)

// planState is how what is shown of a plan stands to the text.
type planState struct {
	Stale, Rough bool
	Given        bool // the text gives the order
	Says         string
	Rev          int
}

// planShown is a plan drawn: a lane for each line, with a bar for each job.
type planShown struct {
	Width, Height, Left, Right int
	Days                       []dayShown
	Lanes                      []laneShown
	Bars                       []jobBar
	Dues                       []dueShown
}

type dayShown struct {
	X    float64
	Name string
}

type laneShown struct {
	Name, Line string // as it is said, and as the text has it; "" of the only one
	Shown      string // the name, as much of it as there is room for
	Y          int    // of its top
	Jobs       int
}

// jobBar is a job: its changeover, its work, and by when it is finished 9 times in 10.
type jobBar struct {
	Job, Line, Letter string
	Place, Y          int
	From, Work, To    float64 // its begin, its first set and its end, in the median
	Nine              float64
	Label, Chance     string
	Kept              string // how sure its date is, as a class
	Says              string
}

// Middle and Wide say where a bar is.
func (b jobBar) Middle() float64 { return (b.From + b.To) / 2 }
func (b jobBar) Wide() float64   { return b.To - b.From }
func (b jobBar) Setup() float64  { return b.Work - b.From }

// dueShown is when jobs of a lane are due.
type dueShown struct {
	X       float64
	Beyond  bool // the end of the axis
	Y       int
	Letters string
	Says    string
}

// How a plan is drawn.
const (
	planWidth  = 1100
	planLeft   = 92  // at least
	mostLeft   = 190 // for the names of lines
	planHead   = 22
	laneHeight = 66
	letterWide = 6.3 // of a label, about
	boldWide   = 6.9 // of the name of a line
	narrowest  = 7   // of a bar, so that it can be taken hold of
	sure       = 0.9
	unlikely   = 0.5
)

// regions returns what is shown of a plan.
func (p *planner) regions(s present.Plans, state planState) map[string]string {
	x := &s.Plans[0]
	shown := p.drawn(s, x)
	table := s.Jobs(x)
	table.Caption = "What each line does, in its order"
	var b strings.Builder
	_ = table.WriteHTML(&b) // a builder takes all
	text, against := "", ""
	if x.Study != nil {
		text = s.Finding() + s.Costs(x)
		against = without(s)
	}
	return map[string]string{
		"planstate": region("planstate", state),
		"plan":      region("plan", shown),
		"planned": region("planned", struct {
			Text, Against string
			Rough         bool
			Table         template.HTML
		}{text, against, state.Rough, template.HTML(b.String())}), // from a template that escapes
	}
}

// drawn returns a plan as it is drawn.
func (p *planner) drawn(s present.Plans, x *study.PlansPlan) planShown {
	h, length := x.Made.Horizon, p.room(x)
	d := planShown{Width: planWidth, Left: leftOf(x), Right: planWidth - 60, Height: planHead + laneHeight*len(x.Lines) + 4}
	at := func(m study.PlansMoment) float64 {
		worked := length
		if !m.Never() {
			worked = min(length, float64(h.Worked(m.At))/3600)
		}
		return math.Round(10*(float64(d.Left)+float64(worked/length*float64(d.Right-d.Left)))) / 10
	}
	seen := ""
	windows, _ := h.Windows(h.At(sim.Seconds(3600 * length)))
	for _, w := range windows {
		from := study.PlansMoment{At: w.From}
		if name := s.Day(from); name != seen {
			d.Days, seen = append(d.Days, dayShown{at(from), name}), name
		}
	}
	d.Days = apart(d.Days, 44)
	letters := map[string]string{}
	for i := range x.Made.Plan.Jobs {
		letters[x.Made.Plan.Jobs[i].Name] = letterOf(i)
	}
	for i, line := range x.Lines {
		name := cmp.Or(line.Name, "the line")
		lane := laneShown{Name: name, Shown: fitting(name, float64(d.Left)*letterWide/boldWide), Y: planHead + i*laneHeight, Jobs: len(line.Jobs)}
		if len(x.Lines) > 1 {
			lane.Line = line.Name
		}
		d.Lanes = append(d.Lanes, lane)
		var dues []dueShown
		for k := range line.Jobs {
			j := &line.Jobs[k]
			b := jobBar{Job: j.Name, Line: lane.Line, Letter: letters[j.Name], Place: k, Y: lane.Y, From: at(j.Begun.P50), Work: at(j.First), To: at(j.LineFree()), Nine: at(j.Finished.P90)}
			b.Work, b.To = max(b.Work, b.From), max(b.To, b.From+narrowest)
			b.Work, b.Nine = min(b.Work, b.To), max(b.Nine, b.To)
			b.said(s, x, lane.Name, j)
			d.Bars = append(d.Bars, b)
			if j.Due != nil {
				dues = append(dues, dueShown{at(*j.Due), float64(h.Worked(j.Due.At)) > 3600*length, lane.Y, b.Letter, j.Name + ", " + s.Moment(*j.Due)})
			}
		}
		d.Dues = append(d.Dues, together(dues)...)
	}
	return d
}

// leftOf returns where the lanes begin: beside the names of the lines.
func leftOf(x *study.PlansPlan) int {
	most := 0
	for _, line := range x.Lines {
		most = max(most, utf8.RuneCountInString(line.Name))
	}
	return min(max(planLeft, int(boldWide*float64(most))+14), mostLeft)
}

// said writes what is said of a job in its bar and to those who cannot see it.
func (b *jobBar) said(s present.Plans, x *study.PlansPlan, lane string, j *study.PlansJob) {
	b.Label = fitting(b.Letter+" "+j.Name, b.Wide())
	if len(b.Label) < len(b.Letter) {
		b.Label = b.Letter
	}
	by := "ends " + s.Moment(j.Finished.P50)
	if x.Study != nil {
		by += ", 9 times in 10 by " + s.Moment(j.Finished.P90)
	}
	b.Says = fmt.Sprintf("%s, on %s, place %d; %s", j.Name, lane, b.Place+1, by)
	switch {
	case j.Due == nil:
		b.Kept, b.Chance = "dateless", "no date"
		b.Says += "; it has no date"
	case j.InTime == nil:
		b.Kept, b.Chance = "paper", "…"
		b.Says += "; due " + s.Moment(*j.Due)
	default:
		b.Chance = present.SeasonsOften(j.InTime.Share)
		b.Says += fmt.Sprintf("; due %s, kept in %s", s.Moment(*j.Due), b.Chance)
		switch share := float64(j.InTime.Share); {
		case share < unlikely:
			b.Kept = "late"
		case share < sure:
			b.Kept = "unsure"
		default:
			b.Kept = "sure"
		}
		if long := b.Chance + " in time"; fitting(long, b.Wide()) == long {
			b.Chance = long
		}
	}
	if fitting(b.Chance, b.Wide()) != b.Chance {
		b.Chance = ""
	}
}

// fitting returns a text shortened to a width; "" where hardly anything would be left.
func fitting(text string, width float64) string {
	room := int((width - 6) / letterWide)
	switch n := utf8.RuneCountInString(text); {
	case n <= room:
		return text
	case room < 3:
		return ""
	}
	return strings.TrimRight(string([]rune(text)[:room-1]), " ") + "…"
}

// letterOf returns a sign for the job of a number: A to Z, then A2 and so on.
func letterOf(i int) string {
	letter := string(rune('A' + i%26))
	if i >= 26 {
		letter += fmt.Sprint(i/26 + 1)
	}
	return letter
}

// together joins dates that lie so close that their letters would run into each other.
func together(dues []dueShown) (all []dueShown) {
	slices.SortStableFunc(dues, func(a, b dueShown) int { return cmp.Compare(a.X, b.X) })
	for _, d := range dues {
		if n := len(all); n > 0 && d.Beyond == all[n-1].Beyond && d.X-all[n-1].X < letterWide*float64(utf8.RuneCountInString(all[n-1].Letters)+2) {
			all[n-1].Letters += " " + d.Letters
			all[n-1].Says += "; " + d.Says
			continue
		}
		all = append(all, d)
	}
	return all
}

// apart leaves out days for whose names there is no room.
func apart(days []dayShown, room float64) (kept []dayShown) {
	for _, d := range days {
		if n := len(kept); n == 0 || d.X-kept[n-1].X >= room {
			kept = append(kept, d)
		}
	}
	return kept
}
