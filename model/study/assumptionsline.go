package study

import (
	"slices"
	"strings"

	"netrate/model"
)

// assumed returns all that an answer rests on: what is stated, what that comes to, and what is
// taken where nothing is stated.
func (x *AssumptionBasis) assumed() []assumed {
	var all []assumed
	given := statedAssumptions{}
	for _, s := range x.Stated {
		given[[3]string{s.Line, s.Station, s.Key}] = s
		if key := strings.TrimPrefix(s.Key, "line."); key != "policy" && !strings.HasPrefix(key, "policy.") {
			all = append(all, statement(s)) // each response is an assumption of its own
		}
	}
	for _, l := range x.Lines {
		name := ""
		if x.Grouped {
			name = l.Name
		}
		for i := range all {
			if s := &all[i]; s.line == name && s.station != "" {
				s.rate(l)
			}
		}
		if x.Work == nil {
			of := limits(l)
			all = append(all, assumed{line: name, kind: AssumptionSpeed, key: "line.speed", number: l.RunSpeed(), limits: strings.Join(of, "\n"), source: given.speed(name, of)})
		}
		for _, s := range x.Work {
			all = append(all, statement(s))
		}
		if _, is := given[[3]string{name, "", "line.days"}]; !is {
			all = append(all, assumed{line: name, kind: AssumptionTaken, key: "line.days", text: Alike})
		}
		for _, station := range l.Stations {
			for _, a := range append(given.responses(name, station), takenFor(station)...) {
				a.line, a.station = name, station.Where().Name
				if _, is := given[[3]string{a.line, a.station, a.key}]; !is || a.kind != AssumptionTaken {
					all = append(all, a)
				}
			}
		}
	}
	for _, a := range append(x.people(), x.beginning()...) {
		if !slices.ContainsFunc(all, func(s assumed) bool { return s.key == a.key || strings.HasPrefix(s.key, a.key+".") }) {
			all = append(all, a)
		}
	}
	return all
}

// people returns what is taken of people where nothing is stated.
func (x *AssumptionBasis) people() []assumed {
	all := []assumed{
		{kind: AssumptionCrew, key: "crew.attends", text: x.Crew.Order.String()},
		{kind: AssumptionCrew, key: "crew.exhausted", text: x.Crew.Exhausted.String()},
		{kind: AssumptionTaken, key: "crew.wrong_repair", number: x.Crew.WrongRepair, share: true},
		{kind: AssumptionTaken, key: "crew.wrong_realign", number: x.Crew.WrongRealign, share: true},
	}
	if len(x.Crew.Breaks) == 0 {
		all = append(all, assumed{kind: AssumptionCrew, key: "crew.breaks", text: "none within the time simulated"})
	}
	if x.Crew.People == nil {
		all = append(all, assumed{kind: AssumptionCrew, key: "crew.people", text: "each may do all"})
	}
	if x.Crew.Help == 0 {
		all = append(all, assumed{kind: AssumptionCrew, key: "crew.help", text: "none: one operator at a fault"})
	}
	if slices.ContainsFunc(x.Lines, (*model.Line).BreaksDown) {
		if x.Crew.Technicians == 0 {
			all = append(all, assumed{kind: AssumptionCrew, key: "crew.technicians", text: "as many as are needed"})
		}
	} else {
		all = append(all, assumed{kind: AssumptionCrew, key: "breakdowns", text: "none: no stop needs a technician"})
	}
	return all
}

func statement(s AssumptionStatement) assumed {
	return assumed{line: s.Line, station: s.Station, key: s.Key, text: s.Value, source: s.Source}
}

// rate says of the rate of a fault what it is one of: it is that at the rated speed, and the
// material of the insert multiplies it.
func (a *assumed) rate(l *model.Line) {
	if a.kind != AssumptionStated || !slices.Contains([]string{"misfeed", "double", "jam", "envelope_misfeed", "flap"}, a.key) {
		return
	}
	for _, s := range l.Stations {
		if s.Where().Name != a.station {
			continue
		}
		a.rated = s.Where().Rated > 0
		for _, u := range s.Usual() {
			if u.Name == "material" && u.Value != 1 {
				a.material = u.Value
			}
		}
		return
	}
}

// limits returns what the line cannot go faster than: stations, and "" for the speed asked for.
func limits(l *model.Line) []string {
	speed := l.RunSpeed()
	var names []string
	if l.Speed == speed {
		names = append(names, "")
	}
	for _, s := range l.Stations {
		if s.Where().Rated == speed {
			names = append(names, s.Where().Name)
		}
	}
	return names
}

// takenFor returns what is taken for a station where nothing is stated.
func takenFor(s model.Station) []assumed {
	var all []assumed
	for _, u := range s.Usual() {
		all = append(all, assumed{kind: AssumptionTaken, key: u.Name, number: u.Value, share: u.Share})
	}
	if model.LotsOf(s) != nil {
		all = append(all, assumed{kind: AssumptionTaken, key: "lots", text: Alike})
	}
	return all
}

// beginning says how shifts begin, and that no cycle is slow if that is so; nothing of no line.
func (x *AssumptionBasis) beginning() []assumed {
	if len(x.Lines) == 0 {
		return nil
	}
	all := []assumed{{kind: AssumptionCrew, key: "work.begins", text: x.Lines[0].Begins.String()}}
	if !slices.ContainsFunc(x.Lines, func(l *model.Line) bool { return l.Slow.Given() }) {
		all = append(all, assumed{kind: AssumptionCrew, key: "line.slow", text: "never: at its speed from the first cycle on"})
	}
	return all
}

// Alike is what lots and days are taken to be of which nothing is stated.
const Alike = "all alike"
