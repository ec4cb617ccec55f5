package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// StrategiesTogether is what each of several lines is to answer to which fault, as it is said and drawn.
type StrategiesTogether struct {
	*study.StrategiesTogetherAnswer
	Origin  page.Origin
	Command string // that asks again, without the seed and the number of replications
}

// Finding returns which lines are to answer otherwise, what that is worth, and of which the best is
// not known.
func (s StrategiesTogether) Finding() string {
	return strings.Join(append([]string{s.found()}, s.doubts()...), " ")
}

// found returns what the lines deliver with what was found.
func (s StrategiesTogether) found() string {
	rate := netRate(s.NetRate) + " good envelopes an hour together"
	if s.Gain == nil {
		return "The lines keep the strategies of the file: none that was simulated at one of them is found to be better. They deliver " + rate + "."
	}
	with := fmt.Sprintf("With other responses at %s the lines deliver %s", say.List(s.Changed()), rate)
	gain := s.Gain.Estimate()
	gain.N = s.Judged.Reps
	if !gain.Shown() {
		return with + ", which is not shown to be more than with those of the file."
	}
	return fmt.Sprintf("%s, %s than with those of the file (95 %%).", with, moreWords(gain))
}

// doubts returns at which lines the best is not known, or is none to be taken as it is.
func (s StrategiesTogether) doubts() (all []string) {
	at := func(words string, is func(*study.StrategiesAnswer) bool) {
		var names []string
		for _, l := range s.Lines {
			if is(l.StrategiesAnswer) {
				names = append(names, l.Name)
			}
		}
		if names != nil {
			all = append(all, fmt.Sprintf(words, say.List(names)))
		}
	}
	at("At %s no strategy is within the limit.", func(a *study.StrategiesAnswer) bool { return !a.Within })
	at("At %s others may be as good.", func(a *study.StrategiesAnswer) bool { return len(a.AsGood) > 0 })
	at("CAUTION: at %s personalised sets that could not be read or matched are shipped; they are not counted as defective.",
		func(a *study.StrategiesAnswer) bool { return a.Leading().ShipsUnread })
	return all
}

// searched says how far the search went, and what it does not prove.
func (s StrategiesTogether) searched() string {
	return fmt.Sprintf("Searched line by line, each with the others at the best found so far, in %s, until no change at one line helped. "+
		"That is no proof over all combinations: of %s, %s were simulated, and changes at two lines at once may deliver more. "+
		"What all lines deliver above is from %s (seed %d) than those of the search.",
		say.Plural(len(s.Turns), "turn"), manyOf(float64(s.Combinations)), say.Thousands(s.Simulated), say.Plural(s.Judged.Reps, "other "+page.Period(s.Study.Line)), s.Judged.Seed)
}

// ofLine says what the net rates of a line's strategies are of.
func (s StrategiesTogether) ofLine(i int) string {
	var others []string
	for k, l := range s.Lines {
		if k != i {
			others = append(others, l.Name)
		}
	}
	if others == nil {
		return ""
	}
	return fmt.Sprintf("Net rates are of all lines together, with %s as found; defective envelopes are those of %s.", say.List(others), s.Lines[i].Name)
}

// Text returns what was found, line after line.
func (s StrategiesTogether) Text() string {
	var b strings.Builder
	b.WriteString(page.Headline(s.Origin.Scenario.Name+": strategies of "+say.Plural(len(s.Lines), "line"), s.Study) + "\n\n")
	b.WriteString(say.Wrapped(s.Finding(), say.Prose()) + "\n" + say.Wrapped(s.searched(), say.Prose()))
	for i, l := range s.Lines {
		a := l.StrategiesAnswer
		b.WriteString("\n" + Screen(say.Capital(l.Name), StrategiesFinding(a)+" "+s.ofLine(i), strategiesTable(a, strategiesShown(a, leastStrategies), !a.Personalised())) + "\n")
		b.WriteString(say.Wrapped(strategiesOtherwise(a)+strategiesSources(a), say.Prose()) + pricesOnScreen(a) + say.Wrapped(strategiesDropped(a), say.Prose()))
	}
	return b.String() + "\n" + page.Repeated(s.Lines[0].Own().Study, s.Basis, s.Command)
}

