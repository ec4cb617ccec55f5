package model

import "netrate/sim"

// Device does one thing to every set that passes, on the track or, in its envelope, behind the
// inserter: it prints, affixes a card or a stamp, turns over, seals, weighs, franks. Its
// probabilities are those at its rated speed.
type Device struct {
	Place
	Does  string // what, in a word or two: "print"
	Only  string // the attribute of the sets that it does it to; "" for all sets
	Stock Stock  // what it uses up, a piece for each set: stamps, labels, prints to a cartridge; zero for nothing

	Misfeed float64 // probability of each attempt that nothing is done
	Jam     float64
	Noticed float64 // probability that a misfeed is noticed
	Growth  float64 // exponent of the growth of these two with speed; 0 for none

	OnMisfeed Response
	Clear     sim.Duration // an operator's work at a stop for a fault, after the walk; nil if all faults have a time of their own
	Clearings Clearings    // of faults that have a time of their own
}

var deviceFaults = []Fault{Misfeed, Jam}

var deviceClears = []FaultRate{{Misfeed, "misfeed"}, {Jam, "jam"}}

// Kind says that it is a device.
func (d *Device) Kind() Kind { return Kind{Name: "device"} }

// Clone returns a copy.
func (d *Device) Clone() Station { c := *d; return &c }

// Check notes what cannot be of the device.
func (d *Device) Check(l *Line, c *Checks) {
	l.requireAttribute(c, d.Only)
	c.Require(d.Does != "", "does", "%s does nothing: say what it does, such as print", d.Name)
	c.Faults([]string{"misfeed", "jam"}, []float64{d.Misfeed, d.Jam}, l.Growth(d.Rated, d.Growth))
	c.Growth(d.Place, d.Growth)
	c.Probability(d.Noticed, "noticed")
	if d.Stock != (Stock{}) {
		c.Stock(d.Stock, "stock", false)
	}
	c.Clearings(d.Clear, &d.Clearings, deviceClears)
	c.Response(l, Misfeed, d.OnMisfeed)
}

// Parameters lists its rates and times.
func (d *Device) Parameters(all *Parameters) {
	all.Fault(Misfeed, "misfeed", &d.Misfeed)
	all.Fault(Jam, "jam", &d.Jam)
	all.Clear(&d.Clear, &d.Clearings, deviceClears)
	all.Stock("stock.refill", &d.Stock)
	all.Beside("noticed", &d.Noticed, true)
	all.Beside("growth", &d.Growth, false)
}

// Faults returns what can come of an attempt.
func (d *Device) Faults(*Line) []Fault { return deviceFaults }

// Counts returns what can come of an attempt.
func (d *Device) Counts() []Fault { return deviceFaults }

// Answer returns where it keeps its response to a misfeed.
func (d *Device) Answer(f Fault) *Response {
	if f == Misfeed {
		return &d.OnMisfeed
	}
	return nil
}

// Refusal returns why a misfeed cannot have the response.
func (d *Device) Refusal(l *Line, i int, _ Fault, r Response) string { return l.NoWay(i, r) }

// Leaks returns the misfeeds that go on.
func (d *Device) Leaks(l *Line) []Leak {
	p := d.odds(l)[0]
	return Leaking(Misfeed, p*(1-d.Noticed), p*d.Noticed, d.OnMisfeed)
}

// Handles says that nothing is done to a set that is condemned.
func (d *Device) Handles(Response) bool { return false }

// Estimate takes the stops for both faults, and the sets that they cost.
func (d *Device) Estimate(l *Line) AnalyticTerm {
	p := d.odds(l)
	down := func(f Fault) sim.Seconds { return l.Down(d.Clearings.Of(f, usually(d.Clear))) }
	var t AnalyticTerm
	t.Stop(p[1], down(Jam))
	t.Lost = p[1]
	t.Answer(p[0]*d.Noticed, d.OnMisfeed, down(Misfeed))
	for _, k := range d.Leaks(l) {
		t.Flawed += k.Rate
	}
	whole := term{AnalyticTerm: t}
	whole.scale(l.ShareOf(d))
	return whole.AnalyticTerm
}

// odds returns the probabilities of a misfeed and a jam at the speed the line runs at.
func (d *Device) odds(l *Line) [2]float64 {
	factor := l.Growth(d.Rated, d.Growth)
	return [2]float64{d.Misfeed * factor, d.Jam * factor}
}

// Stocked returns what it uses up.
func (d *Device) Stocked() Stocked {
	if d.Stock.Capacity == 0 {
		return Stocked{}
	}
	return Stocked{&d.Stock, "used up", true}
}

// Piece says that what it uses up costs nothing but a price of its own.
func (d *Device) Piece() Piece { return Piece{Fed: d.Stock.Capacity > 0} }

// Carries says that it carries no stream.
func (d *Device) Carries() *Stream { return nil }

// Usual returns the share noticed and the growth of its faults with speed.
func (d *Device) Usual() []Usual {
	return []Usual{{"noticed", d.Noticed, true}, {"growth", d.Growth, false}}
}

// Setting returns nothing to be set for a job.
func (d *Device) Setting() Setting { return Setting{} }

func (*Device) clears() []FaultRate { return deviceClears }

// device is a device in use.
type device struct {
	*Device
	*Seat
	noticed *sim.Stream
	fix     Stoppage
}

// Install returns the device in use.
func (d *Device) Install(seat *Seat) Unit {
	u := &device{Device: d, Seat: seat, noticed: seat.Stream("noticed"), fix: seat.stoppage(d.Clear, &d.Clearings)}
	if d.Stock.Capacity > 0 {
		seat.Hopper(d.Stock)
	}
	odds := d.odds(seat.Line())
	seat.Trials(u.happens, odds[:]...)
	seat.Grows(d.Growth)
	return u
}

// happens is an attempt out of the ordinary.
func (u *device) happens(outcome int, set sim.Cycles) {
	fault := deviceFaults[outcome]
	seen := fault == Jam || u.noticed.Chance(u.Noticed)
	u.Count(fault, set, seen)
	switch {
	case fault == Jam:
		u.fix.Arise(Jam)
		u.Spoil(set, Jam, 1)
	case seen && u.OnMisfeed == Stop:
		u.fix.Arise(Misfeed) // the operator does it by hand
	case seen && u.OnMisfeed != Ship:
		u.Condemn(set, Misfeed, u.OnMisfeed, 0)
	default:
		u.Flaw(set, Misfeed, 0)
	}
}
