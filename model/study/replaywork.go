package study

import (
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/setup"
)

// A period may hold several jobs and speeds, and not every station feeds in each. Each is
// simulated by itself, on the line as it was then: set up for the job, where the scenario has it,
// and with the feeds that the counts give each station.

// ReplayWork is a part of a period: one job at one speed.
type ReplayWork struct {
	Job   string  // "" if not given
	Speed float64 // cycles per hour; 0 if not given
	Sets  int64
	SetUp bool     // the line was set up for the job
	Idle  []string // stations that fed nothing in it, and were taken out
	Parts []ReplayPart

	line *model.Line // nil for that of the scenario
}

// ReplayPart is a station that fed a part of the sets of some work.
type ReplayPart struct {
	Station string
	Share   float64
}

// whole is the share of the sets from which on a station is taken to feed every set that reaches
// it: what is missing was lost before it.
const whole = 0.97

// stretches divides the work of each period, and finds the line of each part.
func (a *ReplayAnswer) stretches() {
	s := a.Log.Find(a.Work)
	if s == nil {
		return
	}
	workOf := s.divider()
	for _, c := range s.Counts {
		if c.Feeds == 0 {
			continue
		}
		at, _ := c.begins(a.starts)
		p, w := &a.Periods[a.periodAt(at)], workOf(c.Job, c.Speed)
		k := slices.IndexFunc(p.Work, func(o ReplayWork) bool { return o.Job == w.job && o.Speed == w.speed })
		if k < 0 {
			k = len(p.Work)
			p.Work = append(p.Work, ReplayWork{Job: w.job, Speed: w.speed})
		}
		p.Work[k].Sets += c.Feeds
	}
	a.feeds = map[feedsKey]int64{}
	for _, s := range a.Log.Stations {
		for _, c := range s.Counts {
			at, _ := c.begins(a.starts)
			w := workOf(c.Job, c.Speed)
			a.feeds[feedsKey{s.Name, w, a.within(w, a.periodAt(at))}] += c.Feeds
		}
	}
	met := map[feedsKey]*ReplayWork{}
	for i := range a.Periods {
		for k := range a.Periods[i].Work {
			w := &a.Periods[i].Work[k]
			key := feedsKey{work: logWork{w.Job, w.Speed}, period: a.within(logWork{w.Job, w.Speed}, i)}
			if same := met[key]; same != nil {
				w.SetUp, w.Idle, w.Parts, w.line = same.SetUp, same.Idle, same.Parts, same.line
				continue
			}
			a.asFed(w, key)
			met[key] = w
		}
	}
}

// feedsKey is some work of a station: of all periods where its job is known, else of one.
type feedsKey struct {
	station string
	work    logWork
	period  int
}

// within returns the period that the feeds of some work are taken of; −1 for all.
func (a *ReplayAnswer) within(w logWork, period int) int {
	if w.job != "" {
		return -1
	}
	return period
}

// asFed finds the line of some work: set up for its job, without the stations that fed nothing in
// it, and with the share of those that fed a part of the sets.
func (a *ReplayAnswer) asFed(w *ReplayWork, key feedsKey) {
	line := a.Line
	if i := slices.IndexFunc(a.products, func(p *setup.Product) bool { return p.Name == w.Job }); i >= 0 && w.Job != "" {
		if fitted, _ := setup.Fitted(a.Line, a.products[i]); fitted != nil {
			line, w.SetUp = fitted, true
		}
	}
	key.station = a.Work
	sets := a.feeds[key]
	for _, s := range line.Stations {
		name := s.Where().Name
		counted := a.Log.Find(name)
		if counted == nil || counted.Feeds == 0 || name == a.Work || !counted.dividesLike(a.Log.Find(a.Work)) {
			continue
		}
		key.station = name
		share := float64(a.feeds[key]) / float64(sets)
		switch {
		case share == 0:
			if without := withoutStation(line, name); without != nil {
				line = without
				w.Idle = append(w.Idle, name)
			}
		case feedsSome(s) && (share < whole || line.ShareOf(s) < 1):
			w.Parts = append(w.Parts, ReplayPart{name, min(1, share)})
		}
	}
	if len(w.Parts) > 0 && line == a.Line {
		line = line.Clone()
	}
	for _, part := range w.Parts {
		feedAsCounted(line, part)
	}
	if line != a.Line {
		w.line = line
	}
}

