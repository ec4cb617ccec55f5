package learn

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/sim/fit"
)

// entry is a value of a station as a scenario has it.
type entry struct {
	key, value, comment string
}

// fragment returns the stations as a scenario has them, with what was learnt and how far that
// is in doubt.
func (x *fitting) fragment() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Learnt from %s and %s%s; intervals hold with %s.\n", plainLine(desk.ShownFile(x.logFile)), plainLine(desk.ShownFile(x.countFile)), x.words(), x.sure())
	b.WriteString("# For the stations of a scenario: at, rated, hopper and the rest stay as they are there.\n" +
		"# {seen, of} are counts, {about, error} estimates with their standard errors: the scenario\n" +
		"# takes them as they are given, and knows how far they are in doubt.\n" +
		"# Rates hold at the speeds of the log. Clearing times are how long the line stood: if that\n" +
		"# counts walk and restart, take these out of the scenario or they count twice.\n" +
		"stations:\n")
	for _, l := range x.learnt {
		switch twin := x.twin(l.stationRecord); {
		case l.kind.name != "":
			b.WriteString(x.station(l))
		case l.feeds > 0 && twin != "":
			fmt.Fprintf(&b, "  # %s: no rates, %s\n", plainLine(l.name), likely(twin))
		case l.feeds > 0:
			fmt.Fprintf(&b, "  # %s: no fault in %s feeds, at most 1/%s (%s)\n", plainLine(l.name), say.Thousands(l.feeds), say.OneIn(l.faults[0].rate.AtMost), x.sure())
		}
	}
	return b.String()
}

// station returns a station of the fragment.
func (x *fitting) station(l *learnt) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - kind: %s\n    name: %s\n", l.kind.name, yamlText(l.name))
	write := func(e entry) {
		fmt.Fprintf(&b, "    %s: %s", e.key, e.value)
		if e.comment != "" {
			b.WriteString("  # " + e.comment)
		}
		b.WriteString("\n")
	}
	rates, left := x.rateEntries(l)
	for _, e := range rates {
		write(e)
	}
	for _, why := range left {
		b.WriteString("    # left out: " + why + "\n")
	}
	b.WriteString(yamlGrowth(l))
	if inBursts(l.bursts) {
		b.WriteString("    # its stops come in bursts: these intervals are too narrow, and so are the doubts\n")
	}
	if l.chosen != nil {
		write(clearEntry(l))
	} else {
		fmt.Fprintf(&b, "    # no clear: %s\n", l.noFit)
	}
	write(x.sourceEntry(l))
	return b.String()
}

// rateEntries returns the rates of a station that can be written, and why others are left out.
func (x *fitting) rateEntries(l *learnt) (rates []entry, left []string) {
	if twin := x.twin(l.stationRecord); l.feeds > 0 && twin != "" {
		return nil, []string{"all rates (" + likely(twin) + ")"}
	}
	var unseen []string
	for i, f := range l.faults {
		switch key, r := l.kind.keys[i], f.rate; {
		case key == "": // a mismatch is no rate: it comes of misfeeds and doubles
		case r.Faults > 0:
			rates = append(rates, entry{
				key, fmt.Sprintf("{seen: %d, of: %d}", r.Faults, r.Feeds),
				fmt.Sprintf("1/%s; %s: 1/%s to 1/%s", say.OneIn(r.P), x.sure(), say.OneIn(r.High), say.OneIn(r.Low)),
			})
		case len(l.unknownWords()) > 0:
			unseen = append(unseen, key)
		default:
			rates = append(rates, entry{
				key, fmt.Sprintf("{seen: 0, of: %d}", r.Feeds),
				fmt.Sprintf("none seen: %s, at most 1/%s", x.sure(), say.OneIn(r.AtMost)),
			})
		}
	}
	if len(unseen) > 0 {
		left = append(left, fmt.Sprintf("%s (none seen, but what %s was is not known)", say.List(unseen), plainLine(say.List(frequent(l.unknownWords(), 2)))))
	}
	return rates, left
}

// likely says where the stops of a station without any are.
func likely(twin string) string {
	return fmt.Sprintf("its stops are likely those of %s in the log", plainLine(strconv.Quote(twin)))
}

func clearEntry(l *learnt) entry {
	value, comment := yamlDuration(l.chosen.Fitted)
	return entry{"clear", value, comment}
}

// sourceEntry says where the numbers of a station come from.
func (x *fitting) sourceEntry(l *learnt) entry {
	file := filepath.Base(desk.ShownFile(x.logFile)) + x.words()
	source := fmt.Sprintf("%s, %s", file, say.Plural(len(l.lengths), "stop"))
	var seen []string
	rates, _ := x.rateEntries(l)
	for i, f := range l.faults {
		if slices.ContainsFunc(rates, func(e entry) bool { return e.key == l.kind.keys[i] }) {
			seen = append(seen, say.Plural(f.rate.Faults, f.called))
		}
	}
	if len(seen) > 0 {
		source = fmt.Sprintf("%s in %s feeds, %s", say.List(seen), say.Thousands(l.feeds), file)
	}
	return entry{"source", yamlText(source), ""}
}

// yamlGrowth returns how the faults of a station grow with the speed, where that is shown, as
// comments: it belongs to the rates at one speed, and these are those of all speeds together.
func yamlGrowth(l *learnt) string {
	var b strings.Builder
	for _, f := range l.faults {
		if g := f.growth; g != nil && g.Low > 0 {
			fmt.Fprintf(&b, "    # growth: %s  # of %s alone, not to be taken with these rates: they are not those at the rated speed\n",
				yamlEstimate(g.Exponent, g.SE, 2, ""), f.called+"s")
		}
	}
	return b.String()
}

// shortest returns a number with so many decimals at most.
func shortest(x float64, decimals int) string {
	return strconv.FormatFloat(say.ToDecimals(x, decimals), 'f', -1, 64)
}

// yamlDuration returns the clearing time as a scenario has it, with its doubt, and what is to
// be said of it.
func yamlDuration(f fit.Fitted) (text, comment string) {
	x, meanOff, cvOff := float64(f.Mean()), float64(f.MeanSE()), f.CVSE()
	mean := yamlEstimate(x, meanOff, max(1, 3-say.Magnitude(x)), " s")
	if f.Kind == fit.Exponential {
		return fmt.Sprintf("{%s: {mean: %s}}", f.Kind, mean), ""
	}
	text = fmt.Sprintf("{%s: {mean: %s, cv: %s}}", f.Kind, mean, yamlEstimate(f.CV(), cvOff, 3, ""))
	if strings.Count(text, "{") < 4 {
		comment = fmt.Sprintf("standard errors %.2g s and %.2g, too large to be taken for a doubt of both", meanOff, cvOff)
	}
	return text, comment
}

// yamlEstimate returns a number above 0 with its standard error, as a scenario has them: the
// number with so many decimals at most, the error with two digits or more. An error nearly as
// large as the number is left out.
func yamlEstimate(x, se float64, decimals int, unit string) string {
	about := shortest(x, decimals) + unit
	if !(se > 0 && se <= 0.9*x) {
		return about
	}
	return fmt.Sprintf("{about: %s, error: %s%s}", about, shortest(se, max(0, 1-say.Magnitude(se))), unit)
}

// yamlText returns a text in quotes, in which YAML reads nothing else.
func yamlText(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }

// plainLine returns a text that cannot end the comment it stands in.
func plainLine(text string) string { return strings.Join(strings.Fields(text), " ") }
