package scenarios

import (
	"netrate/model"
	"netrate/sim"
)

// maxStations is how many stations are looked at: the model takes no more.
const maxStations = 64

// standIn is the shift of a line for which no work is given.
const standIn sim.Seconds = 8 * 3600

// decode returns the scenario that a tree says, and notes what is wrong with it. With a
// problem noted the scenario is good for nothing.
func (r *reader) decode(tree *node) *Scenario {
	s, tracks := r.scenario(tree)
	if tree.Kind == mappingNode {
		for _, t := range tracks {
			r.check(t, s.lines(), len(tracks))
			r.keep(s.Never, t, tree)
		}
	}
	return s
}

// scenario returns what a tree says, whether its lines can be or not, and those lines that
// are all there.
func (r *reader) scenario(tree *node) (*Scenario, []track) {
	var f file
	r.tree = tree
	r.inside(tree, theScenario, &f)
	f.complete(r, tree)
	s := &Scenario{
		Name:     string(or(f.Name, "")),
		Question: string(or(f.Question, "")),
		Base:     string(or(f.Base, BaseName)),
		Run:      r.settings(or(f.Run, run{}), child(tree, "run")),
	}
	r.certain(tree)
	tracks := f.tracks(r, tree)
	s.Shop = f.shop(r, tree, tracks)
	s.Never = f.Policy.forbids()
	var whole []track
	for _, t := range tracks {
		if r.allThere(t) {
			whole = append(whole, t)
		}
	}
	return s, whole
}

// complete notes what a file lacks, or has and should not, besides what is always needed.
func (f *file) complete(r *reader, tree *node) {
	has := func(key string) bool { return child(tree, key) != nil }
	switch {
	case tree.Kind != mappingNode: // noted
	case has("line") && has("lines"):
		r.note(child(tree, "lines"), "the scenario has lines as well as line: give one of them")
	case !hinted(tree, "line") && !hinted(tree, "lines"):
		r.note(tree, "the scenario has no line")
	}
	if tree.Kind == mappingNode && !hinted(tree, "work") && !hinted(tree, "jobs") {
		r.note(tree, "the scenario has no work")
	}
}

// shop returns what is simulated.
func (f *file) shop(r *reader, tree *node, tracks []track) Shop {
	s := Shop{LineGroup: f.group(r, tree, tracks), NoWork: f.Work == nil, Target: float64(or(f.Target, 0))}
	for _, t := range tracks[:min(1, len(tracks))] {
		s.Line = t.Line
	}
	s.Products = r.products(f.Jobs, tree, tracks)
	s.Changeover = f.Changeover.changeover()
	var crew *model.Crew
	if s.Line != nil {
		crew = &s.Line.Crew
	}
	s.Calendar = r.calendar(f.Calendar, child(tree, "calendar"), crew)
	s.Season = f.Season.season(r, tree, &s)
	if s.LineGroup != nil {
		s.SeasonPlan, s.Season = f.Season.planned(r, s.Season, child(tree, "season"), &s), nil
	}
	s.Plan = f.Plan.plan(r, tree, &s)
	r.begun(f.Work, child(tree, "work"))
	s.Prices = f.Costs.costs(r, tree, tracks)
	if s.Prices != nil && (f.Costs.Volume != nil || f.Costs.Volumes != nil) {
		s.Costs = s.Prices
	}
	return s
}

// allThere reports whether all stations of a line are there, and notes what each of them lacks
// among the others.
func (r *reader) allThere(t track) bool {
	list, _ := find(t.tree, "line.stations")
	if n := len(t.of.Stations); n > maxStations {
		r.note(list, "the line has %d stations, want at most %d", n, maxStations)
		return false
	}
	for _, st := range t.of.Stations {
		if st.Machine == nil {
			return false // noted; the line without it would be another one
		}
	}
	for i, st := range t.of.Stations {
		if x, ok := st.Machine.(neighbour); ok {
			x.among(r, list.Content[i], list, t.Line)
		}
	}
	return true
}

// build returns a line of the model; what could not be read is zero.
func (f *file) build(name string, track line, policy linePolicy) *model.Line {
	job := or(f.Work, work{})
	l := &model.Line{
		Name:    name,
		Speed:   float64(or(track.Speed, 0)),
		Shift:   sim.Seconds(or(job.Shift, 0)),
		Job:     job.job(),
		Slow:    track.Slow.slow(),
		Begins:  job.Begins.beginning(sim.Seconds(or(job.Shift, 0))),
		Restart: track.Restart.time(),
		Crew:    f.crew(),
		Days:    track.Days.model(),
	}
	if f.Work == nil {
		l.Shift = standIn
	}
	for _, a := range track.Attributes {
		l.Attributes = append(l.Attributes, a.attribute())
	}
	for _, s := range track.Stations {
		if s.Machine != nil {
			l.Stations = append(l.Stations, s.Build(policy))
		}
	}
	return l
}

// crew returns the people, of whom there may be more in some shifts of a season or a plan.
func (f *file) crew() model.Crew {
	people := or(f.Crew, crew{})
	c, most := people.model(), 0
	if c.People == nil {
		return c
	}
	for _, s := range or(f.Plan, plan{}).Staff {
		most = max(most, int(or(s.Operators, 0)))
	}
	for _, s := range or(f.Season, season{}).Staff {
		most = max(most, int(or(s.Operators, 0)))
	}
	c.Reserve = max(0, min(most, namedPeople(&c))-c.Most()) // an item that has more than are named is wrong itself
	return c
}

// Default settings of a run.
var defaults = Settings{Seed: 1, Precision: 0.005, Min: 1000, Max: 20_000}

// widest is the least precision that can be asked for.
const widest = 0.5

func (r *reader) settings(given run, n *node) Settings {
	s := Settings{
		Seed:      uint64(or(given.Seed, seed(defaults.Seed))),
		Precision: float64(or(given.Precision, probability(defaults.Precision))),
		Min:       int(or(given.Min, replications(defaults.Min))),
		Max:       int(or(given.Max, replications(defaults.Max))),
	}
	if n == nil || r.spoilt(n) {
		return s
	}
	if !(s.Precision > 0 && s.Precision <= widest) {
		at := child(n, "precision")
		r.note(at, "precision is %s, want more than 0 and at most %v%%", shown(at), 100*widest)
	}
	switch {
	case s.Min <= s.Max:
	case given.Max == nil:
		r.note(child(n, "min"), "min is %d, more than max, which is %d where it is not given: give a max too", s.Min, s.Max)
	case given.Min == nil:
		r.note(child(n, "max"), "max is %d, less than min, which is %d where it is not given: give a min too", s.Max, s.Min)
	default:
		r.note(child(n, "max"), "max is %d, want at least min, which is %d", s.Max, s.Min)
	}
	return s
}
