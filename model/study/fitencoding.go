package study

import (
	"time"

	"netrate/sim/fit"
)

// MarshalJSON returns all that was learnt.
func (a *FitAnswer) MarshalJSON() ([]byte, error) {
	e := fitEncoding{Level: Number(a.Level), Seed: a.Seed, Draws: a.Draws, Partial: a.Partial, Log: a.Log.StopFile, Counts: a.Log.CountFile, Only: a.Log.Only}
	for i := range a.Stations {
		e.Stations = append(e.Stations, a.Stations[i].encoding())
	}
	e.Spread = a.Spread.encoding()
	return unescaped(e)
}

type fitEncoding struct {
	Level    Number               `json:"level"`
	Seed     uint64               `json:"seed"`
	Draws    int                  `json:"draws"`
	Partial  bool                 `json:"partial"` // stations at the end are missing
	Log      LogFile              `json:"log"`
	Counts   LogFile              `json:"counts"`
	Only     *LogOnly             `json:"only,omitempty"` // nothing if all rows were taken
	Stations []fitStationEncoding `json:"stations"`
	Spread   fitSpreadEncoding    `json:"spread"` // of days
}

type fitStationEncoding struct {
	Name     string               `json:"name"`
	Kind     string               `json:"kind,omitempty"`
	Feeds    int64                `json:"feeds"`
	Stops    int                  `json:"stops"`              // for whatever cause
	Nameless int                  `json:"no_cause,omitempty"` // of these: shared out among the causes in proportion, by rates of as many fewer feeds
	Faults   []fitRateEncoding    `json:"faults,omitempty"`
	Clearing *fitClearingEncoding `json:"clearing,omitempty"`
	ByFault  *fitByFaultEncoding  `json:"clearing_by_fault,omitempty"`
	Bursts   *fitBurstsEncoding   `json:"bursts,omitempty"`
}

func (s *FitStation) encoding() fitStationEncoding {
	e := fitStationEncoding{Name: s.Name, Kind: s.As.Name, Feeds: s.Feeds, Stops: len(s.Stops), Nameless: s.Nameless.Stops, Clearing: s.Clearing.encoding(), ByFault: s.ByFault.encoding(), Bursts: s.burstsEncoding()}
	for _, f := range s.Faults {
		r := rateEncoding(f.Rate)
		r.Fault, r.Varies, r.Jobs, r.Speeds, r.Growth = f.Called, Number(f.Varies), f.Jobs.encoding(), f.Speeds.encoding(), growthEncoding(f.Growth)
		e.Faults = append(e.Faults, r)
	}
	return e
}

type fitRateEncoding struct {
	Fault  string               `json:"fault,omitempty"` // empty in a group
	Group  string               `json:"group,omitempty"`
	Seen   int64                `json:"seen"`
	Feeds  int64                `json:"feeds"`
	P      Number               `json:"p"`
	Low    Number               `json:"low"`
	High   Number               `json:"high"`
	AtMost Number               `json:"at_most"`
	Varies Number               `json:"varies,omitempty"` // times as much as independent ones, where they come in bursts: the interval allows for it
	Jobs   *fitDivisionEncoding `json:"by_job,omitempty"`
	Speeds *fitDivisionEncoding `json:"by_speed,omitempty"`
	Growth *fitGrowthEncoding   `json:"growth,omitempty"`
}

func rateEncoding(r fit.Rate) fitRateEncoding {
	return fitRateEncoding{Seen: r.Faults, Feeds: r.Feeds, P: Number(r.P), Low: Number(r.Low), High: Number(r.High), AtMost: Number(r.AtMost)}
}

type fitDivisionEncoding struct {
	P       Number            `json:"p"`
	Unsaid  int64             `json:"unsaid,omitempty"` // seen, and not said in which group: shared out
	Outside int64             `json:"outside"`          // seen in groups without feeds
	Groups  []fitRateEncoding `json:"groups"`
}

