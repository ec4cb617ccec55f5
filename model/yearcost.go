package model

import "netrate/sim"

// CostPart is one part of what a year of a line costs.
type CostPart int

// The parts, in the order in which they are told.
const (
	LineHours CostPart = iota
	OperatorHours
	OvertimePay // what overtime costs beyond usual pay
	InsertCost
	EnvelopeCost
	RemakeCost
	SpoiledCost
	DefectiveCost
	UpkeepCost
	costParts = iota
)

var costNames = [costParts]string{
	"line hours", "operators", "overtime", "inserts, documents", "envelopes", "remakes", "spoiled sets", "defective delivered", "upkeep",
}

func (p CostPart) String() string { return costNames[p] }

// CostParts returns all parts in order.
func CostParts() []CostPart {
	var all []CostPart
	for p := range CostPart(costParts) {
		all = append(all, p)
	}
	return all
}

// What becomes of sets whose pieces are paid for. A set still on the line at the end of a
// shift is not among them: it is finished in the next one.
const (
	fateGood = iota
	fateDefective
	fateDiverted
	fateOutsorted
	fateSpoiled
	setFates
)

// tally is what some shifts came to on average.
type tally struct {
	hours, remakes float64
	sets           [setFates]float64 // good ones with those made by hand
}

func tallyOf(s *Shift, shift sim.Seconds) tally {
	t := tally{hours: s.Finish, remakes: s.Remakes}
	if s.Finish == 0 {
		t.hours = float64(shift) / 3600
	}
	t.sets = [setFates]float64{s.NetRate * t.hours, s.Defective, s.Diverted, s.Outsorted, s.Spoiled}
	return t
}

// meanOf returns the mean of the shifts with the given numbers.
func meanOf(all []tally, numbers []int32) tally {
	var sum tally
	for _, i := range numbers {
		t := &all[i]
		sum.hours += t.hours
		sum.remakes += t.remakes
		for f := range sum.sets {
			sum.sets[f] += t.sets[f]
		}
	}
	n := float64(len(numbers))
	sum.hours /= n
	sum.remakes /= n
	for f := range sum.sets {
		sum.sets[f] /= n
	}
	return sum
}

// spender is a line that spends money as it works.
type spender struct {
	costs     *Costs
	operators float64
	shifts    []tally
	stations  []content
}

// content is how many pieces of a station a set of each fate holds, in all shifts together.
type content struct {
	price    string // of one, by its name in the costs; "" if it costs nothing
	envelope bool
	pieces   [setFates]float64
}

func spenderOf(s *Study, c *Costs) *spender {
	p := &spender{costs: c, operators: float64(s.Line.Crew.Operators)}
	for i := range s.Shifts {
		p.shifts = append(p.shifts, tallyOf(&s.Shifts[i], s.Line.Shift))
	}
	sets := s.Total.Sets
	each := [setFates]float64{float64(sets.Good), float64(sets.Defective), float64(sets.Diverted), float64(sets.Outsorted), float64(sets.Spoiled)}
	for i, station := range s.Line.Stations {
		price, costs := piece(station)
		x := content{price: price, envelope: price == "envelope"}
		if own := station.Where().Name; costs || isChannel(station) {
			if _, named := c.Pieces[own]; named {
				x.price = "pieces." + own
			}
		}
		if x.price == "" {
			continue
		}
		used := s.Total.Stations[i].Pieces
		for f, n := range [setFates]int64{used.Good, used.Defective, used.Diverted, used.Outsorted, used.Spoiled} {
			if at := fateOf(f, each); each[at] > 0 {
				x.pieces[at] += float64(n) / each[at]
			}
		}
		p.stations = append(p.stations, x)
	}
	return p
}

// fateOf returns the fate among whose sets pieces are spread: their own or, where pieces
// were lost without a set, the good ones.
func fateOf(fate int, sets [setFates]float64) int {
	if sets[fate] > 0 {
		return fate
	}
	return fateGood
}

// year returns the hours and the parts of the cost of a year with so many good envelopes,
// if shifts are on average like the given ones and prices are as drawn. There must be good
// envelopes among them.
func (p *spender) year(mean *tally, drawn map[string]float64, volume float64) (hours float64, parts [costParts]float64) {
	times := volume / mean.sets[fateGood]
	hours = times * mean.hours
	pay := p.operators * drawn["operator_hour"]
	parts[LineHours] = hours * drawn["line_hour"]
	parts[OperatorHours] = hours * pay
	if o := p.costs.Overtime; o.Factor > 1 {
		parts[OvertimePay] = max(0, hours-o.Beyond) * pay * (o.Factor - 1)
	}
	for i := range p.stations {
		x := &p.stations[i]
		pieces := 0.0
		for f, n := range x.pieces {
			pieces += n * mean.sets[f]
		}
		part := InsertCost
		if x.envelope {
			part = EnvelopeCost
		}
		parts[part] += times * pieces * drawn[x.price]
	}
	parts[RemakeCost] = times * mean.remakes * drawn["remake"]
	parts[SpoiledCost] = times * mean.sets[fateSpoiled] * drawn["spoiled"]
	parts[DefectiveCost] = times * mean.sets[fateDefective] * drawn["defective"]
	parts[UpkeepCost] = drawn["upkeep"]
	return hours, parts
}

// cost returns the sum of the parts.
func (p *spender) cost(mean *tally, drawn map[string]float64, volume float64) float64 {
	_, parts := p.year(mean, drawn, volume)
	sum := 0.0
	for _, x := range parts {
		sum += x
	}
	return sum
}
