package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"
	_ "time/tzdata" // the time zones, for machines that have none

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// The limits of a plan.
const (
	maxPlanJobs = 200
	maxStaff    = 100
	maxDowns    = 100
	maxWeekNo   = seasons.MostWeeks
	maxOrders   = 20
)

// Plan is jobs with dates for the lines of a scenario, and when its first week begins.
type Plan struct {
	*seasons.Plan
	Starts time.Time // midnight of the first day of the first week; the zero time if it is not given
	Zone   string    // in which its times are; "" if it is not given
}

// Midnight returns when the first week begins, in the zone of the plan or else in UTC; the zero time if the
// file does not say.
func (p *Plan) Midnight() (time.Time, error) {
	if p.Starts.IsZero() {
		return time.Time{}, nil
	}
	zone, err := time.LoadLocation(cmp.Or(p.Zone, "UTC"))
	if err != nil {
		return time.Time{}, fmt.Errorf("the time zone %s: %w", p.Zone, err)
	}
	y, m, d := p.Starts.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, zone), nil
}

// plan is jobs with dates, as it is written.
type plan struct {
	Starts  *date      `yaml:"starts,omitempty" jsonschema_description:"the date of the first day of week 1, such as \"2026-03-23\": times then have dates; weeks are numbered if not given"`
	Zone    *zone      `yaml:"zone,omitempty" jsonschema_description:"the time zone of all times, such as Europe/Paris, which a calendar file needs"`
	Goal    *planGoal  `yaml:"goal,omitempty" jsonschema_description:"lateness, the least, or makespan: when the last job is finished; lateness if not given"`
	Late    *amount    `yaml:"late,omitempty" jsonschema_description:"what an hour costs that a job of priority 1 is late; no price if not given"`
	Jobs    []planJob  `yaml:"jobs" jsonschema_description:"what is to be made, in no order" jsonschema:"minItems=1,maxItems=200"`
	Order   []planLine `yaml:"order,omitempty" jsonschema_description:"which line does which jobs, in their order, each job once: a plan by hand; netrate plan finds the order if it is not given" jsonschema:"maxItems=20"`
	Staff   []staffing `yaml:"staff,omitempty" jsonschema_description:"who is there in some shifts instead of the crew: of several that speak of a shift the last holds" jsonschema:"maxItems=100"`
	Down    []downtime `yaml:"down,omitempty" jsonschema_description:"when a line cannot be used" jsonschema:"maxItems=100"`
	Hoppers *hoppersAt `yaml:"hoppers,omitempty" jsonschema_description:"at the start of each job: full; a share of their capacity such as 60%; or as left: with what the job before on the line left in them, where they hold the same pieces and no personalised ones; as work says if not given"`
	Remakes *remakes   `yaml:"remakes,omitempty" jsonschema_description:"how the personalised sets that were not delivered good are made again; as work says if not given"`
}

// planJob is one job of a plan.
type planJob struct {
	Name      *name      `yaml:"name" jsonschema_description:"unique, such as an order number"`
	Job       *name      `yaml:"job" jsonschema_description:"which of the jobs it is, by its name"`
	Sets      *sets      `yaml:"sets" jsonschema_description:"how many"`
	NotBefore *moment    `yaml:"not_before,omitempty" jsonschema_description:"its changeover does not begin before: week, day and time, or a date; at once if not given"`
	Due       *moment    `yaml:"due,omitempty" jsonschema_description:"when it is to be finished: week, day and time, or a date; no date if not given"`
	Priority  *planShare `yaml:"priority,omitempty" jsonschema_description:"how many times as bad it is that it is late as for a job with 1; 1 if not given"`
	On        []name     `yaml:"on,omitempty" jsonschema_description:"the only lines that may do it, by their names; all that can if not given" jsonschema:"maxItems=20"`
}

// planLine is what one line does.
type planLine struct {
	Line *name  `yaml:"line,omitempty" jsonschema_description:"its name, where there are several"`
	Jobs []name `yaml:"jobs" jsonschema_description:"jobs of the plan by their names, one after the other" jsonschema:"maxItems=200"`
}

