package study

import (
	"context"
	"errors"

	"netrate/sim"
)

// MixRun asks how many good envelopes an hour one line delivers at all its jobs, each in its share
// of the yearly volume.
type MixRun struct {
	Alternative Alternative // a single line, with costs that have yearly volumes of jobs
	Plan        sim.Plan    // of shifts of each job
	Draws       int         // of what is uncertain; 0 for none, else [UncertaintyLeast] or more
}

// MixRunAnswer is what a line came to at all its jobs: those are in its Jobs.
type MixRunAnswer struct {
	Settings    Settings     `json:"settings"`
	Basis       Basis        `json:"rests_on"`                             // what all figures rest on, but what says that it is at nominal values
	AtNominal   *NetRate     `json:"net_rate_at_nominal_values,omitempty"` // where draws lead
	Line        LineAnswer   `json:"line"`
	Uncertainty *Uncertainty `json:"uncertainty,omitempty"` // nil if nothing is uncertain, or it was not drawn
}

// Check returns why the question cannot be asked; nil if it can.
func (q *MixRun) Check() error {
	_, err := q.tried()
	return err
}

func (q *MixRun) tried() ([]*tried, error) {
	all := []*tried{{Alternative: &q.Alternative}}
	if q.Alternative.Line == nil || len(q.Alternative.volumes()) == 0 {
		return nil, errors.New("a mix is of one line and the yearly volumes of its jobs")
	}
	return all, setUpJobs(all)
}

// Ask runs shifts of each job, and draws what is uncertain. After each shift of all jobs and each
// draw it calls told, if there is one. When ctx is cancelled the answer is of what was done by
// then; it is nil if nothing was.
func (q MixRun) Ask(ctx context.Context, told func(Sofar[MixRunAnswer])) (*MixRunAnswer, error) {
	all, err := q.tried()
	if err != nil {
		return nil, err
	}
	return askAlone(ctx, all, q.Plan, q.Draws, told, mixRunAnswer)
}

func mixRunAnswer(t *tried) *MixRunAnswer {
	s := t.study
	a := &MixRunAnswer{
		Settings: SettingsOf(s.Plan, len(s.Shifts), s.Ending).leadBy(t.draws), Basis: basisOfAll([]*tried{t}),
		Line: t.answer(), Uncertainty: UncertaintyOf(t.draws),
	}
	if t.draws != nil {
		a.AtNominal = new(NetRateOf(s))
	}
	return a
}
