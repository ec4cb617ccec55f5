package study

import (
	"slices"

	"netrate/model"
)

// Zero is what must hold where no defective envelope is expected: what the file says of each
// station, or what is taken where it says nothing. All that is not in the model must hold too:
// that the pieces are printed right and lie in the hoppers in order, and that an operator puts
// right what he clears.
type Zero struct {
	Misfeeds []string `json:"every_misfeed_noticed"` // stations that have misfeeds
	Doubles  []string `json:"every_double_caught"`   // stations that have doubles
	Shipped  []string `json:"left_to_readers"`       // stations whose faults go on, for readers to find
	Readers  []string `json:"no_wrong_reading"`      // what these read is what is there
}

// ZeroOf returns what no defective envelopes rest on.
func ZeroOf(l *model.Line) Zero {
	z := Zero{Misfeeds: []string{}, Doubles: []string{}, Shipped: []string{}, Readers: []string{}}
	rates := map[[2]string]bool{}
	for _, p := range l.Parameters() {
		rates[[2]string{p.Station, p.Name}] = true
		if f, is := p.Fault(); is { // whatever the file calls it
			rates[[2]string{p.Station, f.String()}] = true
		}
	}
	for _, s := range l.Stations {
		name := s.Where().Name
		if s.Kind().Role == model.Reads {
			z.Readers = append(z.Readers, name)
		}
		var leaks []model.Fault
		for _, k := range s.Leaks(l) {
			leaks = append(leaks, k.Fault)
		}
		has := func(f model.Fault) bool { return rates[[2]string{name, f.String()}] }
		if has(model.Misfeed) && !slices.Contains(leaks, model.Misfeed) {
			z.Misfeeds = append(z.Misfeeds, name)
		}
		if has(model.Double) && !slices.Contains(leaks, model.Double) {
			z.Doubles = append(z.Doubles, name)
		}
		if len(leaks) > 0 {
			z.Shipped = append(z.Shipped, name)
		}
	}
	return z
}
