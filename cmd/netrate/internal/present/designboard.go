package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// briefly returns what to buy as a board reads it, in a sentence and, where that was not looked for, whether it pays;
// and what else is to be said of it.
func (d Design) briefly() (answer, rest string) {
	if d.Settings.Partial || d.Advice == 0 || d.Goal == study.DesignOperators {
		return d.advised(), ""
	}
	gain := d.gain()
	answer = sentences(fmt.Sprintf("%s %s: %s.", buyOrTake(&d.Finalists[d.Advice]), d.bought(&d.Finalists[d.Advice]), gain[0]), d.pays())
	for _, x := range gain[1:] {
		rest = sentences(rest, say.Capital(x)+".")
	}
	return answer, sentences(rest, d.equal())
}

// decision returns the first page: what a board decides by.
func (d Design) decision(r *page.Report) *plots.Decision {
	b := &plots.Decision{Table: d.boardTable(), Cautions: plots.Cautions(), MattersHead: "How sure that is"}
	if sure := d.certainty(); sure != "" {
		b.Matters = append(b.Matters, sure)
	}
	b.Matters = slices.Concat(b.Matters, d.sureties(), d.robust(), d.speeds())
	if d.Advice != 0 {
		base, advice := lineOf(&d.Comparison.Lines[0]), lineOf(&d.Comparison.Lines[d.Advice])
		others := []OtherLine{{d.Finalists[d.Advice].Name + ", which is advised", study.LayoutAgainst(advice, base)}}
		if f := r.Unlisted(BriefLayout("the line as it is", study.LayoutOf(base), others, false)); f != nil {
			b.Picture = f
		}
	}
	return b
}

// onBoard returns the designs that a board sets against each other: the line as it is, what is advised and, of the
// frontier, what is next to it; and the best.
func (d Design) onBoard() []int {
	all := []int{0, d.Advice, d.Best}
	leading := d.measure().shown
	if k := slices.Index(leading, d.Advice); k >= 0 {
		all = append(all, leading[max(0, k-1)], leading[min(k+1, len(leading)-1)])
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// boardTable returns a row for each of these, with its price, what it earns and how much of a year it takes.
func (d Design) boardTable() plots.Table {
	t := plots.Table{
		Name: "Decision", Names: 1, Caption: "What is advised, and what stands next to it; all designs are in Table 1. ± is half of a 95 % interval",
		Columns: []plots.Column{{Title: "Design"}, {Title: "Bought"}, {Title: "Price", Kind: plots.Number}},
	}
	m, value := d.Comparison.Money, d.Goal == study.DesignValue
	if m != nil {
		t.Columns[2].Unit = m.Currency
		if value {
			t.Caption += ". NPV: net present value against the line as it is, its mean and what nine draws in ten lie between"
			t.Columns = append(t.Columns, MoneyColumn("NPV", m.Currency, 0), MoneyColumn("5 % to 95 %", m.Currency, 0))
		}
		t.Columns = append(t.Columns, plots.Column{Title: "All-in cost", Unit: m.Currency + " per 1,000", Kind: plots.Number, Decimals: 2, Bar: true},
			plots.Column{Title: "Hours", Unit: "a year", Kind: plots.Number})
	}
	rates := RateColumns("Net rate", "")
	for i := range rates {
		rates[i].Unit = "good envelopes/h"
	}
	t.Columns = append(append(t.Columns, rates...),
		plots.Column{Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2},
		plots.Column{Title: "Operators", Kind: plots.Number})
	if d.Goal == study.DesignOperators {
		t.Columns = append(t.Columns, reachingColumns()...)
	}
	if rounded := d.roundedEach(""); rounded != "" {
		t.Caption += "." + rounded
	}
	for _, i := range d.onBoard() {
		x := &d.Finalists[i]
		row := d.row(i)[:3]
		if m != nil {
			if value {
				row = append(row, d.valueEntries(i)...)
			}
			row = append(row, allIn(m).entry(m.Worth.AllInPerThousand(i).Mean()), averaged(m.Worth.Lines[i].Hours))
		}
		row = append(append(row, estimated(d.Comparison.Lines[i].NetRate.Estimate())...), defective(d.Comparison.Lines[i].Study), page.Value(float64(x.Operators)))
		if d.Goal == study.DesignOperators {
			row = append(row, d.reaching(i)...)
		}
		t.Rows, t.Roles = append(t.Rows, row), append(t.Roles, roleOf(i, d.Advice))
	}
	return t
}
