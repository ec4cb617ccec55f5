package lines

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/sim"
)

// moneyJSON is what the lines cost and what they are worth.
type moneyJSON struct {
	Currency string          `json:"currency"`
	Life     int             `json:"life_years"`
	Rate     page.Number     `json:"rate"`
	Draws    int             `json:"draws"`
	Caution  string          `json:"caution"`
	Lines    []moneyLineJSON `json:"lines"`
}

type moneyLineJSON struct {
	Name        string            `json:"name"`
	Price       drawsJSON         `json:"price"`
	Hours       drawsJSON         `json:"hours_per_year"`
	Cost        drawsJSON         `json:"cost_per_year"`
	PerThousand drawsJSON         `json:"cost_per_1000"`
	Annual      drawsJSON         `json:"equivalent_annual_cost"`
	Parts       []moneyPartJSON   `json:"parts_per_year"`
	Against     *moneyAgainstJSON `json:"against_base,omitempty"`
}

type moneyPartJSON struct {
	Name string `json:"name"`
	drawsJSON
}

type moneyAgainstJSON struct {
	Saving     drawsJSON  `json:"saving_per_year"`
	NPV        drawsJSON  `json:"npv"`
	Payback    medianJSON `json:"payback_years"`
	Discounted medianJSON `json:"discounted_payback_years"`
	BreakEven  medianJSON `json:"break_even_per_year"`
	Chance     chanceJSON `json:"npv_above_0"`
}

// drawsJSON is a figure as it was drawn.
type drawsJSON struct {
	Mean page.Number `json:"mean"`
	P5   page.Number `json:"p5"`
	P50  page.Number `json:"p50"`
	P95  page.Number `json:"p95"`
}

// medianJSON is a figure that may be infinite, which is null: it has no mean.
type medianJSON struct {
	P5  page.Number `json:"p5"`
	P50 page.Number `json:"p50"`
	P95 page.Number `json:"p95"`
}

type chanceJSON struct {
	Share page.Number `json:"share"`
	Low   page.Number `json:"low"`
	High  page.Number `json:"high"`
	Level page.Number `json:"level"`
}

func spreadOfDraws(s sim.Sample) drawsJSON {
	return drawsJSON{page.Number(s.Mean()), page.Number(s.Quantile(0.05)), page.Number(s.Quantile(0.5)), page.Number(s.Quantile(0.95))}
}

func medianOf(s sim.Sample) medianJSON {
	return medianJSON{page.Number(orderOf(s, 0.05)), page.Number(orderOf(s, 0.5)), page.Number(orderOf(s, 0.95))}
}

// moneyDocument returns what the lines are worth; nil if there are no costs.
func (c *contest) moneyDocument() *moneyJSON {
	m := c.money
	if m == nil {
		return nil
	}
	doc := &moneyJSON{Currency: m.Currency, Life: m.Life, Rate: page.Number(m.Rate), Draws: m.Draws, Caution: c.moneyCaution()}
	for i, x := range c.entrants {
		y := &m.Lines[i]
		line := moneyLineJSON{
			Name: x.name, Price: spreadOfDraws(y.Price), Hours: spreadOfDraws(y.Hours), Cost: spreadOfDraws(y.Cost),
			PerThousand: spreadOfDraws(y.PerThousand), Annual: spreadOfDraws(y.Annual),
		}
		for p, s := range y.Parts {
			line.Parts = append(line.Parts, moneyPartJSON{model.CostPart(p).String(), spreadOfDraws(s)})
		}
		if i > 0 {
			g := &m.Gains[i]
			line.Against = &moneyAgainstJSON{
				spreadOfDraws(g.Saving), spreadOfDraws(g.NPV), medianOf(g.Payback), medianOf(g.Discounted), medianOf(g.BreakEven),
				chanceJSON{page.Number(g.Chance.Share), page.Number(g.Chance.Low), page.Number(g.Chance.High), page.Number(g.Chance.Level)},
			}
		}
		doc.Lines = append(doc.Lines, line)
	}
	return doc
}
