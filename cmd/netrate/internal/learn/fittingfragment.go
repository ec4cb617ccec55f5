package learn

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
	"netrate/sim/fit"
)

// entry is a value of a station as a scenario has it.
type entry struct {
	key, value, comment string
}

// rateKeys are the keys of a scenario for the faults of each kind, in the order of its faults;
// "" for what is no rate there.
var rateKeys = map[string][]string{
	"feeder": {"misfeed", "double", "jam"}, "envelope feeder": {"misfeed", "double", "jam"},
	"inserter": {"envelope_misfeed", "flap", "jam"}, "reader": {"no_read", ""},
}

// fragment returns the stations as a scenario has them, with what was learnt and how far that
// is uncertain.
func (x *fitting) fragment() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Estimated from %s and %s%s; intervals hold with %s.\n", present.PlainLine(x.Log.StopFile.Name), present.PlainLine(x.Log.CountFile.Name), x.Log.Words(), x.Sure())
	b.WriteString("# For the stations of a scenario: at, rated, hopper and the rest stay as they are there.\n" +
		"# {seen, of} are counts, {about, se} estimates with their standard errors: the scenario\n" +
		"# takes them as they stand, and knows how uncertain they are.\n" +
		"# Rates hold at the speeds of the log. Clearing times are how long the line stood: if that\n" +
		"# counts walk and restart, take these out of the scenario or they count twice.\n" +
		"stations:\n")
	for i := range x.Stations {
		s := &x.Stations[i]
		switch twin := stoplog.Twin(x.Log.Log, s.LogStation); {
		case s.As.Name != "":
			b.WriteString(x.station(s))
		case s.Feeds > 0 && twin != "":
			fmt.Fprintf(&b, "  # %s: no rates, %s\n", present.PlainLine(s.Name), likely(twin))
		case s.Feeds > 0:
			fmt.Fprintf(&b, "  # %s: no fault in %s feeds, at most 1/%s (%s)\n", present.PlainLine(s.Name), say.Thousands(s.Feeds), say.OneIn(s.Faults[0].Rate.AtMost), x.Sure())
		}
	}
	return b.String()
}

// station returns a station of the fragment.
func (x *fitting) station(s *study.FitStation) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - kind: %s\n    name: %s\n", s.As.Name, yamlText(s.Name))
	write := func(e entry) {
		fmt.Fprintf(&b, "    %s: %s", e.key, e.value)
		if e.comment != "" {
			b.WriteString("  # " + e.comment)
		}
		b.WriteString("\n")
	}
	rates, left := x.rateEntries(s)
	for _, e := range rates {
		write(e)
	}
	for _, why := range left {
		b.WriteString("    # left out: " + why + "\n")
	}
	b.WriteString(yamlGrowth(s))
	if s.InBursts() {
		b.WriteString("    # its stops come in bursts: these intervals are too narrow, and so are the uncertainties\n")
	}
	if s.Clearing.Chosen != nil {
		write(clearEntry(s))
	} else {
		fmt.Fprintf(&b, "    # no clear: %s\n", s.Clearing.None)
	}
	write(x.sourceEntry(s))
	return b.String()
}

