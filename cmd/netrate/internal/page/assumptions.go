package page

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
)

// notGiven is the source of what the file does not say, and is taken so.
const notGiven = "not given in the file"

// Basis is a line that an answer rests on, or several with one crew.
type Basis struct {
	Name      string // of the variant; the first is named without it
	Scenario  *scenarios.Scenario
	Line      *model.Line
	LineGroup *model.LineGroup            // nil of one line
	Work      []study.AssumptionStatement // told instead of the speed where a line is set up for several jobs
}

// Assumed returns what an answer rests on: all of the first, and of the others what is not
// as it is there.
func Assumed(of ...Basis) []plots.Assumption {
	var bases []study.AssumptionBasis
	for _, x := range of {
		b := study.AssumptionBasis{
			Name: x.Name, Lines: Attended(x.Line, x.LineGroup), Grouped: x.LineGroup != nil, Crew: x.Line.Crew, Stated: statedOf(x.file()), Work: x.Work,
		}
		bases = append(bases, b)
	}
	var all []plots.Assumption
	first := map[string]string{} // what the first line is taken as
	for _, a := range study.Assumptions(bases...) {
		p := shown(&a)
		if a.Alternative == "" {
			for _, name := range namesOf(&a) {
				first[name] = p.Value
			}
		} else if was := wasIn(first, namesOf(&a)); was != "" && was != p.Value {
			p.Value = was + " → " + p.Value
		}
		all = append(all, p)
	}
	return all
}

// namesOf returns what an assumption is of, whatever the alternative: one name for each station.
func namesOf(a *study.Assumption) []string {
	key := a.Key
	if a.Kind == study.AssumptionResponse || a.Kind == study.AssumptionDefault {
		key = "response to " + key
	}
	if a.Stations == nil {
		return []string{a.Line + "\n\n" + key}
	}
	var names []string
	for _, station := range a.Stations {
		names = append(names, a.Line+"\n"+station+"\n"+key)
	}
	return names
}

// wasIn returns what all of some assumptions are in the first line, if that is one short value.
func wasIn(first map[string]string, names []string) string {
	was := first[names[0]]
	for _, name := range names {
		if first[name] != was || len(was) > mostWas {
			return ""
		}
	}
	return was
}

// mostWas is how long a value is at most that is said of the first line beside that of another.
const mostWas = 60

func statedOf(statements []scenarios.Statement) []study.AssumptionStatement {
	all := []study.AssumptionStatement{}
	for _, s := range statements {
		all = append(all, study.AssumptionStatement(s))
	}
	return all
}

// AssumedOf returns what is assumed of a scenario and, where they differ, of its variants.
func AssumedOf(sc *scenarios.Scenario) []plots.Assumption {
	all := []Basis{{Name: scenarios.BaseName, Scenario: sc, Line: sc.Line, LineGroup: sc.LineGroup}}
	for _, v := range sc.Variants {
		all = append(all, Basis{Name: v.Name, Scenario: sc, Line: v.Line, LineGroup: v.LineGroup})
	}
	return Assumed(all...)
}

// AssumedOfTest returns what is assumed of the lines that a test tells apart, and of nothing else of the
// file: a contract shows neither its prices nor the offers of others. The lines are those of variants, by
// their names; one that is none of them, or no name at all, is the file as it stands.
func AssumedOfTest(sc *scenarios.Scenario, names ...string) []plots.Assumption {
	if len(names) == 0 {
		names = []string{scenarios.BaseName}
	}
	var all []Basis
	for _, name := range names {
		b := Basis{Name: scenarios.BaseName, Scenario: sc, Line: sc.Line, LineGroup: sc.LineGroup}
		for _, v := range sc.Variants {
			if v.Name == name {
				b = Basis{Name: v.Name, Scenario: sc, Line: v.Line, LineGroup: v.LineGroup}
			}
		}
		all = append(all, b)
	}
	return slices.DeleteFunc(Assumed(all...), func(a plots.Assumption) bool { return ofNoTest.MatchString(a.What) })
}

// ofNoTest finds what enters no test: money, what is searched, and the work of a season.
var ofNoTest = regexp.MustCompile(`(^|: )(costs|target|design|season|calendar|plan)(\.|$)`)

