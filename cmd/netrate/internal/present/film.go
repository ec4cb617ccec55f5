package present

import (
	"fmt"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/trace"
	"netrate/plots/film"
	"netrate/sim"
)

// FilmOf returns a shift, which begins at the given moment, as a film.
func FilmOf(s *trace.Shift, begins time.Time) *film.Film {
	f := &film.Film{
		Title:     fmt.Sprintf("%s: shift %s", s.Line.Name, say.Thousands(s.Replication)),
		About:     filmAbout(s, begins),
		Clock:     float64(begins.Hour()*3600 + begins.Minute()*60 + begins.Second()),
		Operators: s.Line.Crew.Operators, Crew: s.Line.Crew.Operators,
		Fates: []string{"good"},
		Reels: []film.Reel{{Lasts: float64(s.Outcome.Time.Shift), Lines: []film.Line{filmLine(s)}, Tasks: filmTasks(s)}},
	}
	for fate := range model.Fate(model.Fates) {
		f.Fates = append(f.Fates, fate.String())
	}
	return f
}

// filmAbout says what is shown, and what it is not.
func filmAbout(s *trace.Shift, begins time.Time) []string {
	return []string{
		fmt.Sprintf("Shift %s of seed %d, %s from %s: %s good envelopes, %s an hour.", say.Thousands(s.Replication), s.Seed,
			page.Hours(s.Outcome.Time.Shift), begins.Format("15:04"), say.Thousands(s.Outcome.Sets.Good), say.Rounded(s.Outcome.NetRate(), 0)),
		"This is a simulation: how a shift of this line may go, not a record of one.",
	}
}

// filmLine returns what happened on a line.
func filmLine(s *trace.Shift) film.Line {
	l := film.Line{Name: s.Line.Name, Started: s.Outcome.Sets.Started}
	for _, station := range s.Line.Stations {
		l.Stations = append(l.Stations, filmStation(s.Line, station))
	}
	for _, r := range s.Runs {
		l.Runs = append(l.Runs, film.Run{
			From: float64(r.From), To: float64(r.To), Cycle: int64(r.Cycle), Last: int64(s.Completed(r.To)), Each: 3600 / s.Line.RunSpeed(),
		})
	}
	for _, x := range s.Stood {
		l.Stood = append(l.Stood, film.Stretch{
			From: float64(x.From), To: float64(x.To), Station: x.Station, Cause: s.Cause(x.Station, x.Cause), Phase: x.Phase.String(),
		})
	}
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

// filmTasks returns what the crew did.
func filmTasks(s *trace.Shift) []film.Task {
	var all []film.Task
	for i := range s.Tasks {
		x := &s.Tasks[i]
		t := film.Task{Station: x.Station, Work: x.Work.String(), Called: float64(x.Called), Operator: film.Nobody}
		t.From, t.Arrives, t.To = seconds3(s.Outcome.Time.Shift, s.Outcome.Time.Shift, s.Outcome.Time.Shift)
		if x.Taken {
			t.Operator = x.Operator
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
