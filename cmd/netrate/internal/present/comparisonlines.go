package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// changesTable returns what the lines are, a row for each change.
func (c Comparison) changesTable() plots.Table {
	t := plots.Table{Name: "Lines", Caption: "The lines and what is changed in them", Columns: []plots.Column{{Title: "Line"}, {Title: "What it is"}}}
	for i, x := range c.Lines {
		said := x.Changes
		switch {
		case i == 0 || len(c.Origins) > 1:
			said = []string{lineInShort(x)}
		case x.Note != "":
			said = append([]string{x.Note + ":"}, x.Changes...)
		case len(said) == 0:
			said = []string{"as the base"}
		}
		for n, text := range said {
			name := x.Name
			if n > 0 {
				name = ""
			}
			t.Rows = append(t.Rows, []plots.Entry{page.Words(name), page.Words(page.InWords(text))})
		}
	}
	return t
}

func lineInShort(x study.LineAnswer) string {
	if x.Of.Group != nil {
		var names []string
		for _, l := range x.Of.Group.Lines {
			names = append(names, l.Name)
		}
		return fmt.Sprintf("%s with one crew of %s", say.List(names), page.Operators(&x.Study.Line.Crew))
	}
	if x.Mix != nil {
		return fmt.Sprintf("%s; set up for %s, %s", page.StationList(x.Study.Line), say.Plural(len(x.Mix.Setups), "job"), page.Operators(&x.Study.Line.Crew))
	}
	return fmt.Sprintf("%s; %s cycles an hour, %s", page.StationList(x.Study.Line), say.Exact(x.Study.Line.RunSpeed()), page.Operators(&x.Study.Line.Crew))
}
