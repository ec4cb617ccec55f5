package model

import (
	"math/bits"

	"netrate/sim"
)

// Attribute is something that some sets have and others do not, such as a customer's card. Several
// stations may be only for the sets that have it.
type Attribute struct {
	Name  string
	Share float64 // of the sets that have it, in (0, 1]
}

// attribute returns the index of the attribute of a name; -1 if the line has none.
func (l *Line) attribute(name string) int {
	for i, a := range l.Attributes {
		if a.Name == name {
			return i
		}
	}
	return -1
}

// checkAttributes notes what cannot be of the attributes.
func (l *Line) checkAttributes(c *Checks) {
	for i, a := range l.Attributes {
		c.Require(a.Name != "", "line.attributes", "an attribute has no name")
		c.Require(l.attribute(a.Name) == i, "line.attributes", "two attributes are named %q", a.Name)
		c.Require(a.Share > 0 && a.Share <= 1, "line.attributes."+a.Name+".share", "the share of the attribute %s is %v, want a share above 0, at most 1", a.Name, a.Share)
	}
}

// selective is a station that may be only for the sets with an attribute.
type selective interface {
	// onlyFor returns the attribute; "" if it is for all sets.
	onlyFor(l *Line) string
}

func (f *Feeder) onlyFor(*Line) string { return f.Only }
func (d *Device) onlyFor(*Line) string { return d.Only }

// A reader is for the sets that are to have the stream that it reads.
func (r *Reader) onlyFor(l *Line) string {
	if lanes := l.LanesOf(r.Reads); r.Reads != "" && len(lanes) > 0 {
		return l.onlyFor(l.Stations[lanes[0]])
	}
	return ""
}

// onlyFor returns the attribute that a station is only for; "" if it is for all sets.
func (l *Line) onlyFor(s Station) string {
	if some, ok := s.(selective); ok {
		return some.onlyFor(l)
	}
	return ""
}

// requireAttribute notes that the line has no attribute that the station being looked at is only for.
func (l *Line) requireAttribute(c *Checks, only string) {
	if only != "" {
		c.Require(l.attribute(only) >= 0, "only", "%s is only for %s, and the line has no such attribute", l.Stations[c.station].Where().Name, only)
	}
}

// checkOnly notes what cannot be of the attribute that a feeder is only for.
func (f *Feeder) checkOnly(l *Line, c *Checks) {
	l.requireAttribute(c, f.Only)
	all := f.Only == ""
	c.Require(all || !f.Envelopes, "only", "%s is only for %s, and feeds envelopes: every set needs one", f.Name, f.Only)
	c.Require(all || f.Share == 1, "share", "%s is only for %s, and feeds a share of the sets: want one of them", f.Name, f.Only)
}

// share returns the share of the sets that the feeder is to feed.
func (f *Feeder) share(l *Line) float64 { return l.ShareOf(f) }

// ShareOf returns the share of the sets that a station is for, in (0, 1].
func (l *Line) ShareOf(s Station) float64 {
	if i := l.attribute(l.onlyFor(s)); i >= 0 {
		return l.Attributes[i].Share
	}
	if feeds := s.Setting().Feeds; feeds != nil && feeds.Share != nil {
		return *feeds.Share
	}
	return 1
}

// holders is which sets of a replication have an attribute. It draws one after the other, as
// far as anybody asks: whatever is asked and when, they are the same sets.
type holders struct {
	stations uint64 // those that are only for the attribute, a bit each
	random   *sim.Stream
	gap      sim.Gap
	drawn    []sim.Cycles // the last of their numbers that were drawn, each at its rank, from 0, less the bits that are not in mask
	mask     int64        // of all bits if none is forgotten
	n        int64        // how many were drawn; the last one is further on than any that was asked for
	lost     int64        // how many have left otherwise than as good sets
}

