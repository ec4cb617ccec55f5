package main

import (
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// The documents of sweep and sensitivity begin alike; each has a version of its own.
type lineDocument struct {
	Version  string       `json:"version"`
	Scenario scenarioJSON `json:"scenario"`
	Settings settingsJSON `json:"settings"`
	Finding  string       `json:"finding"`
}

func (s *subject) document(study *model.Study, finding string) lineDocument {
	return lineDocument{
		version(),
		scenarioJSON{s.Name, s.Question, s.File, s.Digest, string(s.source)},
		settingsJSON{
			study.Plan.Seed, len(study.Shifts), study.Plan.Min, study.Plan.Max, number(study.Plan.Precision),
			endingWord(study.Ending), study.Ending == sim.Cancelled,
		},
		finding,
	}
}

type sweepDocument struct {
	Format int `json:"netrate_sweep_json"`
	lineDocument
	Vary   []rangeJSON `json:"vary"`
	Peak   *peakJSON   `json:"peak"` // null where none is looked for
	Best   int         `json:"best"` // index of the point
	Points []pointJSON `json:"points"`
}

type rangeJSON struct {
	Path   string      `json:"path"`
	Unit   string      `json:"unit"`
	Values []valueJSON `json:"values"`
}

type valueJSON struct {
	Text   string `json:"text"`
	Number number `json:"number"`
}

type peakJSON struct {
	At    number `json:"at"`
	Low   number `json:"low"`
	High  number `json:"high"`
	Level number `json:"level"`
	Edge  bool   `json:"edge"`
}

type pointJSON struct {
	Values        []string        `json:"values"`
	NetRate       netRateJSON     `json:"net_rate"`
	Change        *differenceJSON `json:"change"`          // from the point before; null for the first, and with two paths
	FromBest      *differenceJSON `json:"from_best"`       // null for the best
	NotShownWorse bool            `json:"not_shown_worse"` // than the best
	Means         map[string]mean `json:"means"`           // of all figures of a shift
}

// differenceJSON is a paired difference of net rates, good envelopes an hour.
type differenceJSON struct {
	mean
	Level number `json:"level"`
	Wins  number `json:"wins"` // share of the shifts in which it was above 0
}

func differenceOf(c sim.Comparison) *differenceJSON {
	d := c.Difference
	return &differenceJSON{mean{number(d.Mean), number(d.Half)}, number(d.Level), number(c.Wins)}
}

func (s *sweep) document() any {
	doc := sweepDocument{
		Format: jsonVersion, lineDocument: s.subject.document(s.points[0].study, s.finding()), Best: s.best,
	}
	for _, r := range s.vary {
		doc.Vary = append(doc.Vary, rangeOf(r))
	}
	var changes []sim.Comparison
	if c := s.curve; c != nil {
		changes = c.changes
		if p := c.peak; p != nil {
			doc.Peak = &peakJSON{number(p.At), number(p.Low), number(p.High), level, p.Edge}
		}
	}
	for i := range s.points {
		p := s.pointJSON(i)
		if i > 0 && changes != nil {
			p.Change = differenceOf(changes[i-1])
		}
		doc.Points = append(doc.Points, p)
	}
	return doc
}

func (s *sweep) pointJSON(i int) pointJSON {
	study := s.points[i].study
	p := pointJSON{NetRate: netRateOf(study), NotShownWorse: s.rival(i), Means: map[string]mean{}}
	for _, v := range s.points[i].values {
		p.Values = append(p.Values, v.Text)
	}
	if i != s.best {
		p.FromBest = differenceOf(s.behind[i])
	}
	for _, f := range s.means() {
		e := study.Sample(f.Of).Interval(level)
		p.Means[column(f)] = mean{number(e.Mean), number(e.Half)}
	}
	return p
}

func rangeOf(r scenarios.Range) rangeJSON {
	j := rangeJSON{Path: r.Path, Unit: r.Unit}
	for _, v := range r.Values {
		j.Values = append(j.Values, valueJSON{v.Text, number(v.Number)})
	}
	return j
}