// feedsSome reports whether a station can feed a part of the sets: of its own if it carries no stream,
// else those with an attribute.
func feedsSome(s model.Station) bool {
	feeds := s.Setting().Feeds
	return feeds != nil && feeds.Share != nil && (model.StreamOf(s).Name == "" || *feeds.Only != "")
}

// feedAsCounted lets a station of a line feed the share that was counted, which is then certain. One
// that carries a stream feeds the sets with its attribute, of which the line then has as many; of
// others each share is as counted, whatever they had in common.
func feedAsCounted(line *model.Line, part ReplayPart) {
	i := slices.IndexFunc(line.Stations, func(s model.Station) bool { return s.Where().Name == part.Station })
	s := line.Stations[i]
	feeds := s.Setting().Feeds
	certain := model.UncertainInput{Station: part.Station, Name: "share"}.Path()
	if model.StreamOf(s).Name == "" {
		*feeds.Share, *feeds.Only = part.Share, ""
	} else {
		k := slices.IndexFunc(line.Attributes, func(a model.Attribute) bool { return a.Name == *feeds.Only })
		line.Attributes[k].Share = part.Share
		certain = "line.attributes." + *feeds.Only + ".share"
	}
	line.UncertainInputs = slices.DeleteFunc(slices.Clone(line.UncertainInputs), func(d model.UncertainInput) bool { return d.Path() == certain })
}

// dividesLike reports whether the counts of a station say of which work they are as far as those
// of another do.
func (s *LogStation) dividesLike(other *LogStation) bool {
	own, theirs := s.divider()("job", 1), other.divider()("job", 1)
	return (own.job != "" || theirs.job == "") && (own.speed != 0 || theirs.speed == 0)
}

// withoutStation returns a copy of a line without a station; nil if it can make nothing then.
func withoutStation(l *model.Line, name string) *model.Line {
	without := l.Clone()
	without.Shift, without.Job, without.Begins = 0, model.Job{Sets: 1}, l.Begins.OfJob()
	without.Stations = slices.DeleteFunc(without.Stations, func(s model.Station) bool { return s.Where().Name == name })
	without.UncertainInputs = slices.DeleteFunc(slices.Clone(without.UncertainInputs), func(d model.UncertainInput) bool { return !without.Has(d) })
	if len(without.Check()) > 0 {
		return nil
	}
	return without
}

// simulated returns the work of each period as it is simulated.
func (a *ReplayAnswer) simulated() (work [][]runs.Stretch) {
	for _, p := range a.Periods {
		var of []runs.Stretch
		for _, w := range p.Work {
			s := runs.Stretch{Line: w.line, Sets: w.Sets}
			if w.Speed != a.lineOf(w).RunSpeed() {
				s.Speed = w.Speed
			}
			of = append(of, s)
		}
		work = append(work, of)
	}
	return work
}

// lineOf returns the line on which some work is simulated.
func (a *ReplayAnswer) lineOf(w ReplayWork) *model.Line {
	if w.line != nil {
		return w.line
	}
	return a.Line
}

// Jobs returns the jobs of the log for which the line was set up, and those that it has and the
// log's work was not set up for.
func (a *ReplayAnswer) Jobs() (setUp, not []string) {
	for _, p := range a.Periods {
		for _, w := range p.Work {
			to := &not
			if w.SetUp {
				to = &setUp
			}
			if w.Job != "" && !slices.Contains(*to, w.Job) {
				*to = append(*to, w.Job)
			}
		}
	}
	return setUp, not
}

// anyJob returns what is wrong where there are several jobs, and no work is of one of them.
func (a *ReplayAnswer) anyJob() error {
	if setUp, _ := a.Jobs(); len(a.products) < 2 || len(setUp) > 0 {
		return nil
	}
	var names []string
	for _, p := range a.products {
		names = append(names, p.Name)
	}
	return LogError{fmt.Sprintf("%s names none of the jobs %s: say with --job NAME which its work is of", a.Log.CountFile.Name, model.Listed(names))}
}

// Parted returns the stations that fed nothing in some work, and those that fed a part of the
// sets.
func (a *ReplayAnswer) Parted() (idle, parts []string) {
	for _, p := range a.Periods {
		for _, w := range p.Work {
			for _, name := range w.Idle {
				if !slices.Contains(idle, name) {
					idle = append(idle, name)
				}
			}
			for _, part := range w.Parts {
				if !slices.Contains(parts, part.Station) {
					parts = append(parts, part.Station)
				}
			}
		}
	}
	return idle, parts
}
