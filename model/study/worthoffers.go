package study

import (
	"netrate/model/money"
	"netrate/model/worth"
)

// WorthPair is one line against another over the life, the price of both in it.
type WorthPair struct {
	Of             string      `json:"of"`
	Against        string      `json:"against"`
	Cheaper        Spread      `json:"cheaper_per_year"` // by the equivalent annual cost; below 0 where it is dearer
	Chance         WorthChance `json:"cheaper"`          // that it is
	BreakEvenPrice Spread      `json:"break_even_price"` // of the first, at which both cost the same
}

// offers adds to an answer which line is cheapest over the life, and each against each.
func (a *WorthAnswer) offers(w *worth.Worth) {
	for i := range a.Lines {
		x := &a.Lines[i]
		x.AllIn, x.Cheapest = SpreadOf(w.AllInPerThousand(i)), worthChance(w.Cheapest(i))
		if x.Annual.Mean < a.Lines[a.Cheapest].Annual.Mean {
			a.Cheapest = i
		}
	}
	for i := range a.Lines {
		for k := range i {
			a.Pairs = append(a.Pairs, a.pair(w, i, k))
		}
	}
}

func (a *WorthAnswer) pair(w *worth.Worth, of, against int) WorthPair {
	cheaper := w.Cheaper(of, against)
	return WorthPair{
		Of: a.Lines[of].Name, Against: a.Lines[against].Name,
		Cheaper: SpreadOf(cheaper), Chance: worthChance(money.ChanceOfGain(cheaper, Level)), BreakEvenPrice: SpreadOf(w.BreakEvenPrice(of, against)),
	}
}

// Recommended returns the two lines that a buyer sets against each other: the one that is cheapest
// over the life, and what it is to be preferred to: the base or, if that is it, the next cheapest.
func (a *WorthAnswer) Recommended() (from, to int) {
	if to = a.Cheapest; to != 0 || len(a.Lines) < 2 {
		return 0, to
	}
	from = 1
	for i := range a.Lines {
		if i > 0 && a.Lines[i].Annual.Mean < a.Lines[from].Annual.Mean {
			from = i
		}
	}
	return from, to
}