// rateEntries returns the rates of a station that can be written, and why others are left out.
func (x *fitting) rateEntries(s *study.FitStation) (rates []entry, left []string) {
	if twin := stoplog.Twin(x.Log.Log, s.LogStation); s.Feeds > 0 && twin != "" {
		return nil, []string{"all rates (" + likely(twin) + ")"}
	}
	var unseen []string
	unknown := s.UnknownWords()
	for i, f := range s.Faults {
		switch key, r := rateKeys[s.As.Name][i], f.Rate; {
		case key == "": // a mismatch is no rate: it comes of misfeeds and doubles
		case r.Faults > 0:
			rates = append(rates, entry{
				key, fmt.Sprintf("{seen: %d, of: %d}", r.Faults, r.Feeds),
				fmt.Sprintf("1/%s; %s: 1/%s to 1/%s", say.OneIn(r.P), x.Sure(), say.OneIn(r.High), say.OneIn(r.Low)),
			})
		case len(unknown) > 0:
			unseen = append(unseen, key)
		default:
			rates = append(rates, entry{
				key, fmt.Sprintf("{seen: 0, of: %d}", r.Feeds),
				fmt.Sprintf("none seen: %s, at most 1/%s", x.Sure(), say.OneIn(r.AtMost)),
			})
		}
	}
	if len(unseen) > 0 {
		left = append(left, fmt.Sprintf("%s (none seen, but what %s was is not known)", say.List(unseen), present.PlainLine(say.List(present.Frequent(unknown, 2)))))
	}
	return rates, left
}

// likely says where the stops of a station without any are.
func likely(twin string) string {
	return fmt.Sprintf("its stops are likely those of %s in the log", present.PlainLine(strconv.Quote(twin)))
}

func clearEntry(s *study.FitStation) entry {
	value, comment := yamlDuration(s.Clearing.Chosen.Fitted)
	return entry{"clear", value, comment}
}

// sourceEntry says where the numbers of a station come from.
func (x *fitting) sourceEntry(s *study.FitStation) entry {
	file := filepath.Base(x.Log.StopFile.Name) + x.Log.Words()
	source := fmt.Sprintf("%s, %s", file, say.Plural(len(s.Clearing.Lengths), "stop"))
	var seen []string
	rates, _ := x.rateEntries(s)
	for i, f := range s.Faults {
		if slices.ContainsFunc(rates, func(e entry) bool { return e.key == rateKeys[s.As.Name][i] }) {
			seen = append(seen, say.Plural(f.Rate.Faults, f.Called))
		}
	}
	if len(seen) > 0 {
		source = fmt.Sprintf("%s in %s feeds, %s", say.List(seen), say.Thousands(s.Feeds), file)
	}
	return entry{"source", yamlText(source), ""}
}

// yamlGrowth returns how the faults of a station grow with the speed, where that is shown, as
// comments: it belongs to the rates at one speed, and these are those of all speeds together.
func yamlGrowth(s *study.FitStation) string {
	var b strings.Builder
	for _, f := range s.Faults {
		if g := f.Growth; f.Grows() {
			fmt.Fprintf(&b, "    # growth: %s  # of %s alone, not to be taken with these rates: they are not those at the rated speed\n",
				yamlEstimate(g.Exponent, g.SE, 2, ""), f.Called+"s")
		}
	}
	return b.String()
}

// shortest returns a number with so many decimals at most.
func shortest(x float64, decimals int) string {
	return strconv.FormatFloat(say.ToDecimals(x, decimals), 'f', -1, 64)
}

// yamlDuration returns the clearing time as a scenario has it, with its uncertainty, and what is to
// be said of it.
func yamlDuration(f fit.Fitted) (text, comment string) {
	x, meanOff, cvOff := float64(f.Mean()), float64(f.MeanSE()), f.CVSE()
	mean := yamlEstimate(x, meanOff, max(1, 3-say.Magnitude(x)), " s")
	if f.Kind == fit.Exponential {
		return fmt.Sprintf("{%s: {mean: %s}}", f.Kind, mean), ""
	}
	text = fmt.Sprintf("{%s: {mean: %s, cv: %s}}", f.Kind, mean, yamlEstimate(f.CV(), cvOff, 3, ""))
	if strings.Count(text, "{") < 4 {
		comment = fmt.Sprintf("standard errors %.2g s and %.2g, too large to be taken for the uncertainty of both", meanOff, cvOff)
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
	return fmt.Sprintf("{about: %s, se: %s%s}", about, shortest(se, max(0, 1-say.Magnitude(se))), unit)
}

// yamlText returns a text in quotes, in which YAML reads nothing else.
func yamlText(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