// shown returns an assumption as a report lists it.
func shown(a *study.Assumption) plots.Assumption {
	p := plots.Assumption{What: a.Key, Value: a.Text, Source: a.Source}
	switch a.Kind {
	case study.AssumptionStated:
		p.Value = InWords(p.Value) + rateWords(a)
	case study.AssumptionSpeed:
		p.What += ", as it runs"
		p.Value = say.Exact(a.Number) + "/h, set by " + limitWords(a.LimitedBy)
	case study.AssumptionResponse:
		p.What = "response to a " + a.Key
	case study.AssumptionTaken:
		p.Value, p.Source = say.Exact(a.Number), notGiven
		switch {
		case a.Text != "":
			p.Value = a.Text
		case a.Share:
			p.Value = say.Probability(a.Number)
		}
	case study.AssumptionDefault:
		p.What, p.Source = "response to a "+a.Key, notGiven
	case study.AssumptionCrew:
		p.Source = notGiven
	}
	if a.Stations != nil {
		p.What = say.List(a.Stations) + ": " + p.What
	}
	for _, of := range []string{a.Line, a.Alternative} {
		if of != "" {
			p.What = of + ": " + p.What
		}
	}
	return p
}

// InWords returns a text of a file in which numbers that are not known for certain are said in words,
// such as “1 to 3, most likely 2”.
func InWords(text string) string { return braced.ReplaceAllStringFunc(priorWords(text), priorWords) }

// braced finds what stands in braces and has none inside.
var braced = regexp.MustCompile(`\{[^{}]*\}`)

// priorWords says a number that is not known for certain; any other text it returns as it is.
func priorWords(text string) string {
	if own, _, is := strings.Cut(strings.Trim(text, "{}"), ", same as: "); is { // the number at that path of what it is compared with
		if said := priorWords(own); said != own {
			return said + ", as in the base"
		}
	}
	has := map[string]string{}
	for part := range strings.SplitSeq(strings.Trim(text, "{}"), ",") {
		key, value, _ := strings.Cut(part, ":")
		has[strings.TrimSpace(key)] = strings.TrimSpace(value)
	}
	is := func(keys ...string) bool {
		for _, key := range keys {
			if has[key] == "" {
				return false
			}
		}
		return len(has) == len(keys)
	}
	switch {
	case is("low", "high"):
		return has["low"] + " to " + has["high"]
	case is("low", "likely", "high"):
		return fmt.Sprintf("%s to %s, most likely %s", has["low"], has["high"], has["likely"])
	case is("seen", "of"):
		return fmt.Sprintf("%s seen in %s", has["seen"], has["of"])
	case is("seen", "of", "counted"):
		return fmt.Sprintf("%s seen in %s independent ones (%s counted)", has["seen"], has["of"], has["counted"])
	case is("about", "se"):
		return fmt.Sprintf("about %s, standard error %s", has["about"], has["se"])
	}
	return text
}

// rateWords returns what the rate of a fault is one of.
func rateWords(a *study.Assumption) string {
	text := ""
	if a.Rated {
		text = " at the rated speed"
	}
	if a.Material != 0 {
		text += fmt.Sprintf(" × %s for the material", say.Exact(a.Material))
	}
	return text
}

// limitWords returns what a line cannot go faster than.
func limitWords(stations []string) string {
	var all []string
	for _, name := range stations {
		if name == "" {
			name = "the speed asked for"
		}
		all = append(all, name)
	}
	return strings.Join(all, ", ")
}

// file returns what the file says of a line, which may be that of a variant.
func (x Basis) file() []scenarios.Statement {
	for i := range x.Scenario.Variants {
		if v := &x.Scenario.Variants[i]; v.Name == x.Name || v.Line == x.Line || x.LineGroup != nil && v.LineGroup == x.LineGroup {
			return v.Stated()
		}
	}
	return x.Scenario.Stated()
}

// BasisNote says on lines of its own what an answer rests on in which uncertain inputs were not
// drawn; nothing if they were, or nothing is uncertain.
func BasisNote(b study.Basis) string {
	taken := map[string]string{study.OnNominal: "nominal values", study.OnMeans: "their means"}[b.On]
	if taken == "" {
		return ""
	}
	return say.Wrapped(say.Plural(b.Inputs, "uncertain input")+" of the file: not drawn here, but taken at "+taken+".", say.Prose())
}
