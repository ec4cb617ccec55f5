package model

import "netrate/sim"

// Delivery takes the finished envelopes, good or not, onto its belt. It is the last
// station of every line.
type Delivery struct {
	Place
	Belt Stock
}

func (d *Delivery) levers(all *levers) { all.stock("belt.sweep", &d.Belt) }

func (d *Delivery) clone() Station { c := *d; return &c }

func (d *Delivery) check(_ *Line, c *checks) { c.stock(d.Belt, "belt", true) }

func (d *Delivery) install(s *Sim, index int) unit {
	u := &delivery{s: s, index: index}
	u.belt.install(s, index, d.Belt, 1, u.delivered)
	return u
}

// delivery is a delivery in use.
type delivery struct {
	s     *Sim
	index int
	belt  stock
}

func (d *delivery) delivered(cycle sim.Cycles) int64 { return d.s.track.handled(d.index, cycle) }

func (d *delivery) begin() { d.belt.begin() }

func (d *delivery) end(cycle sim.Cycles, out *StationOutcome) {
	out.Removed = d.delivered(cycle)
	out.Stock = d.belt.task.Account()
}
