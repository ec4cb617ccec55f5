package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// SweepTable returns a row for each point of a sweep, with all its figures.
func SweepTable(a *study.SweepAnswer) plots.Table {
	t := plots.Table{Name: "Sweep", Caption: fmt.Sprintf("Net rate by %s: %s. ± is the half-width of 95 %% intervals; "+
		"those of the differences from the best are right all at once.", SweepPaths(a), page.SampleEach(a.Points[0].Study))}
	for i := range a.Vary {
		t.Columns = append(t.Columns, plots.Column{Title: a.Vary[i].Path})
	}
	const unit = "good envelopes/h"
	t.Columns = append(t.Columns,
		plots.Column{Title: "Net rate", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "Net rate ±", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "5th percentile", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "95th percentile", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "From the best", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "From the best ±", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "Shown to be worse"})
	for _, f := range a.Figures() {
		t.Columns = append(t.Columns, plots.Column{Title: say.Capital(study.Column(f)), Kind: plots.Number, Decimals: 1})
	}
	for i := range a.Points {
		t.Rows = append(t.Rows, sweepRow(&a.Points[i], a.Figures()))
	}
	return t
}

func sweepRow(p *study.SweepPoint, figures []model.Figure) []plots.Entry {
	var row []plots.Entry
	for _, v := range p.Values {
		row = append(row, plots.Entry{Text: v})
	}
	var behind study.Difference // 0 of the best
	if p.FromBest != nil {
		behind = *p.FromBest
	}
	worse := "no"
	if !p.NotShownWorse {
		worse = "yes"
	}
	row = append(row,
		plots.Entry{Number: float64(p.NetRate.Mean)}, page.Doubt(float64(p.NetRate.Half)),
		plots.Entry{Number: float64(p.NetRate.P5)}, plots.Entry{Number: float64(p.NetRate.P95)},
		plots.Entry{Number: float64(behind.Mean)}, page.Doubt(float64(behind.Half)), plots.Entry{Text: worse})
	for _, f := range figures {
		row = append(row, plots.Entry{Number: float64(p.Means[study.Column(f)].Mean)})
	}
	return row
}

// SweepShortTable returns what of the table of a sweep has room on a page.
func SweepShortTable(a *study.SweepAnswer) plots.Table {
	t := plots.Table{Name: "Net rates", Caption: "Net rate, good envelopes an hour, with its 95 % interval; how much less than the best, " +
		"with intervals that are right all at once; and how many of a million delivered are defective."}
	for i := range a.Vary {
		t.Columns = append(t.Columns, plots.Column{Title: a.Vary[i].Path})
	}
	for _, title := range []string{"Net rate", "From the best", "Defective"} {
		t.Columns = append(t.Columns, plots.Column{Title: title, Kind: plots.Number})
	}
	for i := range a.Points {
		p := &a.Points[i]
		var row []plots.Entry
		for _, v := range p.Values {
			row = append(row, plots.Entry{Text: v})
		}
		if p.Capped {
			row[len(row)-1].Text += ", runs at " + say.Exact(p.Speed) + "/h"
		}
		behind := "best"
		if i != a.Best {
			behind = ShownGain(p.FromBest)
		}
		t.Rows = append(t.Rows, append(row,
			plots.Entry{Text: netRate(p.NetRate)}, plots.Entry{Text: behind}, plots.Entry{Text: SweepDefective(p)}))
	}
	return t
}
