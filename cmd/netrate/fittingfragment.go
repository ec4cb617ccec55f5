package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// fragment returns the stations as a scenario has them, with what was learnt.
func (x *fitting) fragment() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Learnt from %s and %s; intervals hold with %s.\n", plainLine(shownFile(x.logFile)), plainLine(shownFile(x.countFile)), x.sure())
	b.WriteString("# For the stations of a scenario: at, rated, hopper and the rest stay as they are there.\n" +
		"# Rates hold at the speeds of the log. Clearing times are how long the line stood: if that\n" +
		"# counts walk and restart, take these out of the scenario or they count twice.\n" +
		"stations:\n")
	for _, l := range x.learnt {
		switch {
		case l.kind.name != "":
			b.WriteString(x.station(l))
		case l.feeds > 0:
			fmt.Fprintf(&b, "  # %s: no fault in %s feeds, at most 1/%s (%s)\n", plainLine(l.name), thousands(l.feeds), oneIn(l.faults[0].rate.AtMost), x.sure())
		}
	}
	return b.String()
}

// station returns a station of the fragment.
func (x *fitting) station(l *learnt) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - kind: %s\n    name: %s\n", l.kind.name, yamlText(l.name))
	var seen []string
	for i, f := range l.faults {
		key := l.kind.keys[i]
		if key == "" { // a mismatch is no rate: it comes of misfeeds and doubles
			continue
		}
		about := fmt.Sprintf("%s: 1/%s to 1/%s", x.sure(), oneIn(f.rate.High), oneIn(f.rate.Low))
		if f.rate.Faults == 0 {
			about = fmt.Sprintf("none seen: %s, at most 1/%s", x.sure(), oneIn(f.rate.AtMost))
		}
		fmt.Fprintf(&b, "    %s: %s  # %s\n", key, yamlRate(f.rate.P), about)
		seen = append(seen, plural(f.rate.Faults, f.called))
	}
	if inBursts(l.bursts) {
		b.WriteString("    # its stops come in bursts: these intervals are too narrow\n")
	}
	if l.chosen != nil {
		b.WriteString("    clear: " + yamlDuration(l) + fmt.Sprintf("  # standard errors %.2g s and %.2g\n", meanError(l.chosen.Fitted), cvError(l.chosen.Fitted)))
	} else {
		fmt.Fprintf(&b, "    # no clear: %s\n", l.noFit)
	}
	file := filepath.Base(shownFile(x.logFile))
	source := fmt.Sprintf("%s, %s", file, plural(len(l.lengths), "stop"))
	if l.feeds > 0 {
		source = fmt.Sprintf("%s in %s feeds, %s", list(seen), thousands(l.feeds), file)
	}
	fmt.Fprintf(&b, "    source: %s\n", yamlText(source))
	return b.String()
}

// yamlRate returns a probability as a scenario has it, rounded to four digits or more.
func yamlRate(p float64) string {
	switch {
	case p == 0:
		return "0"
	case p < 0.01:
		n := 1 / p
		return "1/" + shortest(n, max(0, 3-magnitude(n)))
	}
	return strconv.FormatFloat(p, 'g', 4, 64)
}

// shortest returns a number with so many decimals at most.
func shortest(x float64, decimals int) string {
	return strconv.FormatFloat(rounding(x, decimals), 'f', -1, 64)
}

// yamlDuration returns the clearing time as a scenario has it.
func yamlDuration(l *learnt) string {
	x := float64(l.chosen.Mean())
	mean := shortest(x, max(1, 3-magnitude(x)))
	if cv := l.chosen.CV(); cvError(l.chosen.Fitted) > 0 {
		return fmt.Sprintf("{%s: {mean: %s s, cv: %s}}", l.chosen.Kind, mean, shortest(cv, 3))
	}
	return fmt.Sprintf("{%s: {mean: %s s}}", l.chosen.Kind, mean)
}

// yamlText returns a text in quotes, in which YAML reads nothing else.
func yamlText(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }

// plainLine returns a text that cannot end the comment it stands in.
func plainLine(text string) string { return strings.Join(strings.Fields(text), " ") }

func sortedWords(counts map[string]int64) []string {
	words := make([]string, 0, len(counts))
	for word := range counts {
		words = append(words, word)
	}
	slices.SortFunc(words, func(a, b string) int {
		if counts[a] != counts[b] {
			return int(counts[b] - counts[a])
		}
		return strings.Compare(a, b)
	})
	return words
}