// Rows returns a row for each strategy of each line, as it was asked last.
func (s StrategiesTogether) Rows() plots.Table {
	var all plots.Table
	for i, l := range s.Lines {
		t := StrategiesTables(l.StrategiesAnswer)[0]
		if i == 0 {
			all = t
			all.Columns, all.Rows, all.Names = append([]plots.Column{{Title: "Line"}}, t.Columns...), nil, 2
		}
		for _, row := range t.Rows {
			all.Rows = append(all.Rows, append([]plots.Entry{page.Words(l.Name)}, row...))
		}
	}
	return all
}

type strategiesTogetherDocument struct {
	Format int `json:"netrate_strategies_json"`
	page.LineDocument
	*study.StrategiesTogetherAnswer
}

// Document returns the answer below the head of a document.
func (s StrategiesTogether) Document(version string) any {
	return strategiesTogetherDocument{page.JSONVersion, page.LineDocumentOf(version, s.Origin, s.Finding()), s.StrategiesTogetherAnswer}
}

// Report returns the choice as a page: a section of the search, and of each line what a strategy of one
// line has.
func (s StrategiesTogether) Report(version string) (*page.Report, error) {
	first := s.Lines[0]
	o := page.OpeningOf(s.Origin, first.Own().Study, s.Command)
	o.Title = s.Origin.Scenario.Name + ": which strategies"
	o.Question = "Which response to each fault, at each line, delivers most together, with " + s.atMost() + "?"
	o.Answer = s.Finding()
	r := page.NewReport(version, o)
	r.Add(plots.Section{Heading: "How it was searched", Text: s.searched(), Tables: []plots.Table{s.turnsTable()}})
	for i := range s.Lines {
		r.Add(s.section(i, r))
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// atMost says how many defective ones are accepted.
func (s StrategiesTogether) atMost() string {
	if a := s.Lines[0].StrategiesAnswer; a.LimitGiven {
		return StrategiesAtMost(a) + " at each"
	}
	return "no more defective envelopes at any than its own in the file"
}

// section returns what was found of one line.
func (s StrategiesTogether) section(i int, r *page.Report) plots.Section {
	a := s.Lines[i].StrategiesAnswer
	text := []string{StrategiesFinding(a), s.ofLine(i), strategiesOtherwise(a) + strategiesSources(a), strategiesPrices(a), strategiesDropped(a)}
	one := plots.Section{
		Heading: say.Capital(s.Lines[i].Name), Tables: StrategiesTables(a),
		Text: strings.Join(slices.DeleteFunc(text, func(x string) bool { return x == "" }), "\n\n"),
	}
	for k := range one.Tables {
		one.Tables[k].Name += " " + s.Lines[i].Name
	}
	alone := Strategies{StrategiesAnswer: a, Origin: s.Origin}
	one.Figures = strategiesPictures(a, alone.differences, fmt.Sprintf("-%d-%s", i, say.Slug(s.Lines[i].Name)), r)
	return one
}

// turnsTable returns how the search went.
func (s StrategiesTogether) turnsTable() plots.Table {
	t := plots.Table{
		Name: "Search", Caption: "Turn by turn: the net rate of all lines with the best that was found, good envelopes an hour with 95 % intervals",
		Columns: append([]plots.Column{
			{Title: "Turn", Kind: plots.Number}, {Title: "Line"}, {Title: "Simulated", Kind: plots.Number},
		}, append(RateColumns("Net rate", ""), plots.Column{Title: "Changed"}, plots.Column{Title: "Responses that differ from the file"})...),
	}
	for i, x := range s.Turns {
		row := []plots.Entry{page.Value(float64(i + 1)), page.Words(x.Line), page.Value(float64(x.Simulated))}
		row = append(row, estimated(x.NetRate.Estimate())...)
		t.Rows = append(t.Rows, append(row, page.Words(yes(x.Changed)), page.Words(x.Otherwise)))
	}
	return t
}
