package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// RulesText returns what stations can answer to their faults: a table, the reasons below it, and
// what a track gate is needed for.
func RulesText(a *study.RulesAnswer) string {
	var b strings.Builder
	b.WriteString("The responses that each station can have to its faults\n\n" + brief(rulesTable(a)))
	for i, reason := range a.Reasons {
		b.WriteString(say.Hanging(fmt.Sprintf("\n%2d  ", i+1), say.Capital(reason)+".", say.Prose()))
	}
	b.WriteString("\n\n")
	for _, said := range rulesSayings(a) {
		b.WriteString(say.Wrapped(said, say.Prose()))
	}
	return b.String()
}

// rulesTable returns a row for each fault, with the names of its stations beside their first.
func rulesTable(a *study.RulesAnswer) plots.Table {
	t := plots.Table{
		Name: "Responses", Caption: "The responses that each station can have to its faults; the reasons why not stand below by their numbers",
		Columns: []plots.Column{{Title: "Station", Brief: "station"}, {Title: "Fault", Brief: "fault"}}, Names: 2,
	}
	for _, name := range a.Responses {
		t.Columns = append(t.Columns, plots.Column{Title: say.Capital(name), Brief: name})
	}
	for i := range a.Entries {
		x := &a.Entries[i]
		name := rulesStations(x)
		for n := range x.Faults {
			row := []plots.Entry{page.Words(name), page.Words(x.Faults[n].Fault)}
			for _, answer := range x.Faults[n].Answers {
				row = append(row, page.Words(rulesWord(answer)))
			}
			t.Rows, name = append(t.Rows, row), ""
		}
	}
	return t
}

// rulesStations names the stations of an entry.
func rulesStations(x *study.RulesEntry) string {
	kind := x.Kind
	if len(x.Stations) > 1 {
		kind += "s"
	}
	if called := strings.Join(x.Stations, ", "); called != kind { // unless an inserter is called inserter
		kind += " " + called
	}
	return kind
}

// rulesWord says whether an answer to a fault is possible, and whether it is the one chosen.
func rulesWord(answer study.RulesReply) string {
	switch {
	case !answer.Possible && answer.Chosen:
		return fmt.Sprintf("REFUSED %d", answer.Reason)
	case !answer.Possible:
		return fmt.Sprintf("no %d", answer.Reason)
	case answer.Chosen && answer.Only:
		return "always"
	case answer.Chosen:
		return "CHOSEN"
	}
	return "possible"
}

// rulesSayings returns what the table does not show at a glance: what a track gate is needed
// for, how streams are put in step again, and what is answered alike.
func rulesSayings(a *study.RulesAnswer) []string {
	said := []string{gateSaying(&a.Gate)}
	var byHand, inLine []string
	for _, x := range a.Streams {
		name := fmt.Sprintf("%s (%s)", x.Stream, x.Station)
		if x.InLine {
			inLine = append(inLine, name)
		} else {
			byHand = append(byHand, name)
		}
	}
	if byHand != nil {
		said = append(said, "Put in step by hand, at a stop: "+say.List(byHand)+".")
	}
	if inLine != nil {
		said = append(said, "Put in step in line, while the line runs: "+say.List(inLine)+
			". The faulty set and the one after it, the catch-up set, are taken off, and both are made again.")
	}
	if a.Readers {
		said = append(said, "A false alarm gets the answer to a mismatch.")
	}
	return said
}

// gateSaying says what cannot leave the line, while it runs, but at a track gate.
func gateSaying(g *study.RulesGate) string {
	if g.Needs == nil {
		return "No track gate is required: a set that is wrong can leave in its envelope, at the exit gate. A track gate saves the envelope."
	}
	where := say.List(g.Needs)
	if g.All {
		where = "at every station before the inserter"
	}
	said := []string{"A track gate is required if a set that is wrong shall leave while the line runs, " + where}
	for _, why := range g.Reasons {
		said = append(said, say.Capital(why))
	}
	has := "This line has none."
	if g.Has != nil {
		has = "This line has one: " + say.List(g.Has) + "."
	}
	return strings.Join(said, ". ") + ". " + has
}
