package lines

import (
	"errors"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/sim"
)

// runMix runs a line at all jobs that have a yearly volume.
func (o *runFlags) runMix(e desk.Env, about desk.Subject, plan sim.Plan) error {
	plan.Min, plan.Precision = min(plan.Max, plan.First()), 0
	if !o.Changed("reps") {
		plan.Max = plan.Min
	}
	q := study.MixRun{Alternative: page.AlternativeOf(about.Scenario, about.Name), Plan: plan, Draws: int(*o.uncertainty)}
	if err := q.Check(); err != nil {
		return desk.WrongAsked(about.Scenario, err)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	a, early := desk.Asked(e, "shift", shiftByShift(o.Outputs, nil, q.Ask), func(a *study.MixRunAnswer) study.Settings { return a.Settings })
	if a == nil {
		return early
	}
	m := present.Mix{MixRunAnswer: a, Origin: page.OriginOf(about), Command: about.Again + o.uncertainty.again(about.Line)}
	return errors.Join(early, page.Tell(e, o.Outputs, m))
}
