package model

import "slices"

// AtJobs is a line that is set up for several jobs in turn. A strategy of it decides for all that any
// job uses; at a job those of its responses apply whose stations the job uses. A response is possible
// where it is so at each of these jobs.
type AtJobs struct {
	Line   *Line     // as it is when it is set up for none
	Jobs   []*Line   // set up for each; their stations have the names that they have in Line
	Shares []float64 // of the good envelopes, in the same order; 1 together
}

// AsItStands returns a line at the one work that it has.
func (l *Line) AsItStands() *AtJobs { return &AtJobs{l, []*Line{l}, []float64{1}} }

// Decisions returns what a strategy must decide, in order along the track: see [Line.Decisions].
// The stations are numbered as in the line that is set up for none.
func (a *AtJobs) Decisions() []Decision {
	var all []Decision
	for i := range a.Line.Stations {
		for _, f := range a.faults(i) {
			d := Decision{Station: i, Fault: f}
			for r := range Response(len(responseNames)) {
				if a.everywhere(i, f, func(l *Line, i int) bool { return l.allows(i, f, r) }) {
					d.Responses = append(d.Responses, r)
				}
			}
			if len(d.Responses) > 1 {
				all = append(all, d)
			}
		}
	}
	return all
}

// GuardedDecisions returns the decisions of a strategy that at no job lets a set go that could not be
// read or matched: see [Line.GuardedDecisions].
func (a *AtJobs) GuardedDecisions() []Decision {
	all := a.Decisions()
	for k, d := range all {
		guarded := slices.DeleteFunc(slices.Clone(d.Responses), func(r Response) bool { return r == Ship })
		if a.ofOneAddressee(d) && a.Line.Answer(d.Station, d.Fault) != Ship && len(guarded) > 0 {
			all[k].Responses = guarded
		}
	}
	return all
}

// ShipsUnread reports whether at any job a strategy lets sets go that could not be read or matched.
func (a *AtJobs) ShipsUnread(s Strategy) bool {
	for k, d := range a.Decisions() {
		if s[k] == Ship && a.ofOneAddressee(d) {
			return true
		}
	}
	return false
}

// Strategy returns the strategy that the line has.
func (a *AtJobs) Strategy() Strategy { return a.answers(a.Decisions()) }

// Answering returns copies of the line with another strategy, set up for each job. It panics unless
// there is a response for each decision.
func (a *AtJobs) Answering(s Strategy) []*Line { return a.answering(a.Decisions(), s) }

// Personalised reports whether the line has personalised pieces at any job.
func (a *AtJobs) Personalised() bool { return slices.ContainsFunc(a.Jobs, (*Line).Personalised) }

// Defective returns the share of the sets delivered that are defective on paper with the line's own
// strategy.
func (a *AtJobs) Defective() float64 {
	decisions := a.Decisions()
	return a.onPaper(decisions, a.answers(decisions)).Defective
}

// answers returns what the line itself has decided.
func (a *AtJobs) answers(decisions []Decision) Strategy {
	s := make(Strategy, len(decisions))
	for k, d := range decisions {
		s[k] = a.Line.Answer(d.Station, d.Fault)
	}
	return s
}

func (a *AtJobs) answering(decisions []Decision, s Strategy) []*Line {
	if len(s) != len(decisions) {
		panic("model: a strategy of another line")
	}
	var all []*Line
	for j, l := range a.Jobs {
		c := l.Clone()
		for k, d := range decisions {
			if a.has(j, d.Station, d.Fault) {
				*c.Stations[a.at(j, d.Station)].Answer(d.Fault) = s[k]
			}
		}
		all = append(all, c)
	}
	return all
}

// onPaper returns what a strategy comes to on paper at all jobs. With shares w of the good envelopes,
// net rates r, shares g of the sets started that are delivered good, d of the sets delivered that are
// defective, and m remakes for each set started, that is
//
//	net rate 1/Σ(w/r)    defective 1 − 1/Σ(w/(1−d))    remakes Σ(m w/g) / Σ(w/g)
//
// A job that delivers nothing good has all the time: the net rate is 0, and the other figures are its own.
func (a *AtJobs) onPaper(decisions []Decision, s Strategy) Candidate {
	lines := a.answering(decisions, s)
	if len(lines) == 1 {
		return lines[0].onPaper(s)
	}
	var hours, slow, started, wrong, again float64 // for one good envelope
	for j, l := range lines {
		c, good, w := l.onPaper(s), l.Analytic().Good, a.Shares[j]
		if !(c.NetRate > 0) {
			return c
		}
		hours, slow = hours+w/c.NetRate, slow+w/c.twice
		started, again = started+w/good, again+float64(c.Remakes*w)/good
		wrong += float64(w*c.Defective) / (1 - c.Defective)
	}
	return Candidate{Strategy: s, NetRate: 1 / hours, Defective: wrong / (1 + wrong), Remakes: again / started, twice: 1 / slow}
}

// onPaper returns what the line comes to, which has the strategy s, its own or one of several jobs.
func (l *Line) onPaper(s Strategy) Candidate {
	h := l.Analytic()
	stopped := 1/h.Efficiency - 1
	return Candidate{s, h.NetRate, h.Defective, h.Remakes, h.Speed * h.Good / (1 + float64(stopsLonger*stopped))}
}

// at returns which station of job j a station of the line is; -1 if the job does not use it.
func (a *AtJobs) at(j, station int) int {
	l := a.Jobs[j]
	if l == a.Line {
		return station
	}
	name := a.Line.Stations[station].Where().Name
	return slices.IndexFunc(l.Stations, func(s Station) bool { return s.Where().Name == name })
}

// has reports whether a station of the line can have a fault at job j.
func (a *AtJobs) has(j, station int, f Fault) bool {
	i := a.at(j, station)
	return i >= 0 && slices.Contains(a.Jobs[j].Faults(i), f)
}

// faults returns those that a station can have at any job.
func (a *AtJobs) faults(station int) []Fault {
	var all []Fault
	for j, l := range a.Jobs {
		if i := a.at(j, station); i >= 0 {
			for _, f := range l.Faults(i) {
				if !slices.Contains(all, f) {
					all = append(all, f)
				}
			}
		}
	}
	return all
}

// everywhere reports whether something holds at all jobs at which the station can have the fault.
func (a *AtJobs) everywhere(station int, f Fault, holds func(l *Line, i int) bool) bool {
	for j, l := range a.Jobs {
		if a.has(j, station, f) && !holds(l, a.at(j, station)) {
			return false
		}
	}
	return true
}

// ofOneAddressee reports whether at any job the decision is whether a set goes of which nobody knows
// that all its pieces are for one addressee.
func (a *AtJobs) ofOneAddressee(d Decision) bool {
	return !a.everywhere(d.Station, d.Fault, func(l *Line, i int) bool { return !l.ofOneAddressee(i, d.Fault) })
}