func (d *FitDivision) encoding() *fitDivisionEncoding {
	if d == nil {
		return nil
	}
	e := &fitDivisionEncoding{P: Number(d.Difference.P), Unsaid: d.Unsaid, Outside: d.Outside}
	for _, g := range d.Groups {
		r := rateEncoding(g.Rate)
		r.Group = g.Name
		e.Groups = append(e.Groups, r)
	}
	return e
}

type fitGrowthEncoding struct {
	Exponent  Number `json:"exponent"`
	SE        Number `json:"se"`
	Low       Number `json:"low"`
	High      Number `json:"high"`
	Reference Number `json:"reference_per_h"`
	P         Number `json:"p_at_reference"`
}

func growthEncoding(g *fit.Growth) *fitGrowthEncoding {
	if g == nil {
		return nil
	}
	return &fitGrowthEncoding{Number(g.Exponent), Number(g.SE), Number(g.Low), Number(g.High), Number(g.Reference), Number(g.Probability)}
}

type fitClearingEncoding struct {
	Stops  int               `json:"stops"`
	CutOff int               `json:"cut_off"`
	Zero   int               `json:"of_no_length"`
	Step   Number            `json:"rounded_to_s,omitempty"`
	From   int               `json:"from_arrival_on,omitempty"` // stops, all of them counted from the arrival of an operator on
	Kinds  []fitKindEncoding `json:"kinds"`                     // the best first
	Chosen string            `json:"chosen,omitempty"`
}

type fitByFaultEncoding struct {
	P      Number                          `json:"p"`                // of faults that all take as long
	Faults map[string]*fitClearingEncoding `json:"faults,omitempty"` // where they are shown to differ
	Others *fitClearingEncoding            `json:"others,omitempty"`
}

func (f *FitByFault) encoding() *fitByFaultEncoding {
	if f.Ranks == nil {
		return nil
	}
	e := &fitByFaultEncoding{P: Number(f.Ranks.P), Others: f.Rest.encoding()}
	for i := range f.Times {
		if e.Faults == nil {
			e.Faults = map[string]*fitClearingEncoding{}
		}
		e.Faults[f.Times[i].Called] = f.Times[i].encoding()
	}
	return e
}

type fitKindEncoding struct {
	Kind   string  `json:"kind"`
	Mean   Number  `json:"mean_s"`
	MeanSE Number  `json:"mean_se_s"`
	CV     Number  `json:"cv"`
	CVSE   Number  `json:"cv_se"`
	AIC    Number  `json:"aic"`
	KS     *Number `json:"ks,omitempty"`
	AD     *Number `json:"ad,omitempty"`
	P      *Number `json:"p,omitempty"` // if it was tested
}

func (c *FitClearing) encoding() *fitClearingEncoding {
	if c.Kinds == nil {
		return nil
	}
	e := &fitClearingEncoding{Stops: len(c.Lengths), CutOff: c.CutOff, Zero: c.Zeros, Step: Number(c.Step), From: c.Attended}
	if c.Chosen != nil {
		e.Chosen = c.Chosen.Kind.String()
	}
	for _, k := range c.Kinds.Candidates {
		kind := fitKindEncoding{
			Kind: k.Kind.String(), Mean: Number(k.Mean()), MeanSE: Number(k.MeanSE()),
			CV: Number(k.CV()), CVSE: Number(k.CVSE()), AIC: Number(k.AIC()),
		}
		if g := k.Goodness; g.Tested {
			ks, ad, p := Number(g.KS), Number(g.AD), Number(g.P)
			kind.KS, kind.AD, kind.P = &ks, &ad, &p
		}
		e.Kinds = append(e.Kinds, kind)
	}
	return e
}

type fitBurstsEncoding struct {
	Found        bool    `json:"found"`
	Stops        int     `json:"stops"`
	Periods      int     `json:"periods,omitempty"` // in which the stops were counted, as they name no moments; then there are no gaps
	Dispersion   Number  `json:"dispersion"`
	DispersionP  Number  `json:"dispersion_p"`
	Spread       *Number `json:"spread,omitempty"`
	SpreadP      *Number `json:"spread_p,omitempty"`
	Correlation  *Number `json:"correlation,omitempty"`
	CorrelationP *Number `json:"correlation_p,omitempty"`

	Where []fitBurstEncoding `json:"where,omitempty"`
}

