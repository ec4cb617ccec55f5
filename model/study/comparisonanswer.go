package study

import (
	"slices"

	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
	"netrate/sim/output"
)

// ComparisonAnswer is what a comparison came to. Numbers of alternatives count from 0, the base,
// in the order of the question.
type ComparisonAnswer struct {
	Settings    Settings               `json:"settings"`
	Basis       Basis                  `json:"rests_on"` // what all figures rest on, but what says that it is at nominal values
	Lines       []LineAnswer           `json:"lines"`    // the base first
	Best        ComparisonBest         `json:"best"`
	Pairs       *ComparisonPairs       `json:"pairs,omitempty"`       // nil of a selection: it ended when the data said so, and intervals would be too narrow
	Leads       *ComparisonLeads       `json:"leads,omitempty"`       // nil of a selection, and of a single replication
	Selection   *ComparisonSelected    `json:"selection,omitempty"`   // nil of a fixed number of replications
	Uncertainty *ComparisonUncertainty `json:"uncertainty,omitempty"` // nil if nothing is uncertain, or it was not drawn

	// Leader has the largest mean net rate, the first of equals, and Next the second largest.
	// Rival is what the leader is set against: the base, or if that leads the next.
	Leader int `json:"leader"`
	Next   int `json:"next"`
	Rival  int `json:"rival"`

	// Steps say why To delivers more or less than From, in the order of the losses: the leader and
	// its rival, unless others are asked for or, of lines with costs, recommended.
	Steps []ComparisonStep `json:"why"`
	From  int              `json:"why_from"`
	To    int              `json:"why_to"`
	asked bool             // for these two

	Candidates []int                 `json:"candidates,omitempty"` // those of Best; nil of a selection
	Compared   [][]output.Comparison `json:"-"`                    // Compared[i][k] sets k against i, all right at once; nil of a selection

	// In the answer at the end alone.
	Money *WorthAnswer `json:"money,omitempty"`            // nil if no line has costs, or they are left aside
	Aside *worth.Aside `json:"money_left_aside,omitempty"` // why
}

// ComparisonBest is which alternative is best, as far as is known.
type ComparisonBest struct {
	Name       string   `json:"name"`
	Shown      bool     `json:"shown"`                // nothing else may be as good or, of a selection, the promise is reached; of draws, it is the best with the probability [Level]
	Candidates []string `json:"candidates,omitempty"` // nothing is shown to be better than these; of draws, one of them is the best with that probability

	Probability *Number `json:"probability,omitempty"` // of draws: that it is the best of all in the long run
}

// ComparisonPairs is every alternative against every other, all intervals right at once.
type ComparisonPairs struct {
	Method string           `json:"method"`
	Level  Number           `json:"level"` // of all at once
	Pairs  []ComparisonPair `json:"pairs"`
}

// ComparisonPair is one alternative against another.
type ComparisonPair struct {
	Of            string `json:"of"`
	Against       string `json:"against"`
	Difference    Mean   `json:"difference_per_h"`
	Level         Number `json:"level"` // of this one
	Shown         bool   `json:"shown"`
	Wins          Number `json:"wins"`      // share of the replications
	Narrowing     Number `json:"narrowing"` // how many times wider the interval would be without common random numbers
	VarianceRatio Number `json:"variance_ratio"`
}

// ComparisonLeads is every alternative against the best of the others.
type ComparisonLeads struct {
	Method string           `json:"method"`
	Level  Number           `json:"level"`
	Leads  []ComparisonLead `json:"leads"`
}

// ComparisonLead is what an alternative is ahead of the best of the others, good envelopes an
// hour; negative if it is behind.
type ComparisonLead struct {
	Name string `json:"name"`
	Mean Number `json:"mean_per_h"`
	Low  Number `json:"low_per_h"`
	High Number `json:"high_per_h"`
}

// ComparisonUncertainty is how far alternatives and their differences from the base are known.
type ComparisonUncertainty struct {
	Lines []ComparisonUncertain `json:"lines"` // in their order

	Rival UncertaintyAhead `json:"leader_to_rival"` // what the leader is ahead of its rival
}

// ComparisonUncertain is how far an alternative is known, by its net rate.
type ComparisonUncertain struct {
	Name    string       `json:"name"`
	NetRate *Uncertainty `json:"net_rate"`
	Ahead   *Uncertainty `json:"to_base,omitempty"`          // nil of the base
	Sure    *Number      `json:"sure_to_be_ahead,omitempty"` // probability that it is, in the long run
	Best    Number       `json:"probability_best"`           // of all, in the long run
}

