package study

import "netrate/model/runs"

// LineAnswer is what one alternative came to.
type LineAnswer struct {
	Name      string      `json:"name"`
	Note      string      `json:"note,omitempty"`
	Changes   []string    `json:"changes,omitempty"`
	File      string      `json:"file,omitempty"`
	NetRate   NetRate     `json:"net_rate"`
	Target    *TargetMet  `json:"target,omitempty"` // nil without one
	Defective Number      `json:"defective_per_million"`
	CanBe     bool        `json:"can_be_defective"`
	Exposures []*Exposure `json:"exposures,omitempty"`        // one for each job if they have yearly volumes, else one
	Remakes   *Mean       `json:"remakes_per_1000,omitempty"` // of sets started; nil of a line that has none
	CrewBusy  Mean        `json:"crew_busy_share"`
	Rated     Number      `json:"rated_per_h"`
	Losses    []Loss      `json:"losses_per_h"`     // from Rated down to the net rate
	Jobs      []LineJob   `json:"jobs,omitempty"`   // if they have yearly volumes
	Scenes    []Scenes    `json:"scenes,omitempty"` // if a comparison was asked for them, of From and To alone, and not of line groups: one or, by yearly volumes, one for each job

	Of      Alternative            `json:"-"`
	Mix     *runs.Mix              `json:"-"` // its work by jobs; nil if it has one kind of work
	Study   *runs.Study            `json:"-"` // that leads: of the draws, or else at nominal values; of a line group of all its lines together
	Nominal *runs.Study            `json:"-"` // the replications at nominal values
	Draws   *runs.UncertaintyStudy `json:"-"` // nil if nothing is uncertain, or it was not drawn
}

// Loss is a step from the rated speed down to the net rate.
type Loss struct {
	Name    string `json:"name"`
	PerHour Number `json:"per_h"`
}

// LineJob is a line at one job.
type LineJob struct {
	Name    string  `json:"name"`
	Share   Number  `json:"share"` // of the good envelopes
	Time    Number  `json:"time_share"`
	NetRate NetRate `json:"net_rate"`
	Hours   *Spread `json:"hours_per_year,omitempty"` // if it is known what they are worth
}

// answer returns what an alternative came to; it has a replication at least.
func (t *tried) answer() LineAnswer {
	s := t.leading()
	rated, losses, _ := s.Losses()
	a := LineAnswer{
		Name: t.Name, Note: t.Note, Changes: t.Changes, File: t.File,
		NetRate:   NetRateOf(s),
		Defective: Number(DefectivePerMillion(s)), CanBe: CanDeliverDefective(s),
		Exposures: ExposuresOf(s, t.Alternative),
		CrewBusy:  MeanOf(CrewBusy(s)), Rated: Number(rated),
		Of: *t.Alternative, Mix: t.mix, Study: s, Nominal: t.study, Draws: t.draws,
	}
	a.Target = metBy(s, t.Target)
	if t.personalised() {
		a.Remakes = new(MeanOf(RemakesIn(s)))
	}
	for _, l := range losses {
		a.Losses = append(a.Losses, Loss{l.Name, Number(l.PerHour)})
	}
	a.Jobs = lineJobs(s)
	return a
}

// lineJobs returns what a line delivers of each of its jobs; nil if it has one kind of work.
func lineJobs(s *runs.Study) (all []LineJob) {
	for _, j := range s.Jobs() {
		all = append(all, LineJob{Name: j.Study.Line.Name, Share: Number(j.Share), Time: Number(j.Time.Mean()), NetRate: NetRateOf(j.Study)})
	}
	return all
}
