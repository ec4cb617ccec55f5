package worth

import (
	"maps"
	"slices"

	"netrate/model"
)

// Work is some work that costs money: of a season, say, rather than of a year.
type Work struct {
	LineHours     float64
	OperatorHours float64 // at usual pay
	Overtime      float64 // hours of operators at the pay of overtime
	Defective     float64 // envelopes delivered defective
	Spoiled       float64 // sets
	Remakes       float64
	Calls         float64   // for a technician
	Repairs       float64   // hours of technicians
	Pieces        []float64 // of each number that [Costs.Piece] gives
}

// Spent is what work costs, by parts. Here OvertimePay is all that overtime costs, and UpkeepCost nothing.
type Spent [costParts]float64

// Sum returns what it costs in all.
func (s *Spent) Sum() float64 {
	sum := 0.0
	for _, x := range s {
		sum += x
	}
	return sum
}

// Piece returns the number of the price that a piece of a station has, from 0; -1 if it costs nothing.
func (c *Costs) Piece(station model.Station) int {
	name := c.pieceOf(station)
	if name == "" {
		return -1
	}
	k := 2 * slices.Index(c.prices(), name)
	if station.Piece().Price == envelopePrice {
		k++
	}
	return k
}

// prices returns the names of the prices of pieces. The number of a price is twice its place here, and
// one more where its pieces are envelopes.
func (c *Costs) prices() []string {
	names := []string{"insert", envelopePrice}
	for _, station := range slices.Sorted(maps.Keys(c.Pieces)) {
		names = append(names, piecesOf+station)
	}
	return names
}

// Spent returns what work costs where prices are as one draw of their ranges has them:
//
//	hours of the line, of operators, and of these in overtime · factor, each at its price
//	calls and hours of technicians, each at its price
//	pieces, remakes, spoiled sets and defective envelopes, each at its price
//
// What is paid once or by the year is not in it: the price of the line, its residual value, its upkeep.
// From which hour of a year on overtime is paid does not count: the work says what is overtime.
func (c *Costs) Spent(w *Work, seed uint64, number int) (s Spent) {
	drawn := c.draw(seed, number)
	s[LineHours] = float64(w.LineHours * drawn["line_hour"])
	s[OperatorHours] = float64(w.OperatorHours * drawn["operator_hour"])
	s[OvertimePay] = float64(w.Overtime * drawn["operator_hour"] * max(1, c.Overtime.Factor))
	s[TechnicianCost] = float64(w.Calls*drawn["technician_call"]) + float64(w.Repairs*drawn["technician_hour"])
	names := c.prices()
	for k, n := range w.Pieces {
		part := InsertCost
		if k%2 == 1 {
			part = EnvelopeCost
		}
		s[part] += float64(n * drawn[names[k/2]])
	}
	s[RemakeCost] = float64(w.Remakes * drawn["remake"])
	s[SpoiledCost] = float64(w.Spoiled * drawn["spoiled"])
	s[DefectiveCost] = float64(w.Defective * drawn["defective"])
	return s
}
