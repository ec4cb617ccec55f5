package affixer

import (
	"netrate/model"
	"netrate/sim"
)

// affixer puts a stamp from its roll onto each envelope that passes. Where it has no stamp the
// envelope goes without one, unless that is noticed and answered. It is invented, to show what
// a kind of station in another package takes.
type affixer struct {
	model.Place
	Roll model.Stock // stamps

	Misfeed float64 // probability of each attempt, at the rated speed
	Jam     float64
	Noticed float64 // probability that a misfeed is noticed

	OnMisfeed model.Response
	Clear     sim.Duration // an operator's work at a stop for a fault, after the walk
}

func (a *affixer) Kind() model.Kind {
	return model.Kind{Name: "stamp affixer"}
}

func (a *affixer) Clone() model.Station { c := *a; return &c }

func (a *affixer) Check(l *model.Line, c *model.Checks) {
	c.Behind(l, "stamp affixers")
	c.Faults([]string{"misfeed", "jam"}, []float64{a.Misfeed, a.Jam}, 1)
	c.Probability(a.Noticed, "noticed")
	c.Stock(a.Roll, "roll", false)
	c.Clear(a.Clear)
	c.Response(l, model.Misfeed, a.OnMisfeed)
}

func (a *affixer) Parameters(all *model.Parameters) {
	all.Fault(model.Misfeed, "misfeed", &a.Misfeed)
	all.Fault(model.Jam, "jam", &a.Jam)
	all.Duration("clear", &a.Clear)
	all.Stock("roll.refill", &a.Roll)
	all.Beside("noticed", &a.Noticed, true)
}

func (a *affixer) Faults(*model.Line) []model.Fault { return a.Counts() }
func (a *affixer) Counts() []model.Fault            { return []model.Fault{model.Misfeed, model.Jam} }

func (a *affixer) Answer(f model.Fault) *model.Response {
	if f == model.Misfeed {
		return &a.OnMisfeed
	}
	return nil
}

func (a *affixer) Refusal(l *model.Line, i int, _ model.Fault, r model.Response) string {
	return l.NoWay(i, r)
}

func (a *affixer) Leaks(*model.Line) []model.Leak {
	return model.Leaking(model.Misfeed, a.Misfeed*(1-a.Noticed), a.Misfeed*a.Noticed, a.OnMisfeed)
}

// Handles says that an envelope that is to leave gets no stamp.
func (a *affixer) Handles(model.Response) bool { return false }

func (a *affixer) Estimate(l *model.Line) model.AnalyticTerm {
	var t model.AnalyticTerm
	down := l.Down(a.Clear)
	t.Stop(a.Jam, down)
	t.Lost = a.Jam
	t.Answer(a.Misfeed*a.Noticed, a.OnMisfeed, down)
	for _, k := range a.Leaks(l) {
		t.Flawed += k.Rate
	}
	return t
}

func (a *affixer) Stocked() model.Stocked {
	return model.Stocked{Stock: &a.Roll, UsedUp: "roll empty", Pieces: true}
}

// Piece says that a stamp costs nothing but a price of its own.
func (a *affixer) Piece() model.Piece     { return model.Piece{Fed: true} }
func (a *affixer) Carries() *model.Stream { return nil }
func (a *affixer) Setting() model.Setting { return model.Setting{} }
func (a *affixer) Usual() []model.Usual {
	return []model.Usual{{Name: "noticed", Value: a.Noticed, Share: true}}
}

// unit is a stamp affixer in use.
type unit struct {
	*affixer
	*model.Seat
	noticed *sim.Stream
	fix     model.Stoppage
}

func (a *affixer) Install(seat *model.Seat) model.Unit {
	u := &unit{affixer: a, Seat: seat, noticed: seat.Stream("noticed"), fix: seat.Stoppage(a.Clear)}
	seat.Hopper(a.Roll)
	seat.Trials(u.happens, a.Misfeed, a.Jam)
	return u
}

// happens is an attempt out of the ordinary.
func (u *unit) happens(outcome int, set sim.Cycles) {
	fault := u.Counts()[outcome]
	seen := fault == model.Jam || u.noticed.Chance(u.Noticed)
	u.Count(fault, set, seen)
	switch {
	case fault == model.Jam:
		u.fix.Arise(fault)
		u.Spoil(set, fault, 1)
	case !seen:
		u.Flaw(set, fault, 0)
	case u.OnMisfeed == model.Stop:
		u.fix.Arise(fault) // the operator puts the stamp on
	case u.OnMisfeed == model.Ship:
		u.Flaw(set, fault, 0)
	default:
		u.Condemn(set, fault, u.OnMisfeed, 0)
	}
}
