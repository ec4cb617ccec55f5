package seasons

import (
	"errors"
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

// shifts calls for each shift of some weeks that is not over when the time begins, and in which somebody is, with its
// parts.
func (t *staffedTime) shifts(weeks int, call func(of shiftOf, w Window, there []part)) {
	t.calendar.eachShift(weeks, func(of shiftOf, windows []Window) {
		there := present(t.crew, t.staffed, of.Week, of.Day, of.Shift)
		windows = after(windows, t.from)
		if parts := there.parts(windows, t.calendar.rests(t.crew, of)); len(parts) > 0 {
			call(of, Window{windows[0].From, windows[len(windows)-1].To}, parts)
		}
	})
}

// ever returns who is there in any shift of some weeks, by their numbers.
func (t *staffedTime) ever(weeks int) []int {
	is := make([]bool, stated(t.crew))
	t.shifts(weeks, func(_ shiftOf, _ Window, there []part) {
		for n := range is {
			is[n] = is[n] || slices.ContainsFunc(there, func(x part) bool { return x.has(n) })
		}
	})
	var numbers []int
	for n := range is {
		if is[n] {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// lacking returns what of some work on a line none of some people may do, a sort of work each.
func (t *staffedTime) lacking(line string, needs []model.Need, people []int) (all []string) {
	c := called{line: line}
	c.add(needs)
	for _, does := range sorts {
		u := c.lacks(does, func(n model.Need) bool {
			return slices.ContainsFunc(t.crew.Able(line, n), func(number int) bool { return slices.Contains(people, number) })
		})
		if u != nil {
			u.Line = ""
			all = append(all, u.String())
		}
	}
	return all
}

// sorts are those of work, as they are named.
var sorts = []model.Doing{model.Clearing, model.Filling, model.Changing}

// nobodyMay says that some work is called for and is never done.
func nobodyMay(work string) string { return "nobody who is ever there may " + work }

// may reports whether somebody who is there in some part of a shift may do some work on a line.
func (t *staffedTime) may(line string, n model.Need, there []part) bool {
	able := t.crew.Able(line, n)
	return slices.ContainsFunc(there, func(x part) bool { return slices.ContainsFunc(able, x.has) })
}

// unattended returns what nobody may do in the shifts of some weeks that begin before a time.
func (t *staffedTime) unattended(weeks int, until sim.Seconds, all []called) (found []Unattended) {
	if t.crew.People == nil {
		return nil
	}
	t.shifts(weeks, func(of shiftOf, w Window, there []part) {
		if w.From >= until {
			return
		}
		for i := range all {
			for _, does := range sorts {
				if u := all[i].lacks(does, func(n model.Need) bool { return t.may(all[i].line, n, there) }); u != nil {
					u.Week, u.Day, u.Shift, u.Window = of.Week, of.Day, of.Shift, w
					found = append(found, *u)
				}
			}
		}
	})
	return found
}

// lacks returns what of a sort of work nobody may do; nil for nothing.
func (c *called) lacks(does model.Doing, may func(model.Need) bool) *Unattended {
	u, any, whole := &Unattended{Line: c.line, Does: does}, false, true
	for _, n := range c.needs {
		switch {
		case n.Does != does:
		case may(n):
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

// calledAt returns what a line calls for at some of the jobs, set up for each from nothing.
func (p *Plan) calledAt(line *model.Line, has func(job int) bool) called {
	c := called{line: p.known(line)}
	seen := make([]bool, len(p.Products))
	for j := range p.Jobs {
		if k := p.Jobs[j].Product; !seen[k] && has(j) {
			seen[k] = true
			c.add(p.needs(line, k, true))
		}
	}
	return c
}

// known returns the name by which people know a line: of one, which is not told apart from any other, none.
func (p *Plan) known(line *model.Line) string {
	if len(p.Lines) == 1 {
		return ""
	}
	return line.Name
}

// needs returns what a line calls for at a product that it can run, with what sets it up for it from nothing or
// without.
func (p *Plan) needs(line *model.Line, product int, change bool) []model.Need {
	made, fit := setup.Fitted(line, p.Products[product])
	needs := made.Needs()
	if change && p.Change != nil {
		needs = append(needs, changing(p.Change.Items(nil, &setup.Setup{Product: p.Products[product], Line: made, Fit: fit}))...)
	}
	return needs
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

// never returns an error for each work that a season calls for and that nobody may do who is ever there.
func (s *Season) never(p *seasonPlan) (errs []error) {
	if s.Line.Crew.People == nil {
		return nil
	}
	t := s.time()
	for _, work := range t.lacking("", p.called()[0].needs, t.ever(min(len(s.Weeks), MostWeeks))) {
		errs = append(errs, errors.New(nobodyMay(work)))
	}
	return errs
}

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
