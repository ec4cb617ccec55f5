package learn

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/sim/fit"
)

// fittingDocument is what a log and its counts say.
type fittingDocument struct {
	Format   int            `json:"netrate_fit_json"`
	Version  string         `json:"version"`
	Command  string         `json:"command"`
	Level    page.Number    `json:"level"`
	Seed     uint64         `json:"seed"`
	Draws    int            `json:"draws"`
	Finding  string         `json:"finding"`
	Log      study.LogFile  `json:"log"`
	Counts   study.LogFile  `json:"counts"`
	Only     *study.LogOnly `json:"only,omitempty"` // nothing if all rows were taken
	Stations []learntJSON   `json:"stations"`
	Notes    []string       `json:"notes"`
}

type learntJSON struct {
	Name     string      `json:"name"`
	Kind     string      `json:"kind,omitempty"`
	Feeds    int64       `json:"feeds"`
	Stops    int         `json:"stops"` // for whatever cause
	Faults   []rateJSON  `json:"faults,omitempty"`
	Clearing *clearJSON  `json:"clearing,omitempty"`
	Bursts   *burstsJSON `json:"bursts,omitempty"`
}

type rateJSON struct {
	Fault  string       `json:"fault,omitempty"` // empty in a group
	Group  string       `json:"group,omitempty"`
	Seen   int64        `json:"seen"`
	Feeds  int64        `json:"feeds"`
	P      page.Number  `json:"p"`
	Low    page.Number  `json:"low"`
	High   page.Number  `json:"high"`
	AtMost page.Number  `json:"at_most"`
	Jobs   *dividedJSON `json:"by_job,omitempty"`
	Speeds *dividedJSON `json:"by_speed,omitempty"`
	Growth *growthJSON  `json:"growth,omitempty"`
}

type dividedJSON struct {
	P       page.Number `json:"p"`
	Outside int64       `json:"outside"` // seen in groups without feeds
	Groups  []rateJSON  `json:"groups"`
}

type growthJSON struct {
	Exponent  page.Number `json:"exponent"`
	SE        page.Number `json:"se"`
	Low       page.Number `json:"low"`
	High      page.Number `json:"high"`
	Reference page.Number `json:"reference_per_h"`
	P         page.Number `json:"p_at_reference"`
}

type clearJSON struct {
	Stops  int          `json:"stops"`
	CutOff int          `json:"cut_off"`
	Zero   int          `json:"of_no_length"`
	Kinds  []fittedJSON `json:"kinds"` // the best first
	Chosen string       `json:"chosen,omitempty"`
}

type fittedJSON struct {
	Kind   string       `json:"kind"`
	Mean   page.Number  `json:"mean_s"`
	MeanSE page.Number  `json:"mean_se_s"`
	CV     page.Number  `json:"cv"`
	CVSE   page.Number  `json:"cv_se"`
	AIC    page.Number  `json:"aic"`
	KS     *page.Number `json:"ks,omitempty"`
	AD     *page.Number `json:"ad,omitempty"`
	P      *page.Number `json:"p,omitempty"` // if it was tested
}

type burstsJSON struct {
	Found        bool        `json:"found"`
	Stops        int         `json:"stops"`
	Dispersion   page.Number `json:"dispersion"`
	DispersionP  page.Number `json:"dispersion_p"`
	Spread       page.Number `json:"spread"`
	SpreadP      page.Number `json:"spread_p"`
	Correlation  page.Number `json:"correlation"`
	CorrelationP page.Number `json:"correlation_p"`
}

// document returns all that was learnt.
func (x *fitting) document(version string) fittingDocument {
	doc := fittingDocument{
		Format: page.JSONVersion, Version: version, Command: x.Command, Level: page.Number(x.Level), Seed: x.Seed, Draws: x.Draws,
		Finding: x.Finding(), Log: x.Log.StopFile, Counts: x.Log.CountFile, Only: x.Log.Only, Notes: x.Notes(),
	}
	for i := range x.Stations {
		s := &x.Stations[i]
		station := learntJSON{Name: s.Name, Kind: s.As.Name, Feeds: s.Feeds, Stops: len(s.Stops), Clearing: clearOf(&s.Clearing), Bursts: burstsOf(s)}
		for _, f := range s.Faults {
			r := rateOf(f.Rate)
			r.Fault, r.Jobs, r.Speeds, r.Growth = f.Called, dividedOf(f.Jobs), dividedOf(f.Speeds), growthOf(f.Growth)
			station.Faults = append(station.Faults, r)
		}
		doc.Stations = append(doc.Stations, station)
	}
	return doc
}

func rateOf(r fit.Rate) rateJSON {
	return rateJSON{Seen: r.Faults, Feeds: r.Feeds, P: page.Number(r.P), Low: page.Number(r.Low), High: page.Number(r.High), AtMost: page.Number(r.AtMost)}
}

func dividedOf(d *study.FitDivision) *dividedJSON {
	if d == nil {
		return nil
	}
	all := &dividedJSON{P: page.Number(d.Difference.P), Outside: d.Outside}
	for _, g := range d.Groups {
		r := rateOf(g.Rate)
		r.Group = g.Name
		all.Groups = append(all.Groups, r)
	}
	return all
}

func growthOf(g *fit.Growth) *growthJSON {
	if g == nil {
		return nil
	}
	return &growthJSON{page.Number(g.Exponent), page.Number(g.SE), page.Number(g.Low), page.Number(g.High), page.Number(g.Reference), page.Number(g.Probability)}
}

func clearOf(from *study.FitClearing) *clearJSON {
	if from.Kinds == nil {
		return nil
	}
	c := &clearJSON{Stops: len(from.Lengths), CutOff: from.CutOff, Zero: from.Zeros}
	if from.Chosen != nil {
		c.Chosen = from.Chosen.Kind.String()
	}
	for _, k := range from.Kinds.Candidates {
		f := fittedJSON{
			Kind: k.Kind.String(), Mean: page.Number(k.Mean()), MeanSE: page.Number(k.MeanSE()),
			CV: page.Number(k.CV()), CVSE: page.Number(k.CVSE()), AIC: page.Number(k.AIC()),
		}
		if k.Goodness.Tested {
			ks, ad, p := page.Number(k.Goodness.KS), page.Number(k.Goodness.AD), page.Number(k.Goodness.P)
			f.KS, f.AD, f.P = &ks, &ad, &p
		}
		c.Kinds = append(c.Kinds, f)
	}
	return c
}

func burstsOf(s *study.FitStation) *burstsJSON {
	b := s.Bursts
	if b == nil {
		return nil
	}
	return &burstsJSON{
		s.InBursts(), b.Stops, page.Number(b.Dispersion), page.Number(b.DispersionP),
		page.Number(b.Spread), page.Number(b.SpreadP), page.Number(b.Correlation), page.Number(b.CorrelationP),
	}
}
