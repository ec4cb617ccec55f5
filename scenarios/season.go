package scenarios

import (
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/seasons"
)

const (
	maxWeeks = 104 // that are listed
	maxAlike = 52  // of one kind
	maxAll   = 520 // of a season
)

// season is the work of some weeks, as it is written.
type season struct {
	Starts  *date      `yaml:"starts,omitempty" jsonschema_description:"of several lines: the date of the first day of the first week, such as \"2026-03-23\": times then have dates; weeks are numbered if not given"`
	Weeks   []week     `yaml:"weeks" jsonschema_description:"one after the other" jsonschema:"minItems=1,maxItems=104"`
	Order   *order     `yaml:"order,omitempty" jsonschema_description:"of the jobs of a week: as given, or best for the least changeover; as given if not given"`
	Staff   []manning  `yaml:"staff,omitempty" jsonschema_description:"who is there in some shifts instead of the crew: of several that speak of a shift the last holds" jsonschema:"maxItems=100"`
	Hoppers *hoppersAt `yaml:"hoppers,omitempty" jsonschema_description:"at the start of each job: full; a share of their capacity such as 60%; or as left: with what the job before left in them, where they hold the same pieces and no personalised ones; as work says if not given"`
	Remakes *remakes   `yaml:"remakes,omitempty" jsonschema_description:"how the personalised sets that were not delivered good are made again; as work says if not given"`
}

// week is the work of one week, or of several that are alike.
type week struct {
	Name  *name   `yaml:"name" jsonschema_description:"unique, such as week 1"`
	Times *alike  `yaml:"times,omitempty" jsonschema_description:"how many weeks like this follow each other; 1 if not given"`
	Sets  *demand `yaml:"sets" jsonschema_description:"sets of each job by its name; none of a job that is not named"`
}

// manning is who is there in some shifts of a season.
type manning struct {
	Name      *name         `yaml:"name" jsonschema_description:"unique, such as fewer at night"`
	Weeks     []weekNumber  `yaml:"weeks,omitempty" jsonschema_description:"numbers of weeks, from 1; all if not given" jsonschema:"maxItems=104"`
	Days      []days        `yaml:"days,omitempty" jsonschema_description:"days of the week, 1 for the first; all if not given" jsonschema:"maxItems=7"`
	Shifts    []shiftNumber `yaml:"shifts,omitempty" jsonschema_description:"numbers of shifts of a day, from 1; all if not given" jsonschema:"maxItems=24"`
	Operators *planPeople   `yaml:"operators,omitempty" jsonschema_description:"how many are there; of one line one at least, of several with 0 nobody works; as many as there are else if only absent is given"`
	Absent    []name        `yaml:"absent,omitempty" jsonschema_description:"people of the crew, by their names, who are not there, whatever else is said; nobody comes for them; nobody is absent if not given" jsonschema:"maxItems=50"`
}

func (x *manning) decode(r *reader, n *node, _ string) { r.inside(n, "an item of staff", x) }

func (x *week) decode(r *reader, n *node, _ string) { r.inside(n, "a week", x) }

