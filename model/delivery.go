package model

import "netrate/sim"

// Delivery takes the finished envelopes, good or not, onto its belt. It is the last
// station of every line.
type Delivery struct {
	Place
	Faultless
	Belt Stock
}

// Kind says that it is a delivery.
func (d *Delivery) Kind() Kind { return Kind{Name: "delivery", Plural: "deliveries", Role: Delivers} }

// Clone returns a copy.
func (d *Delivery) Clone() Station { c := *d; return &c }

// Check notes what is wrong with the delivery.
func (d *Delivery) Check(l *Line, c *Checks) {
	c.Require(c.At() == len(l.Stations)-1, "kind", "%s is a delivery, but not the last station", d.Name)
	c.Stock(d.Belt, "belt", true)
}

// Parameters lists the sweep.
func (d *Delivery) Parameters(all *Parameters) { all.Stock("belt.sweep", &d.Belt) }

// Stocked returns the belt.
func (d *Delivery) Stocked() Stocked { return Stocked{&d.Belt, "belt full", false} }

// Handles says that no condemned set comes here.
func (d *Delivery) Handles(Response) bool { return false }

// Install returns the delivery in use.
func (d *Delivery) Install(seat *Seat) Unit {
	u := &delivery{seat: seat}
	u.belt.install(seat.s, seat.index, d.Belt, 1, nil)
	return u
}

// delivery is a delivery in use.
type delivery struct {
	seat *Seat
	belt stock
}

func (d *delivery) Begin() { d.belt.begin() }

func (d *delivery) End(cycle sim.Cycles, out *StationOutcome) {
	d.belt.close(cycle)
	out.Removed = d.seat.Handled(cycle)
	out.Stock = d.belt.task.Account()
}
