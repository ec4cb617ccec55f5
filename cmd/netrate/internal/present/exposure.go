package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// How defective envelopes come, in the words of those who answer for them.

// shownFaults is how many faults a sentence has room for, and shownNames how many stations.
const (
	shownFaults = 3
	shownNames  = 3
)

// exposureSays says how often a shift or a job has any defective envelopes, in what runs they
// come, how many such incidents there are, in a year where the volume is known, and by which fault;
// and of none what that assumes, in the words given. The sentences have no full stops.
func exposureSays(e *study.Exposure, period, assumes string) []string {
	high := say.Percent(float64(e.ShareHigh), float64(e.ShareHigh)/10)
	switch {
	case !e.Possible:
		return []string{"None possible if " + assumes}
	case e.Defective == 0:
		return []string{fmt.Sprintf("None in %s (95 %%: in at most %s of %ss%s) if %s", say.Plural(e.Of, period), high, period, noneAYear(e), assumes)}
	}
	text := fmt.Sprintf("Some in %s of %ss (95 %%: %s to %s)", say.Percent(float64(e.Share), float64(e.ShareHigh-e.ShareLow)/2),
		period, say.Percent(float64(e.ShareLow), float64(e.ShareLow)/10), high)
	switch {
	case e.Defective == 1:
	case e.Longest == 1:
		text += ", never two in a row"
	default:
		text += ", up to " + say.Thousands(e.Longest) + " in a row"
	}
	if e.Worst >= ruined {
		text += fmt.Sprintf("; %s of the worst %s", say.Percent(float64(e.Worst), float64(e.Worst)/10), period)
	}
	if e.Unforeseen {
		text += ". " + unforeseen
	}
	return []string{text, say.Capital(incidentsText(e)) + ": " + faultsText(e)}
}

// exposureBrief returns the same in one part of a sentence: what is delivered.
func exposureBrief(e *study.Exposure, period string) string {
	high := say.Percent(float64(e.ShareHigh), float64(e.ShareHigh)/10)
	switch {
	case !e.Possible:
		return "nothing defective if " + zeroInShort(e.Zero)
	case e.Defective == 0:
		return fmt.Sprintf("nothing defective in %s (95 %%: in at most %s of %ss) if %s", say.Plural(e.Of, period), high, period, zeroInShort(e.Zero))
	}
	text := fmt.Sprintf("defective envelopes in %s of %ss (%s to %s)", say.Percent(float64(e.Share), float64(e.ShareHigh-e.ShareLow)/2), period,
		say.Percent(float64(e.ShareLow), float64(e.ShareLow)/10), high)
	if e.Longest > 1 {
		text += ", up to " + say.Thousands(e.Longest) + " in a row"
	}
	if e.Unforeseen {
		text += ". " + unforeseen
	}
	return text
}

// unforeseen is said where the simulation counts what no station owns up to.
const unforeseen = "NO STATION SAYS THAT IT LETS ANY GO, so figures on paper are wrong: see Leaks of the kind"

// exposuresBrief returns the same of each job or line: a sentence without its full stop, or part of
// one.
func exposuresBrief(all []*study.Exposure, period string) string {
	if len(all) == 1 {
		return exposureBrief(all[0], period)
	}
	var each, ifs []string
	possible, most := 0, 0.0
	for _, e := range all {
		each = append(each, cmp.Or(e.Job, e.Line)+", "+exposureBrief(e, period))
		if e.Possible {
			possible, most = possible+1, max(most, float64(e.ShareHigh))
		}
		if x := zeroInShort(e.Zero); x != "" && !slices.Contains(ifs, x) {
			ifs = append(ifs, x)
		}
	}
	switch none := !slices.ContainsFunc(all, func(e *study.Exposure) bool { return e.Defective > 0 }); {
	case none && possible == 0:
		return "nothing defective if " + say.List(ifs)
	case none:
		return fmt.Sprintf("nothing defective in %s of each (95 %%: in at most %s of %ss) if %s", say.Plural(all[0].Of, period), say.Percent(most, most/10), period, say.List(ifs))
	}
	return "of " + strings.Join(each, "; of ")
}

// exposureText returns that in a paragraph.
func exposureText(e *study.Exposure, period string) string {
	return "Defective envelopes: " + exposureSentences(e, period) + "."
}

// exposureSentences returns the same after a colon, without the last full stop.
func exposureSentences(e *study.Exposure, period string) string {
	return say.Small(strings.Join(exposureSays(e, period, zeroText(e.Zero)), ". "))
}

