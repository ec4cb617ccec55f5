package willrun

import (
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// figure draws which jobs run on which lines.
func (c *Coverage) figure() (*plots.Figure, error) {
	d := plots.CoverageData{Head: plots.Head{
		Title:    strings.TrimSuffix(c.finding(), "."),
		Subtitle: "The speed at which each line runs each job, cycles an hour, and what limits it; or why it cannot",
	}}
	for _, x := range c.columns {
		d.Lines = append(d.Lines, x.name)
	}
	for i, p := range c.jobs {
		d.Jobs = append(d.Jobs, p.Name)
		var cells []plots.Ability
		for _, x := range c.columns {
			a := plots.Ability{Why: "no such job"}
			if f := x.fits[i]; runs(f) {
				a = plots.Ability{Runs: true, Says: say.Exact(f.Speed) + "/h", Why: strings.Join(f.LimitedBy, ", ")}
			} else if f != nil {
				a.Why = strings.Join(f.Reasons, "; ")
			}
			cells = append(cells, a)
		}
		d.Cells = append(d.Cells, cells)
	}
	return plots.Coverage(d)
}

// table returns how each line runs each job.
func (c *Coverage) table() plots.Table {
	t := plots.Table{
		Name: "Will it run", Caption: "How each line runs each job, and which feeder takes which insert",
		Columns: []plots.Column{
			{Title: "Job"},
			{Title: "Line"},
			{Title: "Speed", Unit: "an hour", Kind: plots.Number},
			{Title: "Limited by"},
			{Title: "Inserts in feeders"},
		},
	}
	for i, p := range c.jobs {
		for _, x := range c.columns {
			f := x.fits[i]
			if f == nil {
				continue
			}
			row := []plots.Entry{page.Words(p.Name), page.Words(x.name), page.Value(f.Speed), page.Words(strings.Join(f.LimitedBy, ", ")), {}}
			if !f.Runs {
				row[2] = page.Words("cannot")
			}
			var loaded []string
			for _, l := range f.Feeders {
				loaded = append(loaded, l.Insert+" in "+l.Feeder)
			}
			row[4] = page.Words(strings.Join(loaded, ", "))
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// reasonsTable returns why jobs cannot be run, and what is not known of those that can.
func (c *Coverage) reasonsTable() plots.Table {
	t := plots.Table{
		Name: "Reasons", Caption: "Why jobs cannot be run, and what is to be known of others",
		Columns: []plots.Column{{Title: "Jobs"}, {Title: "Reason"}, {Title: "So it"}},
	}
	for _, r := range c.reasons {
		so := "cannot run"
		if !r.refuse {
			so = "is to be known"
		}
		t.Rows = append(t.Rows, []plots.Entry{page.Words(c.trueOf(r)), page.Words(r.text), page.Words(so)})
	}
	return t
}

// mailTable returns the envelopes of the jobs.
func mailTable(pieces []mailpiece) plots.Table {
	t := plots.Table{
		Name: "Envelopes", Caption: mailCaption,
		Columns: []plots.Column{{Title: "Envelope"}, {Title: "Size", Unit: "mm"}, {Title: "Size", Unit: "in"}, {Title: "Set", Unit: "mm thick"}, {Title: "As US mail"}, {Title: "Why"}, {Title: "Jobs"}},
	}
	for _, m := range pieces {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(m.envelope.Name), page.Words(m.millimetres()), page.Words(m.inches()), page.Words(m.thickness()),
			page.Words(m.class.Name), page.Words(strings.Join(m.class.Reasons, "; ")), page.Words(say.List(m.jobs)),
		})
	}
	return t
}
