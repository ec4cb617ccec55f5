package present

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
	"netrate/plots/film"
	"netrate/sim"
)

// FilmOf returns a shift, a job or a shift of several lines as a film, of something that is called
// so and begins at the given moment.
func FilmOf(name string, t *study.Traced, begins time.Time) *film.Film {
	first := t.Shifts[0]
	what := "shift"
	if t.Job != nil {
		what = "job"
	}
	if len(t.Shifts) == 1 || t.Job != nil {
		name = first.Line.Name
	}
	most := first.Line.Crew.Most()
	f := &film.Film{
		Title: fmt.Sprintf("%s: %s %s", name, what, say.Thousands(first.Replication)), About: filmAbout(t, begins),
		Clock:     float64(begins.Hour()*3600 + begins.Minute()*60 + begins.Second()),
		Operators: most, Fates: []string{"good"},
	}
	for fate := range model.Fate(model.Fates) {
		f.Fates = append(f.Fates, fate.String())
	}
	for _, s := range t.Shifts {
		f.Technicians = max(f.Technicians, s.Technicians())
		if s.Pass > 0 || len(f.Reels) == 0 {
			f.Reels = append(f.Reels, film.Reel{Begins: float64(s.Begins), Lasts: float64(s.Lasts()), Present: filmPresent(s)})
		}
		reel := &f.Reels[len(f.Reels)-1]
		if s.Pass > 0 && len(t.Shifts) > 1 {
			reel.Name = fmt.Sprintf("pass %d", s.Pass)
		}
		reel.Tasks = append(reel.Tasks, filmTasks(s, len(reel.Lines), most)...)
		reel.Lines = append(reel.Lines, filmLine(s))
	}
	for i := range f.Reels {
		slices.SortStableFunc(f.Reels[i].Tasks, func(a, b film.Task) int { return cmp.Compare(a.Called, b.Called) })
	}
	return f
}

func filmPresent(s *trace.Shift) []film.Present {
	var all []film.Present
	for _, p := range s.Present {
		all = append(all, film.Present{At: float64(p.At), Operators: p.Operators})
	}
	return all
}

// filmAbout says what is shown, and what it is not.
func filmAbout(t *study.Traced, begins time.Time) []string {
	s := t.Shifts[0]
	good, _ := goodAndStops(t.Shifts)
	rate := say.Rounded(tracedRate(t), 0)
	text := fmt.Sprintf("Shift %s of seed %d, %s from %s: %s good envelopes, %s an hour.", say.Thousands(s.Replication), s.Seed,
		page.Hours(s.Lasts()), begins.Format("15:04"), say.Thousands(good), rate)
	if o := t.Job; o != nil {
		text = fmt.Sprintf("Job %s of seed %d, %s sets from %s: finished after %s h, %s an hour.", say.Thousands(s.Replication), s.Seed,
			say.Thousands(s.Line.Job.Sets), begins.Format("15:04"), say.Rounded(float64(o.Job.Finish)/3600, -2), rate)
		switch {
		case o.Job.ByHand > 0 && s.Line.Job.Closing == model.Beside:
			text += fmt.Sprintf(" %s made by hand beside the line, which is not shown.", say.Plural(int(o.Job.ByHand), "remake"))
		case o.Job.ByHand > 0:
			text += fmt.Sprintf(" %s made by hand after what is shown.", say.Plural(int(o.Job.ByHand), "remake"))
		}
	}
	return []string{text, "This is a simulation: how it may go, not a record of how it went."}
}

