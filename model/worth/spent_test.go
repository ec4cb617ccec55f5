package worth

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/money"
)

// By hand. Two days of a line: 15 h at 20, two operators for 16 h at 30, 3 operator hours of overtime at
// 45. 50,000 letters at 0.01, 20,000 cards at 0.05, 50,000 envelopes at 0.02, 40 remakes at 0.1, 30 spoiled
// sets at 0.5, 2 defective ones at 100, and one technician for 2 h, at 90 and 60 an hour. The price and the upkeep of the line do not count, nor does from
// when on overtime is paid in a year.
func TestSpentByHand(t *testing.T) {
	c := &Costs{
		Currency: "EUR", Price: money.Fixed(1e6), Life: 8, Upkeep: money.Fixed(1e5), LineHour: money.Fixed(20), OperatorHour: money.Fixed(30),
		Overtime: Overtime{Beyond: 1700, Factor: 1.5}, Insert: money.Fixed(0.01), Envelope: money.Fixed(0.02),
		Pieces: map[string]money.Value{"card": money.Fixed(0.05), "outer": money.Fixed(0.03)}, Remake: money.Fixed(0.1), Spoiled: money.Fixed(0.5), Defective: money.Fixed(100),
		TechnicianCall: money.Fixed(90), TechnicianHour: money.Fixed(60), Volume: money.Fixed(1),
	}
	letter := c.Piece(&model.Feeder{Place: model.Place{Name: "letter"}})
	card := c.Piece(&model.Feeder{Place: model.Place{Name: "card"}})
	envelope := c.Piece(&model.Inserter{Place: model.Place{Name: "inserter"}})
	outer := c.Piece(&model.Feeder{Place: model.Place{Name: "outer"}, Envelopes: true})
	assert.Equal(t, -1, c.Piece(&model.TrackGate{}), "a gate has no pieces")
	w := Work{LineHours: 15, OperatorHours: 32, Overtime: 3, Defective: 2, Spoiled: 30, Remakes: 40, Calls: 1, Repairs: 2, Pieces: make([]float64, 8)}
	w.Pieces[letter], w.Pieces[card], w.Pieces[envelope], w.Pieces[outer] = 50_000, 20_000, 50_000, 1000
	got := c.Spent(&w, 1, 0)
	want := Spent{
		LineHours: 300, OperatorHours: 960, OvertimePay: 135, InsertCost: 500 + 1000, EnvelopeCost: 1000 + 30, RemakeCost: 4, TechnicianCost: 210, SpoiledCost: 15, DefectiveCost: 200,
	}
	for part, x := range want {
		assert.InDelta(t, x, got[part], 1e-9, CostPart(part).String())
	}
	assert.InDelta(t, 300+960+135+1500+1030+4+210+15+200, got.Sum(), 1e-9)
	c.Overtime = Overtime{}
	got = c.Spent(&w, 1, 0)
	assert.InDelta(t, 90, got[OvertimePay], 1e-9, "at usual pay, where no other is given")
}

// A price with a range is drawn, the same for the same number.
func TestSpentDrawsPrices(t *testing.T) {
	c := &Costs{Currency: "EUR", Life: 1, OperatorHour: money.Value{Low: 20, Likely: 30, High: 40}, Volume: money.Fixed(1)}
	w := Work{OperatorHours: 1}
	low, high := 0, 0
	for r := range 200 {
		s := c.Spent(&w, 3, r)
		assert.Equal(t, s, c.Spent(&w, 3, r))
		assert.True(t, s.Sum() >= 20 && s.Sum() <= 40)
		if s.Sum() < 30 {
			low++
		} else {
			high++
		}
	}
	assert.InDelta(t, 100, low, 3.29*7.08, "binomial, 200 of a half")
	assert.Equal(t, 200, low+high)
}
