package sweeps

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
	"netrate/sim/output"
)

type sweepDocument struct {
	Format int `json:"netrate_sweep_json"`
	page.LineDocument
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
	Text   string      `json:"text"`
	Number page.Number `json:"number"`
}

type peakJSON struct {
	At    page.Number `json:"at"`
	Low   page.Number `json:"low"`
	High  page.Number `json:"high"`
	Level page.Number `json:"level"`
	Edge  bool        `json:"edge"`
}

type pointJSON struct {
	Values        []string                 `json:"values"`
	NetRate       page.NetRateJSON         `json:"net_rate"`
	Change        *page.DifferenceJSON     `json:"change"`          // from the point before; null for the first, and with two paths
	FromBest      *page.DifferenceJSON     `json:"from_best"`       // null for the best
	NotShownWorse bool                     `json:"not_shown_worse"` // than the best
	Means         map[string]page.MeanJSON `json:"means"`           // of all figures of a shift
}

func (s *sweep) Document() any {
	doc := sweepDocument{
		Format: page.JSONVersion, LineDocument: page.DocumentOf(&s.Subject, s.points[0].study, s.finding()), Best: s.best,
	}
	for _, r := range s.vary {
		doc.Vary = append(doc.Vary, rangeOf(r))
	}
	var changes []output.Comparison
	if c := s.curve; c != nil {
		changes = c.changes
		if p := c.peak; p != nil {
			doc.Peak = &peakJSON{page.Number(p.At), page.Number(p.Low), page.Number(p.High), say.Level, p.Edge}
		}
	}
	for i := range s.points {
		p := s.pointJSON(i)
		if i > 0 && changes != nil {
			p.Change = page.DifferenceOf(changes[i-1])
		}
		doc.Points = append(doc.Points, p)
	}
	return doc
}

func (s *sweep) pointJSON(i int) pointJSON {
	study := s.points[i].study
	p := pointJSON{NetRate: page.NetRateOf(study), NotShownWorse: s.rival(i), Means: map[string]page.MeanJSON{}}
	for _, v := range s.points[i].values {
		p.Values = append(p.Values, v.Text)
	}
	if i != s.best {
		p.FromBest = page.DifferenceOf(s.behind[i])
	}
	for _, f := range s.means() {
		e := study.Sample(f.Of).Interval(say.Level)
		p.Means[page.Column(f)] = page.MeanOf(e)
	}
	return p
}

func rangeOf(r scenarios.Range) rangeJSON {
	j := rangeJSON{Path: r.Path, Unit: r.Unit}
	for _, v := range r.Values {
		j.Values = append(j.Values, valueJSON{v.Text, page.Number(v.Number)})
	}
	return j
}