// downtime is when a line is down.
type downtime struct {
	Line   *name       `yaml:"line,omitempty" jsonschema_description:"its name, where there are several"`
	Week   *weekNumber `yaml:"week,omitempty" jsonschema_description:"from 1; 1 if not given"`
	Day    *days       `yaml:"day" jsonschema_description:"of the week, 1 for its first"`
	Start  *clock      `yaml:"start" jsonschema_description:"time of day, such as \"10:00\""`
	Length *seconds    `yaml:"length" jsonschema_description:"such as 2 h"`
}

func (x *planJob) decode(r *reader, n *node, _ string)  { r.inside(n, "a job of the plan", x) }
func (x *planLine) decode(r *reader, n *node, _ string) { r.inside(n, "an item of order", x) }
func (x *downtime) decode(r *reader, n *node, _ string) { r.inside(n, "an item of down", x) }

// plan returns the plan of the model, and notes what it lacks and what it names wrongly; nil if none
// is given.
func (x *plan) plan(r *reader, tree *node, s *Shop) *Plan {
	if x == nil {
		return nil
	}
	n := child(tree, "plan")
	for _, key := range []string{"jobs", "calendar"} {
		if !hinted(tree, key) {
			r.note(n, "plan goes with %s, which is not given", key)
		}
	}
	for key, most := range map[string]int{"jobs": maxPlanJobs, "staff": maxStaff, "down": maxDowns, "order": maxOrders} {
		r.entries(n, key, most)
	}
	made := &Plan{Zone: string(or(x.Zone, "")), Starts: time.Time(or(x.Starts, date{}))}
	made.Plan = &seasons.Plan{
		Lines: s.lines(), Calendar: s.Calendar, Products: s.Products, Change: s.Changeover, Closing: x.Remakes.ofJobs(s), Begins: x.Hoppers.ofJobs(s),
		Shortest: or(x.Goal, planLateness) == planMakespan, Late: float64(or(x.Late, 0)),
	}
	if s.Line != nil {
		made.Crew = s.Line.Crew
	}
	jobs := child(tree, "jobs")
	if jobs == nil || jobs.Kind != sequenceNode || r.bad[jobs] || r.misnamed(jobs) || r.spoilt(n) {
		return made
	}
	if len(x.Jobs) == 0 {
		r.note(child(n, "jobs"), "the plan has no jobs")
	}
	x.fill(r, n, made, namesIn(jobs)[:len(s.Products)])
	x.Remakes.idle(r, n, s)
	return made
}

// lines returns all lines.
func (s *Shop) lines() []*model.Line {
	switch {
	case s.LineGroup != nil:
		return s.LineGroup.Lines
	case s.Line != nil:
		return []*model.Line{s.Line}
	}
	return nil
}

// fill puts what is listed into the plan.
func (x *plan) fill(r *reader, n *node, made *Plan, products []string) {
	var lines []string
	for _, l := range made.Lines {
		lines = append(lines, l.Name)
	}
	for i, j := range x.Jobs[:min(len(x.Jobs), maxPlanJobs)] {
		at := child(n, "jobs").Content[i]
		one := seasons.PlanJob{
			Name: string(or(j.Name, "")), Sets: int64(or(j.Sets, 0)), Due: sim.Seconds(math.Inf(1)), Priority: float64(or(j.Priority, 1)), InHand: -1,
			Product: r.numbered(child(at, "job"), "job", products),
		}
		if j.NotBefore != nil {
			one.NotBefore = j.NotBefore.of(r, child(at, "not_before"), made)
		}
		if j.Due != nil {
			one.Due = j.Due.of(r, child(at, "due"), made)
		}
		for _, on := range items(child(at, "on")) {
			one.Lines = append(one.Lines, r.numbered(on, "line", lines))
		}
		made.Jobs = append(made.Jobs, one)
	}
	for i, s := range x.Staff {
		r.staffed(child(n, "staff").Content[i], made.Calendar)
		r.absent(child(n, "staff").Content[i], &made.Crew)
		made.Staffed = append(made.Staffed, s.staffed())
	}
	for i, d := range x.Down {
		line := r.lineOf(child(n, "down").Content[i], lines, "say which line is down")
		from := planTime(d.Week, d.Day, d.Start)
		made.Down = append(made.Down, seasons.LineDown{Line: line, Window: seasons.Window{From: from, To: from + sim.Seconds(or(d.Length, 0))}})
	}
	x.ordered(r, n, made, lines)
}

