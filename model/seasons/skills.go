package seasons

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// Unattended is work that nobody may do who is there in a shift: what calls for it waits for the next shift in
// which somebody is.
type Unattended struct {
	Week, Day, Shift int // from 1
	Window               // from the start of the shift to its end
	Line             string
	Does             model.Doing
	Stations         []string // at which; nil for all that call for it, and for a changeover of the line as a whole
}

// String says what nobody may do.
func (u *Unattended) String() string {
	text := map[model.Doing]string{
		model.Clearing: "clear faults", model.Filling: "fill hoppers and empty bins and belts", model.Changing: "change over",
	}[u.Does]
	if len(u.Stations) > 0 {
		text += " at " + strings.Join(u.Stations, ", ")
	}
	if u.Line == "" {
		return text
	}
	return text + " on " + u.Line
}

// called is what a line calls the crew for, at its jobs and in the changeovers between them.
type called struct {
	line  string // "" for the only one
	needs []model.Need
}

// add adds what is not called for yet.
func (c *called) add(needs []model.Need) {
	for _, n := range needs {
		if !slices.Contains(c.needs, n) {
			c.needs = append(c.needs, n)
		}
	}
}

// changing returns what the pieces of a changeover call for.
func changing(items []setup.Item) (needs []model.Need) {
	for _, i := range items {
		if !i.Automatic {
			needs = append(needs, model.Need{Does: model.Changing, Station: i.Station})
		}
	}
	return needs
}

// staffedTime is working time of some shifts, and who is there in them.
type staffedTime struct {
	calendar *Calendar
	crew     *model.Crew
	staffed  []Staffed
	from     sim.Seconds
}

// shifts calls for each shift of some weeks that is not over when the time begins, and in which somebody is.
func (t *staffedTime) shifts(weeks int, call func(of shiftOf, w Window, there *presence)) {
	t.calendar.eachShift(weeks, func(of shiftOf, windows []Window) {
		there := present(t.crew, t.staffed, of.Week, of.Day, of.Shift)
		if windows = after(windows, t.from); len(windows) > 0 && there.there() > 0 {
			call(of, Window{windows[0].From, windows[len(windows)-1].To}, &there)
		}
	})
}

// never returns an error for each work that is called for and that nobody may do in any shift.
func (t *staffedTime) never(weeks int, all []called) (errs []error) {
	if t.crew.People == nil {
		return nil
	}
	for i := range all {
		left := slices.Clone(all[i].needs)
		t.shifts(weeks, func(_ shiftOf, _ Window, there *presence) {
			left = slices.DeleteFunc(left, func(n model.Need) bool { return t.may(all[i].line, n, there) })
		})
		for _, n := range left {
			text := fmt.Sprintf("nobody who is ever there may %v", n)
			if all[i].line != "" {
				text = all[i].line + ": " + text
			}
			errs = append(errs, errors.New(text))
		}
	}
	return errs
}

// may reports whether somebody who is there may do some work on a line.
func (t *staffedTime) may(line string, n model.Need, there *presence) bool {
	return slices.ContainsFunc(t.crew.Able(line, n), there.has)
}

// unattended returns what nobody may do in the shifts of some weeks that begin before a time.
func (t *staffedTime) unattended(weeks int, until sim.Seconds, all []called) (found []Unattended) {
	if t.crew.People == nil {
		return nil
	}
	t.shifts(weeks, func(of shiftOf, w Window, there *presence) {
		if w.From >= until {
			return
		}
		for i := range all {
			for _, does := range []model.Doing{model.Clearing, model.Filling, model.Changing} {
				if u := t.lacks(&all[i], does, there); u != nil {
					u.Week, u.Day, u.Shift, u.Window = of.Week, of.Day, of.Shift, w
					found = append(found, *u)
				}
			}
		}
	})
	return found
}

// lacks returns what of a sort of work nobody who is there may do; nil for nothing.
func (t *staffedTime) lacks(c *called, does model.Doing, there *presence) *Unattended {
	u, any, whole := &Unattended{Line: c.line, Does: does}, false, true
	for _, n := range c.needs {
		switch {
		case n.Does != does:
		case t.may(c.line, n, there):
			whole = false
		default:
			if any = true; n.Station != "" {
				u.Stations = append(u.Stations, n.Station)
			}
		}
	}
	if !any {
		return nil
	}
	if whole {
		u.Stations = nil
	}
	return u
}

// time returns the working time of a plan with what is in force.
func (p *Plan) time() *staffedTime { return &staffedTime{p.Calendar, &p.Crew, p.Staffed, p.From} }

// never returns an error for each work that a line may call for at any job that it may do, set up from nothing,
// and that nobody may do who is ever there. Where one line cannot do a job so, others may: it is an error all the
// same, since no search for a plan looks at it.
func (p *Plan) never(fits [][]*setup.Fit) []error {
	if p.Crew.People == nil {
		return nil
	}
	var all []called
	for i, line := range p.Lines {
		all = append(all, p.calledAt(line, func(j int) bool { return fits[p.Jobs[j].Product][i].Runs && p.Jobs[j].may(i) }))
	}
	return p.time().never(MostWeeks, all)
}

// calledAt returns what a line calls for at some of the jobs, set up for each from nothing.
func (p *Plan) calledAt(line *model.Line, has func(job int) bool) called {
	c := called{line: line.Name}
	if len(p.Lines) == 1 { // which is not told apart from any other
		c.line = ""
	}
	seen := make([]bool, len(p.Products))
	for j := range p.Jobs {
		k := p.Jobs[j].Product
		if seen[k] || !has(j) {
			continue
		}
		seen[k] = true
		made, fit := setup.Fitted(line, p.Products[k])
		if c.add(made.Needs()); p.Change != nil {
			c.add(changing(p.Change.Items(nil, &setup.Setup{Product: p.Products[k], Line: made, Fit: fit})))
		}
	}
	return c
}

// Unattended returns what nobody may do in shifts of a plan that begin before a time: of each line what its own
// jobs call for, and their changeovers as if each were from nothing.
func (m *Made) Unattended(until sim.Seconds) []Unattended {
	p := m.Plan
	var all []called
	for i, line := range p.Lines {
		all = append(all, p.calledAt(line, func(j int) bool { return slices.Contains(m.Order[i], j) }))
	}
	return p.time().unattended(MostWeeks, until, all)
}

// time returns the working time of a season.
func (s *Season) time() *staffedTime { return &staffedTime{s.Calendar, &s.Line.Crew, s.Staff, 0} }

// called returns what the line calls for at the jobs of a season.
func (p *seasonPlan) called() []called {
	c := called{}
	last := -1
	for _, j := range p.jobs {
		c.add(p.setups[j.Product].Line.Needs())
		c.add(changing(p.items[last+1][j.Product]))
		last = j.Product
	}
	return []called{c}
}

// Unattended returns what nobody may do in the shifts of a season, or everything that is wrong with it.
func (s *Season) Unattended() ([]Unattended, error) {
	p, err := s.plan()
	if err != nil {
		return nil, err
	}
	weeks := min(len(s.Weeks), MostWeeks)
	return s.time().unattended(weeks, sim.Seconds(weeks)*week, p.called()), nil
}
