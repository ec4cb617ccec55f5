package lines

import (
	"errors"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/sim"
)

// runLineGroup runs the lines of a scenario that share a crew and, in the same shifts, each of
// them with as many people to itself.
func (o *runFlags) runLineGroup(e desk.Env, about desk.Subject, plan sim.Plan) error {
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.GroupRun{Alternative: study.Alternative{Name: about.Name, File: about.File, Group: about.LineGroup, Costs: about.Costs}, Plan: plan, Draws: int(*o.uncertainty)}
	var names []string
	for _, l := range about.LineGroup.Lines {
		names = append(names, l.Name)
	}
	a, early := desk.Asked(e, "shift", shiftByShift(o.Outputs, names, q.Ask), func(a *study.GroupRunAnswer) study.Settings { return a.Settings })
	if a == nil {
		return early
	}
	x := present.Group{GroupRunAnswer: a, Origin: page.OriginOf(about), Command: about.Again + o.uncertainty.again(about.LineGroup.Lines...), Slips: slips(about.Scenario)}
	return errors.Join(early, page.Tell(e, o.Outputs, x))
}