// newHolders returns the attributes that a station is only for.
func newHolders(s *Sim, end sim.Cycles) (all []*holders) {
	for _, a := range s.line.Attributes {
		h, streams := &holders{gap: sim.NewGap(a.Share)}, false
		for i, station := range s.line.Stations {
			if s.line.onlyFor(station) == a.Name {
				h.stations |= 1 << i
				streams = streams || StreamOf(station).Name != ""
			}
		}
		if h.stations == 0 {
			continue
		}
		h.random = s.stream(a.Name, "attribute")
		if h.mask = -1; streams { // of what is out of step it is asked for whom it is, however far away that is
			h.drawn = make([]sim.Cycles, 0, int64(min(mostHeld, float64(a.Share*s.line.most()*1.1)+1000)))
		} else {
			h.drawn = make([]sim.Cycles, 1<<bits.Len64(uint64(end)+4)) // more than stand on the line
			h.mask = int64(len(h.drawn)) - 1
		}
		all = append(all, h)
	}
	return all
}

// mostHeld is for how many sets with an attribute there is room from the start: of more, a replication
// makes some.
const mostHeld = 1 << 20

func (h *holders) begin() { h.n, h.lost = 0, 0 }

// draw draws the number of the next set that has the attribute.
func (h *holders) draw() {
	last := sim.Cycles(0)
	if h.n > 0 {
		last = h.at(h.n - 1)
	}
	last += sim.Cycles(h.gap.Draw(h.random))
	if i := h.n & h.mask; i < int64(len(h.drawn)) {
		h.drawn[i] = last
	} else {
		h.drawn = append(h.drawn, last)
	}
	h.n++
}

// at returns the number of the set of a rank from 0, which was drawn and is not forgotten.
func (h *holders) at(rank int64) sim.Cycles { return h.drawn[rank&h.mask] }

// nth returns the number of the n-th set that has the attribute, where none is forgotten.
func (h *holders) nth(n int64) sim.Cycles {
	for h.n < n {
		h.draw()
	}
	return h.at(n - 1)
}

// rank returns how many of the sets up to a number have the attribute. The set must not have left
// the line before the last one that was asked for came to it.
func (h *holders) rank(set sim.Cycles) int64 {
	if set <= 0 {
		return 0
	}
	for h.n == 0 || h.at(h.n-1) <= set {
		h.draw()
	}
	k := h.n
	for k > 0 && h.at(k-1) > set {
		if k--; h.mask >= 0 && h.n-k > h.mask {
			panic("model: asked whether a set has an attribute that has long left the line")
		}
	}
	return k
}

// lacking returns how many of the sets up to a number do not have it, as rank does of the others.
func (h *holders) lacking(set sim.Cycles) int64 { return int64(max(0, set)) - h.rank(set) }

// has reports whether a set has the attribute.
func (h *holders) has(set sim.Cycles) bool {
	k := h.rank(set)
	return k > 0 && h.at(k-1) == set
}

// only returns the attribute that station i is only for; nil if it is for all sets.
func (t *track) only(i int) *holders {
	for _, h := range t.attributes {
		if h.stations>>i&1 != 0 {
			return h
		}
	}
	return nil
}

// lacks returns the stations that are only for attributes that a set does not have, a bit each.
func (t *track) lacks(set sim.Cycles) (stations uint64) {
	for _, h := range t.attributes {
		if !h.has(set) {
			stations |= h.stations
		}
	}
	return stations
}

// loses counts a set that does not leave as a good one.
func (t *track) loses(o *odd) {
	for _, h := range t.attributes {
		if o.lacks&h.stations == 0 {
			h.lost++
		}
	}
}

// goodWith returns how many of the good sets delivered by the end of the cycle have the attribute,
// once all that have left are booked.
func (t *track) goodWith(h *holders, cycle sim.Cycles) int64 {
	last := min(cycle-t.end, t.last)
	n := h.rank(last) - h.lost
	for k := range t.odds {
		if o := &t.odds[k]; o.gone && o.fate != fine && o.set > last && o.lacks&h.stations == 0 {
			n++ // counted as lost, but the delivery would have come to it later
		}
	}
	return n
}