// faultsText says by which faults the incidents are.
func faultsText(e *study.Exposure) string {
	var by []string
	for _, x := range e.From[:min(len(e.From), shownFaults)] {
		one := x.Station + ", " + x.Fault
		if len(e.From) > 1 {
			one += fmt.Sprintf(" (%s)", say.Percent(float64(x.Incidents)/float64(e.Incidents), 0.01))
		}
		by = append(by, one)
	}
	if n := len(e.From) - shownFaults; n > 0 {
		by = append(by, say.Plural(n, "other fault"))
	}
	text := strings.Join(by, "; ")
	if mixed := forDifferent(e); mixed != "" {
		text += ". " + mixed
	}
	return text
}

// forDifferent says that envelopes hold pieces for different people, without a full stop; "" of none
// that do.
func forDifferent(all ...*study.Exposure) string {
	personal, sources := 0, 0
	for _, e := range all {
		for _, x := range e.From {
			if sources++; x.Personal {
				personal++
			}
		}
	}
	switch personal {
	case 0:
		return ""
	case sources:
		return "They hold pieces for different people"
	}
	return "Some of them hold pieces for different people"
}

// ruined is the share of a shift that must be defective for that to be said.
const ruined = 0.01

// incidentsText says how many incidents there are.
func incidentsText(e *study.Exposure) string {
	if y := e.Year; y != nil {
		return fmt.Sprintf("%s incidents a year at %s envelopes (95 %%: %s to %s)",
			say.FewDigits(float64(y.Incidents)), say.InShort(float64(y.Volume)), say.FewDigits(float64(y.Low)), say.FewDigits(float64(y.High)))
	}
	return fmt.Sprintf("%s in %s envelopes", say.Plural(e.Incidents, "incident"), say.Thousands(e.Delivered))
}

// noneAYear says how many incidents a year may have where none was seen.
func noneAYear(e *study.Exposure) string {
	if e.Year == nil {
		return ""
	}
	return fmt.Sprintf(", at most %[2]s incidents a year at %[1]s envelopes", say.InShort(float64(e.Year.Volume)), say.FewDigits(float64(e.Year.High)))
}

// zeroInShort says what it rests on that no envelope is defective, where there is little room.
func zeroInShort(z *study.Zero) string {
	switch {
	case z == nil:
		return ""
	case len(z.Readers) > 0:
		return "no reader errs"
	}
	return "every misfeed and double is noticed"
}

// zeroText says the same of each station.
func zeroText(z *study.Zero) string {
	if z == nil {
		return ""
	}
	var all []string
	switch {
	case fmt.Sprint(z.Misfeeds) == fmt.Sprint(z.Doubles) && len(z.Misfeeds) > 0:
		all = append(all, "every misfeed and double at "+someOf(z.Misfeeds)+" is noticed")
	default:
		if len(z.Misfeeds) > 0 {
			all = append(all, "every misfeed at "+someOf(z.Misfeeds)+" is noticed")
		}
		if len(z.Doubles) > 0 {
			all = append(all, "every double at "+someOf(z.Doubles)+" is noticed")
		}
	}
	if len(z.Shipped) > 0 && len(z.Readers) > 0 {
		sees := " sees what goes on at "
		if len(z.Readers) > 1 {
			sees = " see what goes on at "
		}
		all = append(all, someOf(z.Readers)+sees+someOf(z.Shipped))
	}
	if len(z.Readers) > 0 {
		all = append(all, "nothing is read wrongly")
	}
	printed := []string{"printed"}
	if z.Loads {
		printed = append(printed, "loaded")
	}
	if z.Repairs {
		printed = append(printed, "put right")
	}
	return say.List(append(all, "pieces are "+say.List(printed)+" as they should be"))
}

// someOf names stations, and of many the first.
func someOf(names []string) string {
	if n := len(names) - shownNames; n > 1 {
		return say.List(append(append([]string{}, names[:shownNames]...), fmt.Sprintf("%d others", n)))
	}
	return say.List(names)
}

// ppmText returns a number in a million: no digits that rates on paper do not carry.
func ppmText(x float64) string {
	if x > 0 && x < leastPPM {
		return "<" + say.Exact(leastPPM)
	}
	return say.FewDigits(x)
}

// leastPPM is the least that is shown of a million: one in a hundred million.
const leastPPM = 0.01