// fitBurstEncoding is when a burst was.
type fitBurstEncoding struct {
	From     string `json:"from"` // its first stop, or the beginning of its first hour; a date alone if no more is known
	To       string `json:"to"`   // its last one, or the end of its last hour: before from where the counts date a whole night by its first day
	Shift    string `json:"shift,omitempty"`
	Job      string `json:"job,omitempty"`
	Speed    Number `json:"speed_per_h,omitempty"`
	Stops    int    `json:"stops"`
	Expected Number `json:"expected"`
}

func (s *FitStation) burstsEncoding() *fitBurstsEncoding {
	b := s.Bursts
	if b == nil {
		return nil
	}
	e := &fitBurstsEncoding{
		Found: s.InBursts(), Stops: b.Stops, Periods: b.Periods, Dispersion: Number(b.Dispersion), DispersionP: Number(b.DispersionP),
	}
	if b.Periods == 0 {
		for _, x := range []struct {
			to **Number
			is float64
		}{{&e.Spread, b.Spread}, {&e.SpreadP, b.SpreadP}, {&e.Correlation, b.Correlation}, {&e.CorrelationP, b.CorrelationP}} {
			is := Number(x.is)
			*x.to = &is
		}
	}
	const layout = "2006-01-02T15:04:05Z07:00"
	for _, f := range s.Found {
		layout := layout
		if f.Dated {
			layout = time.DateOnly
		}
		e.Where = append(e.Where, fitBurstEncoding{f.From.Format(layout), f.To.Format(layout), f.Shift, f.Job, Number(f.Speed), f.Stops, Number(f.Expected)})
	}
	return e
}

type fitSpreadEncoding struct {
	None     string                     `json:"not_looked_for,omitempty"` // why not
	Days     int                        `json:"days,omitempty"`
	Shared   *fitSharedEncoding         `json:"days_alike_for_all_stations,omitempty"` // nothing of fewer than two stations
	Stations []fitStationSpreadEncoding `json:"stations,omitempty"`
}

type fitSharedEncoding struct {
	CV     Number `json:"cv"`
	SE     Number `json:"se"`
	MeanSE Number `json:"mean_se"` // of the mean of the days, in proportion to it
	P      Number `json:"p"`       // of days that have nothing in common
}

type fitStationSpreadEncoding struct {
	Name    string `json:"name"`
	CV      Number `json:"cv"` // of all factors of a day, by maximum likelihood
	Low     Number `json:"low"`
	High    Number `json:"high"` // null: it has no end
	P       Number `json:"p"`    // of chance alone
	OwnP    Number `json:"own_p"`
	Lot     Number `json:"lot,omitempty"` // pieces; nothing if the station has no factors of its own
	LotCV   Number `json:"lot_cv,omitempty"`
	LotSE   Number `json:"lot_se,omitempty"`
	Assumed bool   `json:"lot_assumed,omitempty"` // nobody has said how many pieces
}

func (x *FitSpread) encoding() fitSpreadEncoding {
	e := fitSpreadEncoding{None: x.None, Days: x.Days}
	if s := x.Shared; s != nil {
		e.Shared = &fitSharedEncoding{Number(s.CV), Number(s.SE), Number(s.Mean), Number(s.P)}
	}
	for _, of := range x.Stations {
		s := fitStationSpreadEncoding{Name: of.Name, CV: Number(of.All.CV), Low: Number(of.All.Low), High: Number(of.All.High), P: Number(of.All.P), OwnP: Number(of.Own.P)}
		if of.Shown {
			s.Lot, s.LotCV, s.LotSE, s.Assumed = Number(of.Lot), Number(of.CV), Number(of.SE), !of.Stated
		}
		e.Stations = append(e.Stations, s)
	}
	return e
}
