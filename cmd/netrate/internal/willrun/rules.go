package willrun

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// The table of what is possible.
const (
	rulesWidth   = 86 // characters of a line
	stationWidth = 26
	faultWidth   = 17
	answerWidth  = 10
)

// rules is what the stations of a line can answer to their faults. Stations of one kind
// that are alike in that have one entry.
type rules struct {
	line    *model.Line
	entries []ruleEntry
	reasons []string // why something is impossible, as they are numbered from 1
}

type ruleEntry struct {
	kind     string
	stations []string
	rows     []string // one for each fault
}

func rulesOf(l *model.Line) *rules {
	r := &rules{line: l}
	for i, s := range l.Stations {
		var rows []string
		for _, f := range l.Faults(i) {
			rows = append(rows, r.row(i, f))
		}
		if rows == nil {
			continue
		}
		kind := s.Kind().Name
		at := slices.IndexFunc(r.entries, func(x ruleEntry) bool { return x.kind == kind && slices.Equal(x.rows, rows) })
		if at < 0 {
			at = len(r.entries)
			r.entries = append(r.entries, ruleEntry{kind: kind, rows: rows})
		}
		r.entries[at].stations = append(r.entries[at].stations, s.Where().Name)
	}
	return r
}

// row returns what station i can answer to a fault: a column for each response.
func (r *rules) row(i int, f model.Fault) string {
	row, possible := []string{fmt.Sprintf("%-*s", faultWidth, f)}, 0
	for answer := range model.Responses() {
		if r.line.Refusal(i, f, model.Response(answer)) == "" {
			possible++
		}
	}
	for answer := range model.Responses() {
		response := model.Response(answer)
		why, chosen := r.line.Refusal(i, f, response), r.line.Answer(i, f) == response
		word := "possible"
		switch {
		case why != "" && chosen:
			word = "REFUSED " + r.number(why)
		case why != "":
			word = "no " + r.number(why)
		case chosen && possible == 1:
			word = "always"
		case chosen:
			word = "CHOSEN"
		}
		row = append(row, fmt.Sprintf("%-*s", answerWidth, word))
	}
	return strings.TrimRight(strings.Join(row, " "), " ")
}

// number returns the number under which a reason is told.
func (r *rules) number(reason string) string {
	at := slices.Index(r.reasons, reason)
	if at < 0 {
		at = len(r.reasons)
		r.reasons = append(r.reasons, reason)
	}
	return fmt.Sprint(at + 1)
}

// text returns the table, the reasons below it, and what a track gate is needed for.
func (r *rules) text() string {
	var b strings.Builder
	b.WriteString("The responses that each station can have to its faults\n\n")
	fmt.Fprintf(&b, "%-*s%-*s", stationWidth, "station", faultWidth, "fault")
	for _, name := range model.Responses() {
		fmt.Fprintf(&b, " %-*s", answerWidth, name)
	}
	head := strings.TrimRight(b.String(), " ")
	b.Reset()
	b.WriteString(head + "\n")
	for _, x := range r.entries {
		b.WriteString(x.text())
	}
	for i, reason := range r.reasons {
		b.WriteString(say.Hanging(fmt.Sprintf("\n%2d  ", i+1), say.Capital(reason)+".", rulesWidth))
	}
	b.WriteString("\n\n")
	for _, said := range r.sayings() {
		b.WriteString(say.Wrapped(said, rulesWidth))
	}
	return b.String()
}

// text returns the rows of the entry, with the names of its stations to their left.
func (x *ruleEntry) text() string {
	kind := x.kind
	if len(x.stations) > 1 {
		kind += "s"
	}
	called := kind + " " + strings.Join(x.stations, ", ")
	if called == kind+" "+kind { // an inserter called inserter
		called = kind
	}
	names := strings.Split(strings.TrimSuffix(say.Wrapped(called, stationWidth-3), "\n"), "\n")
	var b strings.Builder
	for n := range max(len(names), len(x.rows)) {
		name, row := "", ""
		if n < len(names) {
			name = names[n]
		}
		if n < len(x.rows) {
			row = x.rows[n]
		}
		if n > 0 && name != "" {
			name = "  " + name
		}
		pad := max(1, stationWidth-utf8.RuneCountInString(name))
		b.WriteString(strings.TrimRight(name+strings.Repeat(" ", pad)+row, " ") + "\n")
	}
	return b.String()
}
