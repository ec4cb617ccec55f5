package study

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim/output"
)

// Exposure is how defective envelopes come, counted in the replications: a mean in a million
// hides whether each shift has one, or one in twenty is ruined. An incident is a run of them,
// one delivered right after another. All intervals are of 95 %, exact or, of draws of what is
// uncertain, those of the long run of the line as it truly is.
type Exposure struct {
	Possible bool `json:"possible"` // a fault of the line makes defective envelopes, in the model
	// Defective envelopes were delivered, and no station says that it lets any go: a station's own
	// account of what it lets through is wrong, and so are all figures on paper.
	Unforeseen bool `json:"unforeseen,omitempty"`

	Job       string `json:"job,omitempty"`         // of several jobs, the one that this is of
	Line      string `json:"line,omitempty"`        // of several lines with one crew, the one that this is of
	Of        int64  `json:"replications"`          // shifts or, of a job, jobs
	Hit       int64  `json:"with_defective"`        // of these, those that delivered any
	Share     Number `json:"share_with_defective"`  // chance that a replication delivers any
	ShareLow  Number `json:"share_low"`             //
	ShareHigh Number `json:"share_high"`            //
	Delivered int64  `json:"delivered"`             // envelopes, good or defective
	Defective int64  `json:"defective"`             //
	Incidents int64  `json:"incidents"`             //
	Longest   int64  `json:"longest_run"`           // envelopes, of the longest incident
	Worst     Number `json:"worst_share_defective"` // of what the worst replication delivered

	From []ExposureSource `json:"from"`                   // the most incidents first
	Year *ExposureYear    `json:"a_year,omitempty"`       // nil where no yearly volume is known
	Zero *Zero            `json:"zero_assumes,omitempty"` // nil where some were defective

	Vary runs.DefectsVary `json:"-"` // how far draws differ
}

// ExposureSource is what one fault at one station delivered defective.
type ExposureSource struct {
	Station   string `json:"station"`
	Fault     string `json:"fault"`
	Personal  bool   `json:"personal"` // it puts one person's pieces with another's
	Incidents int64  `json:"incidents"`
	Envelopes int64  `json:"envelopes"` // defective; of a run some may be due to faults other than that of the first
}

// ExposureYear is how many incidents a year has.
type ExposureYear struct {
	Volume    Number `json:"good_envelopes"`
	Incidents Number `json:"incidents"`
	Low       Number `json:"low"`
	High      Number `json:"high"`
}

// ExposureOf returns what the replications of a line at one kind of work show; there is one at
// least.
func ExposureOf(s *runs.Study) *Exposure {
	e := &Exposure{
		Possible: s.Line.CanLeak(), Of: int64(len(s.Shifts)), Delivered: s.Total.Sets.Good + s.Total.Sets.Defective,
		Defective: s.Total.Sets.Defective, Longest: s.Total.LongestRun, From: []ExposureSource{}, Vary: s.DefectsVary(),
	}
	for i := range s.Shifts {
		x := &s.Shifts[i]
		if x.Defective > 0 {
			e.Hit++
			e.Worst = max(e.Worst, Number(x.Defective/(x.Good+x.Defective)))
		}
	}
	low, high := output.VaryingInterval(e.Hit, e.Of, e.Vary.Shifts, Level)
	e.Share, e.ShareLow, e.ShareHigh = Number(float64(e.Hit)/float64(e.Of)), Number(low), Number(high)
	if e.Defective > 0 && !e.Possible {
		e.Possible, e.Unforeseen = true, true
	}
	for i := range s.Total.Stations {
		e.add(s.Line, i, &s.Total.Stations[i])
	}
	slices.SortStableFunc(e.From, func(a, b ExposureSource) int {
		return cmp.Or(cmp.Compare(b.Incidents, a.Incidents), cmp.Compare(b.Envelopes, a.Envelopes))
	})
	if e.Defective == 0 {
		e.Zero = new(ZeroOf(s.Line))
	}
	return e
}

// add adds what a station delivered defective.
func (e *Exposure) add(l *model.Line, station int, o *model.StationOutcome) {
	for f := range o.Defective {
		if o.Defective[f] == 0 {
			continue
		}
		e.Incidents += o.Runs[f]
		e.From = append(e.From, ExposureSource{o.Name, model.Fault(f).String(), l.Matched(station), o.Runs[f], o.Defective[f]})
	}
}

// at says how many incidents a year has in which volume good envelopes are made; nothing where
// that is 0, or none was delivered. Each envelope delivered is a trial: an incident begins with it
// or not.
func (e *Exposure) at(volume float64) *Exposure {
	good := e.Delivered - e.Defective
	if !(volume > 0) || good == 0 {
		return e
	}
	low, high := output.VaryingInterval(e.Incidents, e.Delivered, e.Vary.Rate, Level)
	each := volume / float64(good)
	delivered := float64(e.Delivered)
	e.Year = &ExposureYear{Number(volume), Number(each * float64(e.Incidents)), Number(each * delivered * low), Number(each * delivered * high)}
	return e
}

// ExposuresOf returns what the replications of an alternative show: of several jobs each by
// itself, of several lines with one crew each, else of the one line at its one kind of work.
func ExposuresOf(s *runs.Study, a *Alternative) []*Exposure {
	all := exposuresIn(s)
	for _, e := range all {
		switch {
		case a.Costs == nil:
		case e.Line != "":
			e.at(a.Costs.Volumes[e.Line].Mean())
		case e.Job != "":
			e.at(a.Costs.Volumes[e.Job].Mean())
		default:
			e.at(a.Costs.Volume.Mean())
		}
	}
	return all
}

// exposuresIn returns the same of a study, without the volumes of a year.
func exposuresIn(s *runs.Study) (all []*Exposure) {
	for _, j := range s.Jobs() {
		e := ExposureOf(j.Study)
		e.Job = j.Study.Line.Name
		all = append(all, e)
	}
	for _, l := range s.Lines() {
		e := ExposureOf(l)
		e.Line = l.Line.Name
		all = append(all, e)
	}
	if all == nil {
		all = append(all, ExposureOf(s))
	}
	return all
}