// lineOf returns which line an item of a list is of, and notes it if that is wrong, or not said where it
// must be.
func (r *reader) lineOf(item *node, lines []string, wanted string) int {
	switch named := child(item, "line"); {
	case named != nil && len(lines) > 1:
		return r.numbered(named, "line", lines)
	case named != nil:
		r.note(named, "there is one line: leave out its name")
	case len(lines) > 1:
		r.note(item, "there are several lines: %s", wanted)
	}
	return 0
}

// ordered puts the order that is given, if one is, into the plan: each job of the plan stands in it once.
func (x *plan) ordered(r *reader, n *node, made *Plan, lines []string) {
	list := child(n, "order")
	if list == nil {
		return
	}
	var names []string
	for _, j := range made.Jobs {
		names = append(names, j.Name)
	}
	made.Order = make([][]int, len(made.Lines))
	lineAt, jobAt := map[int]int{}, map[int]int{} // in which line of the file each stands
	for _, item := range list.Content[:min(len(list.Content), maxOrders)] {
		line := r.lineOf(item, lines, "say whose order it is")
		if named := child(item, "line"); named == nil || !r.bad[named] {
			if before, twice := lineAt[line]; twice {
				r.note(item, "the order of this line stands in line %d already", before)
			}
			lineAt[line] = item.Line
		}
		for _, job := range items(child(item, "jobs")) {
			j := r.numbered(job, "job of the plan", names)
			if before, twice := jobAt[j]; twice && !r.bad[job] {
				r.note(job, "job %s stands in line %d of the order already", job.Value, before)
			}
			jobAt[j] = job.Line
			made.Order[line] = append(made.Order[line], j)
		}
	}
	for j, name := range names {
		if _, stands := jobAt[j]; !stands && !r.spoilt(list) {
			r.note(list, "job %s is missing in the order: each job of the plan stands in it once", name)
		}
	}
}

// numbered returns which of some names a node says, and notes it if it is none.
func (r *reader) numbered(n *node, item string, names []string) int {
	i := slices.Index(names, n.Value)
	if i < 0 {
		r.note(n, "no %s is named %q: %s", item, n.Value, r.meant(n.Value, names))
		return 0
	}
	return i
}

// items returns the items of a list.
func items(n *node) []*node {
	if n == nil {
		return nil
	}
	return n.Content
}

func ints[T ~int](given []T) []int {
	var all []int
	for _, x := range given {
		all = append(all, int(x))
	}
	return all
}

// planGoal is what a plan is to be best in.
type planGoal string

const (
	planLateness planGoal = "lateness"
	planMakespan planGoal = "makespan"
)

var planGoals = []string{string(planLateness), string(planMakespan)}

func (x *planGoal) read(text string) error {
	if !slices.Contains(planGoals, text) {
		return want(model.OneOf(planGoals), guess(text, planGoals))
	}
	*x = planGoal(text)
	return nil
}

// date is a day.
type date time.Time

const wantDate = `a date such as "2026-03-23"`

func (x *date) read(text string) error {
	at, err := time.Parse(time.DateOnly, text)
	if err != nil || at.Year() < 1970 || at.Year() > 2200 {
		return want(wantDate, nil)
	}
	*x = date(at)
	return nil
}

// zone is a time zone by its name in the database of the IANA.
type zone string

const wantZone = "a time zone such as Europe/Paris or UTC"

func (x *zone) read(text string) error {
	if _, err := time.LoadLocation(text); err != nil || text == "" || text == "Local" {
		return want(wantZone, errors.New("the database of time zones has no such name"))
	}
	*x = zone(text)
	return nil
}

type (
	weekNumber  int
	shiftNumber int
	planPeople  int
)

func (x *weekNumber) read(text string) error  { return whole(x, text, 1, maxWeekNo) }
func (*weekNumber) number()                   {}
func (x *shiftNumber) read(text string) error { return whole(x, text, 1, maxOfDay) }
func (*shiftNumber) number()                  {}
func (x *planPeople) read(text string) error  { return whole(x, text, 0, 100) }
func (*planPeople) number()                   {}

// planShare is how many times as bad something is.
type planShare float64

const mostPriority = 1000

func (x *planShare) read(text string) error {
	v, err := parseNumber(text)
	if err == nil && !(v <= mostPriority) {
		err = errNoNumber
	}
	if err != nil {
		return want("a number from 0 to 1000", err)
	}
	*x = planShare(v)
	return nil
}
func (*planShare) number() {}
