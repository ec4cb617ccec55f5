package model

import (
	"fmt"
	"slices"
	"strings"
)

// inserts puts each insert into a feeder of its own and takes the other feeders out.
func (f *fitting) inserts() {
	var feeders []*Feeder
	for _, s := range f.line.Stations {
		if s, ok := s.(*Feeder); ok && !s.Envelopes {
			feeders = append(feeders, s)
		}
	}
	inserts := f.product.Inserts
	can := make([][]int, len(inserts))
	for i := range inserts {
		for k, feeder := range feeders {
			if feeder.unfit(&inserts[i]) == "" {
				can[i] = append(can[i], k)
			}
		}
	}
	assigned := assign(can)
	f.unplaced(feeders, can, assigned)
	used := map[Station]bool{}
	for i, k := range assigned {
		if k >= 0 {
			feeders[k].load(&inserts[i])
			used[feeders[k]] = true
			f.fit.Feeders = append(f.fit.Feeders, Loaded{inserts[i].Name, feeders[k].Name})
		}
	}
	f.line.Stations = slices.DeleteFunc(f.line.Stations, func(s Station) bool {
		feeder, ok := s.(*Feeder)
		return ok && !feeder.Envelopes && !used[s]
	})
}

// unplaced says of every insert without a feeder why it has none.
func (f *fitting) unplaced(feeders []*Feeder, can [][]int, assigned []int) {
	for i, k := range assigned {
		switch n := &f.product.Inserts[i]; {
		case k >= 0:
		case len(can[i]) == 0:
			f.because("%s, %s", n, n.refusals(feeders))
		default:
			rows, columns := shortage(can, assigned, i)
			var inserts, names []string
			for _, i := range rows {
				inserts = append(inserts, f.product.Inserts[i].Name)
			}
			for _, k := range columns {
				names = append(names, feeders[k].Name)
			}
			f.because("no free feeder: the %d inserts %s can go only into %d, %s", len(rows), listed(inserts), len(columns), listed(names))
		}
	}
}

// refusals returns why none of the feeders can take the insert, as the rest of a sentence;
// those that say the same stand together.
func (n *Insert) refusals(feeders []*Feeder) string {
	var whys []string
	names := map[string][]string{}
	for _, feeder := range feeders {
		if n.Feeder != "" && feeder.Name != n.Feeder {
			continue
		}
		why := feeder.unfit(n)
		if names[why] == nil {
			whys = append(whys, why)
		}
		names[why] = append(names[why], feeder.Name)
	}
	switch {
	case len(whys) == 0 && n.Feeder != "":
		return fmt.Sprintf("is to go into the feeder %s, and the line has none of that name", n.Feeder)
	case len(whys) == 0:
		return "goes into no feeder: the line has none"
	}
	for i, why := range whys {
		whys[i] = listed(names[why]) + ", " + why
	}
	if n.Feeder != "" {
		return "does not go into the feeder asked for: " + whys[0]
	}
	return "goes into no feeder: " + strings.Join(whys, "; ")
}

// String names the insert, with what is known of its size.
func (n *Insert) String() string {
	s := "the insert " + n.Name
	if n.Height != 0 || n.Length != 0 {
		s += fmt.Sprintf(", %s × %s mm", millimetres(n.Height), millimetres(n.Length))
	}
	if n.Thickness != 0 {
		s += fmt.Sprintf(", %s mm thick", millimetres(n.Thickness))
	}
	return s
}

// unfit returns why the feeder cannot take an insert, to follow its name; "" if it can.
func (f *Feeder) unfit(n *Insert) string {
	switch {
	case n.Feeder != "" && n.Feeder != f.Name:
		return "not the feeder asked for"
	case n.Stream != "" && f.Stream.Name == "":
		return fmt.Sprintf("carrying no stream, want %s", n.Stream)
	case n.Stream != "" && n.Stream != f.Stream.Name:
		return fmt.Sprintf("carrying the stream %s, want %s", f.Stream.Name, n.Stream)
	case !f.Takes.Thickness.Allow(n.Thickness):
		return fmt.Sprintf("taking %s in thickness", f.Takes.Thickness)
	case !f.Takes.eitherWay(n.Height, n.Length):
		return fmt.Sprintf("taking %s in height and %s in length", f.Takes.Height, f.Takes.Length)
	}
	return ""
}

// eitherWay reports whether a piece can be taken as it is or turned by a quarter.
func (t *Takes) eitherWay(height, length float64) bool {
	return t.Height.Allow(height) && t.Length.Allow(length) ||
		t.Height.Allow(length) && t.Length.Allow(height)
}

// String returns the bounds in words, in mm.
func (b Bounds) String() string {
	switch {
	case b == Bounds{}:
		return "anything"
	case b.Most == 0:
		return fmt.Sprintf("%s mm or more", millimetres(b.Least))
	case b.Least == 0:
		return fmt.Sprintf("up to %s mm", millimetres(b.Most))
	}
	return fmt.Sprintf("%s to %s mm", millimetres(b.Least), millimetres(b.Most))
}

// millimetres returns a length to four digits, "?" if it is not known.
func millimetres(x float64) string {
	if x == 0 {
		return "?"
	}
	return fmt.Sprintf("%.4g", x)
}

// mostPieces is what a hopper that is measured by its stack may come to.
const mostPieces = 1e9

// load puts an insert into the feeder. A hopper measured by its stack holds what is as
// high, and calls at the same share of it.
func (f *Feeder) load(n *Insert) {
	f.Material, f.Share = n.Material, n.Share
	if n.Stream == "" {
		f.Stream = Stream{}
	}
	if !(f.Stack > 0 && n.Thickness > 0) {
		return
	}
	was := f.Hopper
	f.Hopper.Capacity = int64(min(f.Stack/n.Thickness+1e-9, mostPieces)) // 0.3 mm hold three of 0.1 mm
	if was.Capacity > 0 {
		share := float64(was.Warn) / float64(was.Capacity)
		f.Hopper.Warn = int64(share * float64(f.Hopper.Capacity))
	}
}
