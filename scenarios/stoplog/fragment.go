package stoplog

import (
	"fmt"
	"strings"

	"netrate/model/study"
)

// Fragment returns the stations as a scenario has them, with what was learnt and how far that
// is uncertain.
func Fragment(a *study.FitAnswer) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Estimated from %s and %s%s; intervals hold with %s.\n", OneLine(a.Log.StopFile.Name), OneLine(a.Log.CountFile.Name), Taken(a.Log), percent(a.Level))
	b.WriteString("# For the stations of a scenario: at, rated, hopper and the rest stay as they are there.\n" +
		"# {seen, of} are counts, {about, se} estimates with their standard errors: the scenario\n" +
		"# takes them as they stand, and knows how uncertain they are.\n" +
		"# Rates hold at the speeds of the log. Clearing times are how long the line stood: if that\n" +
		"# counts walk and restart, take these out of the scenario or they count twice.\n" +
		"stations:\n")
	for i := range a.Stations {
		s := &a.Stations[i]
		switch twin := Twin(a.Log, s.LogStation); {
		case s.As.Name != "":
			b.WriteString(stationText(a, s))
		case s.Feeds > 0 && twin != "":
			fmt.Fprintf(&b, "  # %s: no rates, %s\n", OneLine(s.Name), likely(twin))
		case s.Feeds > 0 && s.Nameless.Stops > 0:
			fmt.Fprintf(&b, "  # %s: no stop has a cause, %s in %s feeds: if all were one fault, 1/%s\n", OneLine(s.Name), plural(int64(s.Nameless.Stops), "stop"), thousands(s.Feeds), oneIn(s.Faults[0].Rate.P))
		case s.Feeds > 0:
			fmt.Fprintf(&b, "  # %s: no fault in %s feeds, at most 1/%s (%s)\n", OneLine(s.Name), thousands(s.Feeds), oneIn(s.Faults[0].Rate.AtMost), percent(a.Level))
		}
	}
	for _, e := range daysOf(a) {
		fmt.Fprintf(&b, "# %s: %s  # %s\n", e.Key, e.Value, e.Comment)
	}
	return b.String() + jobsText(a)
}

// stationText returns a station of the fragment.
func stationText(a *study.FitAnswer, s *study.FitStation) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - kind: %s\n    name: %s\n", s.As.Name, yamlText(s.Name))
	write := func(e Estimate) {
		fmt.Fprintf(&b, "    %s: %s", e.Key, e.Value)
		if e.Comment != "" {
			b.WriteString("  # " + e.Comment)
		}
		b.WriteString("\n")
	}
	rates, left := Rates(a, s)
	for _, e := range rates {
		write(e)
	}
	for _, why := range left {
		b.WriteString("    # left out: " + why + "\n")
	}
	if lots, shown := lotsOf(a, s); shown {
		write(lots)
	}
	b.WriteString(growthText(s))
	if s.InBursts() {
		b.WriteString("    # its stops come in bursts: the counts are those of as many independent stops as are as\n    # uncertain, and shifts will differ more than a forecast says\n")
	}
	if s.Clearing.Chosen != nil {
		write(clearingTime(s))
	} else {
		fmt.Fprintf(&b, "    # no clear: %s\n", s.Clearing.None)
	}
	of := source(a, s)
	of.Value = yamlText(of.Value)
	write(of)
	return b.String()
}

// growthText returns how the faults of a station grow with the speed, where that is shown, as
// comments: it belongs to the rates at one speed, and these are those of all speeds together.
func growthText(s *study.FitStation) string {
	var b strings.Builder
	for _, f := range s.Faults {
		if g := f.Growth; f.Grows() && s.As.Grows {
			fmt.Fprintf(&b, "    # growth: %s  # of %s alone, not to be taken with these rates: they are not those at the rated speed\n",
				yamlEstimate(g.Exponent, g.SE, 2, ""), f.Called+"s")
		}
	}
	return b.String()
}