// season returns the season of the model, and notes what it lacks and what jobs it names
// wrongly; nil if none is given.
func (x *season) season(r *reader, tree *node, s *Shop) *seasons.Season {
	if x == nil {
		return nil
	}
	n, jobs := child(tree, "season"), child(tree, "jobs")
	for _, key := range []string{"jobs", "calendar"} {
		if !hinted(tree, key) {
			r.note(n, "season goes with %s, which is not given", key)
		}
	}
	r.entries(n, "weeks", maxWeeks)
	made := &seasons.Season{
		Line: s.Line, Calendar: s.Calendar, Products: s.Products, Change: s.Changeover,
		Best: bool(or(x.Order, false)), Closing: x.Remakes.ofJobs(s), Begins: x.Hoppers.ofJobs(s),
	}
	r.entries(n, "staff", maxStaff)
	x.ofOneLine(r, n, s)
	for i, m := range x.Staff[:min(len(x.Staff), maxStaff)] {
		if s.Line != nil {
			r.absent(child(n, "staff").Content[i], &s.Line.Crew)
		}
		made.Staff = append(made.Staff, seasons.Staffed{
			Name: string(or(m.Name, "")), Weeks: ints(m.Weeks), Days: ints(m.Days), Shifts: ints(m.Shifts), Operators: manned(m.Operators, m.Absent), Absent: listed(m.Absent),
		})
	}
	if jobs == nil || jobs.Kind != sequenceNode || r.bad[jobs] || r.misnamed(jobs) || r.spoilt(n) {
		return made
	}
	made.Weeks = x.weeks(r, namesIn(jobs)[:len(s.Products)])
	switch weeks := child(n, "weeks"); {
	case r.spoilt(n):
	case len(made.Weeks) == 0:
		r.note(weeks, "the season has no weeks")
	case len(made.Weeks) > maxAll:
		r.note(weeks, "the season has %d weeks, want at most %d", len(made.Weeks), maxAll)
	case !slices.ContainsFunc(made.Weeks, func(w seasons.Week) bool { return slices.Max(w.Sets) > 0 }):
		r.note(weeks, "the season has no sets in any week")
	default:
		x.Remakes.idle(r, n, s)
	}
	return made
}

// ofOneLine notes what the season of one line cannot have.
func (x *season) ofOneLine(r *reader, n *node, s *Shop) {
	if s.LineGroup != nil {
		return
	}
	if at := child(n, "starts"); at != nil {
		r.note(at, "starts is for the season of several lines: that of one counts hours and weeks; leave it out")
	}
	for i, m := range x.Staff[:min(len(x.Staff), maxStaff)] {
		if m.Operators != nil && *m.Operators == 0 {
			r.note(child(child(n, "staff").Content[i], "operators"), "operators is 0: in the season of one line there is one at least; take the shift out of the calendar")
		}
	}
}

// weeks returns the weeks one by one, each with the sets of all jobs.
func (x *season) weeks(r *reader, jobs []string) []seasons.Week {
	var all []seasons.Week
	for _, w := range x.Weeks[:min(len(x.Weeks), maxWeeks)] {
		sets := make([]int64, len(jobs))
		for i, job := range or(w.Sets, demand{}).jobs {
			k := slices.Index(jobs, job.Value)
			if k < 0 {
				r.note(job, "no job is named %q: %s", job.Value, r.meant(job.Value, jobs))
				continue
			}
			sets[k] = int64(w.Sets.sets[i])
		}
		called, times := string(or(w.Name, "")), int(or(w.Times, 1))
		for i := range times {
			one := seasons.Week{Name: called, Sets: sets}
			if times > 1 {
				one.Name = fmt.Sprintf("%s, %d of %d", called, i+1, times)
			}
			all = append(all, one)
		}
	}
	return all
}

// demand is sets by the names of their jobs, such as {Letters: 40000}.
type demand struct {
	jobs []*node
	sets []count
}

func (x *demand) decode(r *reader, n *node, key string) {
	r.byName(n, key, "the sets of jobs by their names, such as {Letters: 40000}", func(k, v *node) {
		var sets count
		if v != nil {
			r.quantity(v, "the number of sets of "+shown(k), &sets)
		}
		x.jobs, x.sets = append(x.jobs, k), append(x.sets, sets)
	})
}

// order tells whether the jobs of a week are done in the best order.
type order bool

var orderNames = []string{"as given", "best"}

func (x *order) read(text string) error {
	i := slices.Index(orderNames, text)
	if i < 0 {
		return want(model.OneOf(orderNames), guess(text, orderNames))
	}
	*x = i == 1
	return nil
}

// alike is how many weeks are alike.
type alike int

func (x *alike) read(text string) error { return whole(x, text, 1, maxAlike) }
func (*alike) number()                  {}
