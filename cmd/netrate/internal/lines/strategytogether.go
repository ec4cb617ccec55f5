package lines

import (
	"errors"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// together finds the strategies of all lines that share a crew.
func (o *strategyFlags) together(e desk.Env, about desk.Subject) error {
	plan, err := o.Fixed(e, about.Run, desk.UsualReps)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.StrategiesTogether{
		Group: about.LineGroup, MaxDefective: o.accepted(), AllowUnread: o.unread, Never: o.forbids(about),
		Volumes: map[string]float64{}, Plan: plan,
	}
	if why := q.Breach(); why != "" {
		return breached(why)
	}
	if about.Costs != nil {
		for name, volume := range about.Costs.Volumes {
			q.Volumes[name] = volume.Mean()
		}
	}
	a, early := desk.Asked(e, "shift", q.Ask, func(a *study.StrategiesTogetherAnswer) study.Settings { return a.Settings })
	if a == nil {
		if ended, is := errors.AsType[desk.Interrupted](early); is {
			return ended.Saying("the search had not come to its end, so there is no answer")
		}
		return early
	}
	x := present.StrategiesTogether{StrategiesTogetherAnswer: a, Origin: page.OriginOf(about), Command: o.again(about)}
	return errors.Join(early, page.Tell(e, o.Outputs, x))
}