// leadsMethod is how alternatives are set against the best of the others.
const leadsMethod = "comparisons with the best of the others (Hsu), each pair's own variance, Bonferroni"

// compared compares alternatives that were run.
//
// Each is compared with each, and all intervals are right at once: so those of the best
// are too, though it is the data that say which one is the best. The intervals for the
// lead over the best of the others ([output.Leads]) are right at once by themselves, not
// together with these, and stop at zero, so they cannot say by how much a line is ahead.
// They are there for those who want them, and nothing that is said should rest on them.
func compared(all []*tried, selected *selection) *ComparisonAnswer {
	a := &ComparisonAnswer{}
	samples := make([]sim.Sample, len(all))
	for i, t := range all {
		samples[i] = t.leading().NetRates()
		a.Lines = append(a.Lines, t.answer())
	}
	a.rank(samples)
	a.Basis = basisOfAll(all)
	s := all[a.Leader].study
	a.Settings = SettingsOf(s.Plan, len(s.Shifts), s.Ending).leadBy(all[a.Leader].draws)
	a.Best.Name = a.Lines[a.Leader].Name
	a.Explain(a.Rival, a.Leader)
	if selected != nil {
		a.Selection = selected.answer(a.Lines)
		a.Best.Shown = a.Selection.Promised
		return a
	}
	if all[0].draws != nil {
		a.compareDrawn(samples)
	} else {
		a.compare(samples)
	}
	return a
}

// ComparedStudies compares lines that were run in the same replications: their studies and what
// was drawn of them, nil where nothing was, are in the order of the alternatives.
func ComparedStudies(alternatives []Alternative, studies []*runs.Study, draws []*runs.UncertaintyStudy) *ComparisonAnswer {
	var all []*tried
	for i := range alternatives {
		all = append(all, &tried{Alternative: &alternatives[i], study: studies[i], draws: draws[i]})
	}
	return compared(all, nil)
}

// Personalised reports whether any of the lines has remakes.
func (a *ComparisonAnswer) Personalised() bool {
	return slices.ContainsFunc(a.Lines, func(x LineAnswer) bool { return x.Remakes != nil })
}

// rank finds the two with the largest means, the first of equals, and what the best is set
// against.
func (a *ComparisonAnswer) rank(samples []sim.Sample) {
	a.Leader, a.Next = 0, 1
	if samples[1].Mean() > samples[0].Mean() {
		a.Leader, a.Next = 1, 0
	}
	for i := 2; i < len(samples); i++ {
		switch mean := samples[i].Mean(); {
		case mean > samples[a.Leader].Mean():
			a.Leader, a.Next = i, a.Leader
		case mean > samples[a.Next].Mean():
			a.Next = i
		}
	}
	if a.Rival = 0; a.Leader == 0 {
		a.Rival = a.Next
	}
}

// compare compares each with each, and each with the best of the others.
func (a *ComparisonAnswer) compare(samples []sim.Sample) {
	a.Compared = Pairwise(samples)
	a.Pairs = &ComparisonPairs{Method: PairsMethod, Level: Level}
	a.pairs()
	if len(samples[0]) > 1 {
		a.Leads = &ComparisonLeads{Method: leadsMethod, Level: Level}
		for i, l := range output.Leads(samples, Level) {
			a.Leads.Leads = append(a.Leads.Leads, ComparisonLead{a.Lines[i].Name, Number(l.Mean), Number(l.Low), Number(l.High)})
		}
	}
	var open []int
	for i := range a.Lines {
		if !a.beaten(i) {
			open = append(open, i)
		}
	}
	a.candidates(open)
	a.Best.Shown = len(open) == 1
}

// pairs tells each against each.
func (a *ComparisonAnswer) pairs() {
	for _, pair := range output.AllPairs(len(a.Lines)) {
		p := a.Compared[pair[0]][pair[1]]
		d := p.Difference
		a.Pairs.Pairs = append(a.Pairs.Pairs, ComparisonPair{
			a.Lines[pair[1]].Name, a.Lines[pair[0]].Name, MeanOf(d), Number(d.Level), d.Shown(),
			Number(p.Wins), Number(p.Narrowing), Number(p.VarianceRatio),
		})
	}
}

// candidates says which may be best.
func (a *ComparisonAnswer) candidates(open []int) {
	a.Candidates = open
	for _, i := range open {
		a.Best.Candidates = append(a.Best.Candidates, a.Lines[i].Name)
	}
}

// beaten reports whether some other is shown to be better.
func (a *ComparisonAnswer) beaten(i int) bool {
	for k := range a.Lines {
		if k != i && a.Compared[i][k].Difference.Low() > 0 {
			return true
		}
	}
	return false
}
