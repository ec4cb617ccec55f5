package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// SweepTables returns the tables of a sweep: the net rates of two parameters against each other,
// if there are two, and then a row for each point.
func SweepTables(a *study.SweepAnswer) []plots.Table {
	if len(a.Vary) == 2 {
		return []plots.Table{
			sweepGrid(a, page.All(len(a.Vary[0].Values)), page.All(len(a.Vary[1].Values))), sweepTable(a, page.All(len(a.Points))),
		}
	}
	return []plots.Table{sweepTable(a, page.All(len(a.Points)))}
}

// How much of a sweep has room on a screen.
const (
	shownValues  = 9 // rows
	fewValues    = 7 // where it is said how defective envelopes come
	shownColumns = 7 // of two parameters
)

// SweepScreen returns the first table with no more rows and columns than have room on a screen:
// the ends and the best are among them.
func SweepScreen(a *study.SweepAnswer) plots.Table {
	rows := shownValues
	if sweepExposed(a) {
		rows = fewValues
	}
	if len(a.Vary) == 1 {
		return sweepTable(a, page.Thinned(len(a.Points), rows, a.Best))
	}
	across, down := len(a.Vary[0].Values), len(a.Vary[1].Values)
	return sweepGrid(a, page.Thinned(across, shownColumns, a.Best/down), page.Thinned(down, rows, a.Best%down))
}

// sweepMarks explains the marks of net rates.
const sweepMarks = "* the best, ~ not shown to be worse"

// sweepShown says how many of all points a table shows.
func sweepShown(a *study.SweepAnswer, shown int) string {
	if shown == len(a.Points) {
		return ""
	}
	return fmt.Sprintf(" Shown: %d of %d, --csv has all.", shown, len(a.Points))
}

// sweepMark returns what is said of a point before its net rate.
func sweepMark(a *study.SweepAnswer, point int) string {
	switch {
	case point == a.Best:
		return "* "
	case a.Points[point].NotShownWorse:
		return "~ "
	}
	return ""
}

// sweepGrid returns the net rates of some values of two parameters: the first across, the second
// down.
func sweepGrid(a *study.SweepAnswer, columns, rows []int) plots.Table {
	across, down := &a.Vary[0], &a.Vary[1]
	t := plots.Table{
		Name: "Net rates",
		Caption: fmt.Sprintf("Net rate, good envelopes an hour, by %s across and %s down: %s (95 %%, all at once).%s",
			across.Path, down.Path, sweepMarks, sweepShown(a, len(columns)*len(rows))),
		Columns: []plots.Column{{Title: down.Path}},
	}
	for _, i := range columns {
		t.Columns = append(t.Columns, plots.Column{Title: across.Values[i].Text, Kind: plots.Number})
	}
	for _, k := range rows {
		row := []plots.Entry{page.Words(down.Values[k].Text)}
		for _, i := range columns {
			n := i*len(down.Values) + k
			e := a.Points[n].NetRate
			row = append(row, plots.Entry{Number: float64(e.Mean), Shown: sweepMark(a, n) + say.Rough(float64(e.Mean), float64(e.Half))})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// sweepTable returns a row for each of some points. The change is that from the row above.
func sweepTable(a *study.SweepAnswer, points []int) plots.Table {
	t := plots.Table{
		Name:    "Sweep",
		Caption: fmt.Sprintf("Net rate by %s: %s (95 %%, all at once). %s%s", SweepPaths(a), sweepMarks, sweepOther(a), sweepShown(a, len(points))),
		Bars:    len(a.Vary) + 1,
	}
	for i := range a.Vary {
		t.Columns = append(t.Columns, plots.Column{Title: a.Vary[i].Path})
	}
	t.Columns = append(t.Columns, sweepColumns(a)...)
	var changes []study.Difference
	if len(a.Vary) == 1 {
		changes = a.ChangesAmong(points)
	}
	for n, i := range points {
		row := sweepRow(a, i)
		if len(a.Vary) == 1 {
			row = append(row, sweepChange(changes, n)...)
		}
		t.Rows = append(t.Rows, append(row, sweepRest(a, i)...))
	}
	return t
}

// sweepOther explains the column of differences that people see.
func sweepOther(a *study.SweepAnswer) string {
	if len(a.Vary) == 1 {
		return "Change: from the row above, ~ if none is shown."
	}
	return "From the best: ~ if no difference is shown."
}

// sweepColumns returns the columns after those of the parameters.
func sweepColumns(a *study.SweepAnswer) []plots.Column {
	const unit = "good envelopes/h"
	data := func(title string, decimals int) plots.Column {
		return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals, Data: true}
	}
	all := []plots.Column{
		{Title: "Net rate", Unit: unit, Kind: plots.Number},
		data("Net rate ±", 1), data("5th percentile", 0), data("95th percentile", 0),
		{Title: "From the best", Unit: unit, Kind: plots.Number, Decimals: 1, Data: len(a.Vary) == 1},
		data("From the best ±", 1),
		{Title: "Shown to be worse", Data: true},
	}
	if len(a.Vary) == 1 {
		all = append(all, plots.Column{Title: "Change", Unit: unit, Kind: plots.Number, Decimals: 1}, data("Change ±", 1))
	}
	if a.Cap != nil && a.Cap.Exceeded {
		all = append(all, plots.Column{Title: "Runs at", Unit: "cycles/h", Kind: plots.Number})
	}
	all = append(all, plots.Column{Title: "Defective", Unit: "in a million", Kind: plots.Number, Decimals: 1})
	for _, f := range a.Figures() {
		all = append(all, plots.Column{Title: say.Capital(study.Column(f)), Kind: plots.Number, Decimals: 1, Data: true})
	}
	return all
}

// sweepRow returns the values of a point, its net rate and how far it is from the best.
func sweepRow(a *study.SweepAnswer, point int) []plots.Entry {
	p := &a.Points[point]
	var row []plots.Entry
	for _, v := range p.Values {
		row = append(row, page.Words(v))
	}
	worse := "no"
	if !p.NotShownWorse {
		worse = "yes"
	}
	row = append(row,
		plots.Entry{Number: float64(p.NetRate.Mean), Shown: sweepMark(a, point) + netRate(p.NetRate)}, page.HalfWidth(float64(p.NetRate.Half)),
		value(p.NetRate.P5), value(p.NetRate.P95))
	if point == a.Best {
		return append(row, plots.Entry{Shown: "best"}, page.Value(0), page.Words(worse))
	}
	return append(append(row, gained(p.FromBest)...), page.Words(worse))
}

// sweepChange returns how row n differs from the one before it: the first differs from none.
func sweepChange(changes []study.Difference, n int) []plots.Entry {
	if n == 0 {
		return []plots.Entry{page.Value(math.NaN()), page.Value(math.NaN())}
	}
	return gained(&changes[n-1])
}

// sweepRest returns the speed at which a point runs, if that is shown, its defects and all means.
func sweepRest(a *study.SweepAnswer, point int) []plots.Entry {
	p := &a.Points[point]
	var row []plots.Entry
	if a.Cap != nil && a.Cap.Exceeded {
		row = append(row, page.Value(float64(p.Speed)))
	}
	row = append(row, plots.Entry{Number: float64(p.Defective), Shown: SweepDefective(p)})
	for _, f := range a.Figures() {
		row = append(row, value(p.Means[study.Column(f)].Mean))
	}
	return row
}

// gained returns a difference as two entries: for people the first says all.
func gained(d *study.Difference) []plots.Entry {
	return []plots.Entry{{Number: float64(d.Mean), Shown: say.Gap(d.Estimate())}, page.HalfWidth(float64(d.Half))}
}
