package desk

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
)

// Premise returns under which settings an answer about a scenario holds, on lines of their own;
// "" if it is as its file says.
func Premise(sc *scenarios.Scenario) string {
	var text strings.Builder
	if sc.Variant != "" {
		text.WriteString(say.Wrapped("Taken as its variant “"+sc.Variant+"”.", say.Prose()))
	}
	if sc.Chosen != nil {
		text.WriteString(say.Wrapped("With “"+strings.Join(sc.Chosen, "”, “")+"” of its design, and the first choice of every other option.", say.Prose()))
	}
	for _, m := range sc.Made {
		line := "What if " + m.Path + ": " + m.Was + " → " + m.Value
		if names := sc.Keeps(m.Path); names != nil {
			line += " (" + say.List(names) + " set it otherwise, and keep their own)"
			if len(names) == 1 {
				line = strings.Replace(line, "set it otherwise, and keep their own", "sets it otherwise, and keeps its own", 1)
			}
		}
		text.WriteString(say.Wrapped(line, say.Prose()))
	}
	return text.String() + bursty(sc)
}

// WithoutYear says that the costs of a file are not those of a year, on lines of their own, for verbs that would
// say what a year costs; "" if they are, or there are none.
func WithoutYear(sc *scenarios.Scenario) string {
	if sc.Prices == nil || sc.Costs != nil {
		return ""
	}
	if sc.Prices.Volumes != nil {
		return say.Wrapped("The costs of the file have volumes of all its jobs: of one alone it is not said what a year costs.", say.Prose())
	}
	return say.Wrapped("The costs of the file have no volume: they are for season and plan, and it is not said what a year costs.", say.Prose())
}

// bursty says at which stations stops come in bursts, by the file; "" if at none.
func bursty(sc *scenarios.Scenario) string {
	names := sc.Bursty()
	if names == nil {
		return ""
	}
	return say.Wrapped("CAUTION: by the file, stops come in bursts at "+say.List(names)+"; they are simulated one by one, so shifts will differ more than is said here, and the worst be worse.", say.Prose())
}
