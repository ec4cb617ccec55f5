package present

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// The table of what is possible.
const (
	rulesWidth   = CoverageWidth
	stationWidth = 26
	faultWidth   = 17
	answerWidth  = 10
)

// RulesText returns what stations can answer to their faults: a table, the reasons below it, and
// what a track gate is needed for.
func RulesText(a *study.RulesAnswer) string {
	var b strings.Builder
	b.WriteString("The responses that each station can have to its faults\n\n")
	var head strings.Builder
	fmt.Fprintf(&head, "%-*s%-*s", stationWidth, "station", faultWidth, "fault")
	for _, name := range a.Responses {
		fmt.Fprintf(&head, " %-*s", answerWidth, name)
	}
	b.WriteString(strings.TrimRight(head.String(), " ") + "\n")
	for i := range a.Entries {
		b.WriteString(rulesEntry(&a.Entries[i]))
	}
	for i, reason := range a.Reasons {
		b.WriteString(say.Hanging(fmt.Sprintf("\n%2d  ", i+1), say.Capital(reason)+".", rulesWidth))
	}
	b.WriteString("\n\n")
	for _, said := range rulesSayings(a) {
		b.WriteString(say.Wrapped(said, rulesWidth))
	}
	return b.String()
}

// rulesEntry returns the rows of an entry, with the names of its stations to their left.
func rulesEntry(x *study.RulesEntry) string {
	kind := x.Kind
	if len(x.Stations) > 1 {
		kind += "s"
	}
	called := kind + " " + strings.Join(x.Stations, ", ")
	if called == kind+" "+kind { // an inserter called inserter
		called = kind
	}
	names := strings.Split(strings.TrimSuffix(say.Wrapped(called, stationWidth-3), "\n"), "\n")
	var b strings.Builder
	for n := range max(len(names), len(x.Faults)) {
		name, row := "", ""
		if n < len(names) {
			name = names[n]
		}
		if n < len(x.Faults) {
			row = rulesRow(&x.Faults[n])
		}
		if n > 0 && name != "" {
			name = "  " + name
		}
		pad := max(1, stationWidth-utf8.RuneCountInString(name))
		b.WriteString(strings.TrimRight(name+strings.Repeat(" ", pad)+row, " ") + "\n")
	}
	return b.String()
}

// rulesRow returns what can be answered to a fault: a column for each response.
func rulesRow(f *study.RulesFault) string {
	row := []string{fmt.Sprintf("%-*s", faultWidth, f.Fault)}
	for _, reply := range f.Answers {
		word := "possible"
		switch {
		case !reply.Possible && reply.Chosen:
			word = fmt.Sprintf("REFUSED %d", reply.Reason)
		case !reply.Possible:
			word = fmt.Sprintf("no %d", reply.Reason)
		case reply.Chosen && reply.Only:
			word = "always"
		case reply.Chosen:
			word = "CHOSEN"
		}
		row = append(row, fmt.Sprintf("%-*s", answerWidth, word))
	}
	return strings.TrimRight(strings.Join(row, " "), " ")
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