// exposureFact returns how the defective envelopes of a run come; where remakes take a line too, in
// one line.
func exposureFact(run Run) fact {
	says := exposureSays(run.Exposure, page.Period(run.Line), zeroInShort(run.Exposure.Zero))
	if mixed := forDifferent(run.Exposure); run.Remakes != nil {
		if says = says[:1]; mixed != "" {
			says[0] += ". " + mixed
		}
	}
	return fact{"Defective", says}
}

// exposureSection returns how defective envelopes come, of each line and job.
func exposureSection(lines []study.LineAnswer) plots.Section {
	t := plots.Table{
		Name:    "Incidents",
		Caption: "How defective envelopes come. An incident is a run of them, one right after another; 95 % intervals, " + exposureIntervals(lines),
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Some in", Unit: "of shifts or jobs", Kind: plots.Share, Decimals: 1},
			{Title: "from", Kind: plots.Share, Decimals: 1},
			{Title: "to", Kind: plots.Share, Decimals: 1},
			{Title: "Defective", Kind: plots.Number},
			{Title: "Incidents", Kind: plots.Number},
			{Title: "Longest", Unit: "envelopes", Kind: plots.Number},
			{Title: "Worst", Unit: "of a shift or job", Kind: plots.Share, Decimals: 2},
		},
	}
	if exposedYears(lines) {
		t.Columns = append(t.Columns, plots.Column{Title: "Incidents", Unit: "a year", Kind: plots.Number, Decimals: 1},
			plots.Column{Title: "from", Kind: plots.Number, Decimals: 1}, plots.Column{Title: "to", Kind: plots.Number, Decimals: 1})
	}
	by := plots.Table{
		Name:    "Incidents by fault",
		Caption: "The faults by which defective envelopes were delivered, and whether these hold pieces for different people",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Station"},
			{Title: "Fault"},
			{Title: "Different people"},
			{Title: "Incidents", Kind: plots.Number},
			{Title: "Envelopes", Kind: plots.Number},
		},
	}
	var text []string
	for i := range lines {
		for _, e := range lines[i].Exposures {
			name := lines[i].Name
			if of := cmp.Or(e.Job, e.Line); of != "" {
				name += ", " + of
			}
			t.Rows = append(t.Rows, exposureRow(name, e)[:len(t.Columns)])
			for _, x := range e.From {
				by.Rows = append(by.Rows, []plots.Entry{
					page.Words(name), page.Words(x.Station), page.Words(x.Fault), page.Words(yes(x.Personal)),
					page.Value(float64(x.Incidents)), page.Value(float64(x.Envelopes)),
				})
			}
			text = append(text, say.Capital(name)+": "+exposureSentences(e, page.Period(lines[i].Study.Line))+".")
		}
	}
	s := plots.Section{Heading: "How defective envelopes come", Text: strings.Join(text, "\n\n"), Tables: []plots.Table{t}}
	if by.Rows != nil {
		s.Tables = append(s.Tables, by)
	}
	return s
}

// exposureIntervals says what the intervals are of.
func exposureIntervals(lines []study.LineAnswer) string {
	if slices.ContainsFunc(lines, func(x study.LineAnswer) bool { return x.Draws != nil }) {
		return "of the long run over the draws of the uncertain inputs"
	}
	return "exact, from the counts"
}

// exposedYears reports whether it is known of any line how much it makes a year.
func exposedYears(lines []study.LineAnswer) bool {
	return slices.ContainsFunc(lines, func(x study.LineAnswer) bool {
		return slices.ContainsFunc(x.Exposures, func(e *study.Exposure) bool { return e.Year != nil })
	})
}

func exposureRow(name string, e *study.Exposure) []plots.Entry {
	year, none := nothings(3), plots.Entry{Number: math.NaN()}
	if !e.Possible { // then there are none, and no count is asked how many there may be
		return append([]plots.Entry{page.Words(name), page.Words("none possible"), none, none, page.Value(0), page.Value(0), none, none}, year...)
	}
	if y := e.Year; y != nil {
		year = []plots.Entry{value(y.Incidents), value(y.Low), value(y.High)}
	}
	return append([]plots.Entry{
		page.Words(name), value(e.Share), value(e.ShareLow), value(e.ShareHigh),
		page.Value(float64(e.Defective)), page.Value(float64(e.Incidents)), page.Value(float64(e.Longest)), value(e.Worst),
	}, year...)
}
