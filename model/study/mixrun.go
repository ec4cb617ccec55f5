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
	if err := drawsFit(all, q.Draws); err != nil {
		return nil, err
	}
	var watch func(int, standing)
	var drawn func(int)
	if told != nil {
		watch = func(replication int, so standing) {
			told(Sofar[MixRunAnswer]{
				Done: replication + 1, Most: q.Plan.Max, Replication: so.last,
				Answer: func() *MixRunAnswer { return mixRunAnswer(so.kept()[0]) },
			})
		}
		drawn = func(draw int) {
			told(Sofar[MixRunAnswer]{Done: draw + 1, Most: q.Draws, Draws: true, Answer: func() *MixRunAnswer { return mixRunAnswer(kept(all)[0]) }})
		}
	}
	if err := runTogether(ctx, all, q.Plan, nil, watch); err != nil || len(all[0].study.Shifts) == 0 {
		return nil, err
	}
	if all[0].study.Ending != sim.Cancelled {
		if err := drawAll(ctx, all, q.Plan, q.Draws, drawn); err != nil {
			return nil, err
		}
	}
	return mixRunAnswer(all[0]), nil
}

func mixRunAnswer(t *tried) *MixRunAnswer {
	s := t.study
	a := &MixRunAnswer{
		Settings: SettingsOf(s.Plan, len(s.Shifts), s.Ending), Basis: basisOfAll([]*tried{t}),
		Line: t.answer(), Uncertainty: UncertaintyOf(t.draws),
	}
	if t.draws != nil {
		a.AtNominal = new(NetRateOf(s))
	}
	return a
}