// filmLine returns what happened on a line.
func filmLine(s *trace.Shift) film.Line {
	l := film.Line{Name: s.Line.Name, Started: s.Outcome.Sets.Started}
	for _, station := range s.Line.Stations {
		l.Stations = append(l.Stations, filmStation(s.Line, station))
	}
	for _, r := range s.Runs {
		l.Runs = append(l.Runs, film.Run{
			From: float64(r.From), To: float64(r.To), Cycle: int64(r.Cycle), Last: int64(s.Completed(r.To)), Each: float64(r.Each),
		})
	}
	for _, x := range s.Stood {
		l.Stood = append(l.Stood, film.Stretch{
			From: float64(x.From), To: float64(x.To), Station: x.Station, Cause: s.Cause(x.Station, x.Cause), Phase: filmPhase(x),
		})
	}
	for _, x := range s.Breaks {
		l.Stood = append(l.Stood, film.Stretch{From: float64(x.From), To: float64(x.To), Station: film.Nowhere, Cause: "break", Phase: "break"})
	}
	slices.SortStableFunc(l.Stood, func(a, b film.Stretch) int { return cmp.Compare(a.From, b.From) })
	for i := range s.Stops {
		x := &s.Stops[i]
		l.Stops = append(l.Stops, film.Stop{
			From: float64(x.From), To: float64(x.To), Station: x.Station, Cause: s.Cause(x.Station, x.Cause), Cycle: int64(x.Cycle),
		})
	}
	for i := range s.Sets {
		x := &s.Sets[i]
		l.Sets = append(l.Sets, filmSet(s, x))
		for k := range x.Happened {
			w := &x.Happened[k]
			l.Notes = append(l.Notes, film.Note{Set: int64(x.Number), Cycle: int64(w.Cycle), Station: w.Station, Text: Happening(s, w)})
		}
	}
	for _, x := range s.Levels {
		l.Levels = append(l.Levels, film.Level{Station: x.Station, At: float64(x.At), Cycle: int64(x.Cycle), Left: x.Left, Filled: x.Filled})
	}
	return l
}

// filmPhase returns what the line waits for in a stretch for which it stands.
func filmPhase(x trace.Stretch) string {
	switch {
	case x.Cause == model.CauseBreakdown && x.Phase == model.Waiting:
		return "waiting for a technician"
	case x.Cause == model.CauseBreakdown && x.Phase == model.Working:
		return "a technician is at work"
	}
	return x.Phase.String()
}

// filmLooks are the looks of the stations by what they do.
var filmLooks = map[model.Role]film.Look{
	model.Gathers: film.Sheets, model.Envelopes: film.Envelopes, model.Reads: film.Eye, model.Diverts: film.Gate,
	model.Inserts: film.Inserter, model.Outsorts: film.Exit, model.Delivers: film.Belt,
}

// filmStation returns a station of a line.
func filmStation(l *model.Line, s model.Station) film.Station {
	at, stock := s.Where(), s.Stocked()
	look, known := filmLooks[s.Kind().Role]
	if !known {
		look = film.Box
		if stock.Stock != nil && stock.Pieces {
			look = film.Hopper
		}
	}
	x := film.Station{Name: at.Name, Kind: s.Kind().Name, Look: look, At: at.At - l.Stations[0].Where().At}
	if stock.Stock != nil {
		x.Capacity, x.Warning, x.Bin, x.UsedUp = stock.Capacity, stock.Warn, !stock.Pieces, stock.UsedUp
	}
	return x
}

// filmSet returns a set that was not simply good.
func filmSet(s *trace.Shift, x *trace.Set) film.Set {
	f := film.Set{Number: int64(x.Number), Fate: "good", Station: x.Station, Gone: film.Never, Flawed: film.Never, Condemned: film.Never}
	if !x.Good {
		f.Fate = x.Fate.String()
		if x.Fate != model.OnLine {
			f.Gone, f.Flawed = int64(x.Cycle), int64(s.Flawed(x))
		}
	}
	for _, w := range x.Happened {
		if w.What == trace.Condemned {
			f.Condemned = int64(w.Cycle)
			break
		}
	}
	return f
}

// filmTasks returns what was done on a line, by its number: technicians have the numbers after those
// of so many operators.
func filmTasks(s *trace.Shift, line, operators int) []film.Task {
	var all []film.Task
	for i := range s.Tasks {
		x := &s.Tasks[i]
		t := film.Task{Line: line, Station: x.Station, Work: x.Work.String(), Called: float64(x.Called), Operator: film.Nobody}
		t.From, t.Arrives, t.To = seconds3(s.Lasts(), s.Lasts(), s.Lasts())
		if x.Taken {
			if t.Operator = x.Operator; x.Work == model.Repair {
				t.Operator += operators
			}
			t.From, t.Arrives, t.To = seconds3(x.From, x.Arrives, x.To)
		}
		all = append(all, t)
	}
	return all
}

func seconds3(a, b, c sim.Seconds) (x, y, z float64) { return float64(a), float64(b), float64(c) }

// Happening says what happened with a set.
func Happening(s *trace.Shift, w *trace.Happening) string {
	switch w.What {
	case trace.Faulty:
		if w.Seen {
			return w.Fault.String()
		}
		return w.Fault.String() + ", not noticed"
	case trace.CalledFalsely:
		return "good feed taken for a double"
	case trace.Condemned:
		return "condemned, to leave at " + s.Name(w.Gate)
	case trace.TakenOut:
		return "its piece taken out: the set had left"
	}
	return ""
}
