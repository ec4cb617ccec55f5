package study

import (
	"slices"

	"netrate/model"
)

// Zero is what must hold where no defective envelope is expected: what the file says of each
// station and of the crew, or what is taken where it says nothing. All that is not in the model must
// hold too: that the pieces are printed right and lie in the hoppers in order.
type Zero struct {
	Misfeeds []string `json:"every_misfeed_noticed"` // stations that have misfeeds
	Doubles  []string `json:"every_double_caught"`   // stations that have doubles
	Shipped  []string `json:"left_to_readers"`       // stations whose faults go on, for readers to find
	Readers  []string `json:"no_wrong_reading"`      // what these read is what is there
	Repairs  bool     `json:"every_repair_right"`    // what operators put right, or realign, is right
	Loads    bool     `json:"every_load_right"`      // what they bring is the right stock
}

// ZeroOf returns what no defective envelopes rest on.
func ZeroOf(l *model.Line) Zero {
	z := Zero{Misfeeds: []string{}, Doubles: []string{}, Shipped: []string{}, Readers: []string{}, Loads: true}
	z.Repairs = l.Crew.WrongRepair == 0 && l.Crew.WrongRealign == 0
	rates := map[[2]string]bool{}
	for _, p := range l.Parameters() {
		rates[[2]string{p.Station, p.Name}] = true
		if f, is := p.Fault(); is { // whatever the file calls it
			rates[[2]string{p.Station, f.String()}] = true
		}
		z.Loads = z.Loads && p.Name != "wrong_stock.per_refill"
	}
	for _, s := range l.Stations {
		name := s.Where().Name
		if s.Kind().Role == model.Reads && !rates[[2]string{name, "misread"}] {
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
