package stoplog

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim/fit"
)

// Estimate is a value of a station that was learnt, as a scenario has it.
type Estimate struct {
	Key, Value string
	Comment    string // to stand behind it; may be empty
}

// Rates returns the rates of a station that can be written, and why others are left out.
func Rates(a *study.FitAnswer, s *study.FitStation) (rates []Estimate, left []string) {
	if twin := Twin(a.Log, s.LogStation); s.Feeds > 0 && twin != "" {
		return nil, []string{"all rates (" + likely(twin) + ")"}
	}
	var unseen []string
	unknown, sure := s.UnknownWords(), percent(a.Level)
	maps.DeleteFunc(unknown, func(word string, _ int64) bool { return study.LogStop{Cause: Other, Called: word}.Nameless() }) // shared out
	for i, f := range s.Faults {
		switch key, r := rateOf(s, i), f.Rate; {
		case key == "": // a mismatch is no rate: it comes of misfeeds and doubles
		case r.Faults > 0:
			comment := fmt.Sprintf("1/%s; %s: 1/%s to 1/%s", oneIn(r.P), sure, oneIn(r.High), oneIn(r.Low))
			switch {
			case f.ByDay:
				comment += fmt.Sprintf("; %d in %s, in lots, which tell no more than this", r.Faults, thousands(r.Feeds))
			case f.Varies > 0:
				comment += fmt.Sprintf("; %d in %s, in bursts, which tell no more than this", r.Faults, thousands(r.Feeds))
			}
			rates = append(rates, Estimate{key, countText(f.Counts()), comment})
		case len(unknown) > 0:
			unseen = append(unseen, key)
		default:
			rates = append(rates, Estimate{
				key, fmt.Sprintf("{seen: 0, of: %d}", r.Feeds),
				fmt.Sprintf("none seen: %s, at most 1/%s", sure, oneIn(r.AtMost)),
			})
		}
	}
	if len(unseen) > 0 {
		left = append(left, fmt.Sprintf("%s (none seen, but what %s was is not known)", model.Listed(unseen), OneLine(model.Listed(Frequent(unknown, 2)))))
	}
	return rates, left
}

// rateOf returns what a scenario calls the probability of fault i of a station; "" if that is no
// number there, or the kind of the station is not known.
func rateOf(s *study.FitStation, i int) string {
	if i >= len(s.As.Rates) {
		return ""
	}
	return s.As.Rates[i]
}

// likely says where the stops of a station without any are.
func likely(twin string) string {
	return fmt.Sprintf("its stops are likely those of %s in the log", OneLine(strconv.Quote(twin)))
}

// clearingTime returns the clearing time of a station that has one: by fault, if the faults are
// shown to differ. Others than those then have the time of the rest, or, of too few, that of all.
func clearingTime(s *study.FitStation) Estimate {
	if !s.ByFault.Shown() {
		value, comment := yamlDuration(s.Clearing.Chosen.Fitted)
		return Estimate{"clear", value, comment}
	}
	times := clearingTimes(s)
	if s.ByFault.Rest.Chosen == nil {
		value, _ := yamlDuration(s.Clearing.Chosen.Fitted)
		times = append(times, Estimate{"clear.others", value, ""})
	}
	var parts []string
	for _, e := range times {
		parts = append(parts, strings.TrimPrefix(e.Key, "clear.")+": "+e.Value)
	}
	return Estimate{"clear", "{" + strings.Join(parts, ", ") + "}", "the faults are shown to differ"}
}

// clearingTimes returns the clearing times of the faults that are shown to differ, and of all others
// if these were enough.
func clearingTimes(s *study.FitStation) (all []Estimate) {
	add := func(key string, c *fit.Candidate) {
		value, comment := yamlDuration(c.Fitted)
		all = append(all, Estimate{"clear." + key, value, comment})
	}
	for _, c := range s.ByFault.Times {
		add(c.Key, c.Chosen)
	}
	if rest := s.ByFault.Rest.Chosen; rest != nil {
		add("others", rest)
	}
	return all
}

// source says in plain text where the numbers of a station come from.
func source(a *study.FitAnswer, s *study.FitStation) Estimate {
	file := filepath.Base(a.Log.StopFile.Name) + Taken(a.Log)
	text := fmt.Sprintf("%s, %s", file, plural(int64(len(s.Clearing.Lengths)), "stop"))
	var seen []string
	rates, _ := Rates(a, s)
	for i, f := range s.Faults {
		if slices.ContainsFunc(rates, func(e Estimate) bool { return e.Key == rateOf(s, i) }) {
			seen = append(seen, plural(f.Rate.Faults, f.Called))
		}
	}
	if len(seen) > 0 {
		text = fmt.Sprintf("%s in %s feeds, %s", model.Listed(seen), thousands(s.Feeds), file)
	}
	if n := s.Nameless; n.Stops > 0 && s.Feeds > 0 {
		text += fmt.Sprintf("; %d of its %s have no cause, shared out in proportion", n.Stops, plural(int64(n.Of), "stop"))
	}
	if s.InBursts() {
		text += "; " + scenarios.InBursts + ", so that shifts differ more than a forecast says"
	}
	return Estimate{"source", text, ""}
}

// Taken returns which rows of a log are taken, such as " of spring letter at 12,000/h"; "" for all.
func Taken(l *study.Log) string {
	if l.Only == nil {
		return ""
	}
	text := ""
	if l.Only.Job != "" {
		text = " of " + OneLine(l.Only.Job)
	}
	if l.Only.Speed != 0 {
		text += " at " + perHour(float64(l.Only.Speed))
	}
	return text
}

// NoCause is what an empty cell is called where causes are listed. It is no word of a log.
const NoCause = "no cause at all"

// Frequent returns the words that are met most, up to a number, with their counts.
func Frequent(words map[string]int64, most int) (all []string) {
	sorted := make([]string, 0, len(words))
	for word := range words {
		sorted = append(sorted, word)
	}
	slices.SortFunc(sorted, func(a, b string) int {
		if words[a] != words[b] {
			return int(words[b] - words[a])
		}
		return strings.Compare(a, b)
	})
	for _, word := range sorted[:min(len(sorted), most)] {
		if word == "" {
			all = append(all, fmt.Sprintf("%s (%s)", NoCause, thousands(words[word])))
			continue
		}
		all = append(all, fmt.Sprintf("%q (%s)", word, thousands(words[word])))
	}
	return all
}

// yamlDuration returns the clearing time as a scenario has it, with its uncertainty, and what is to
// be said of it.
func yamlDuration(f fit.Fitted) (text, comment string) {
	x, meanOff, cvOff := float64(f.Mean()), float64(f.MeanSE()), f.CVSE()
	mean := yamlEstimate(x, meanOff, max(1, 3-magnitude(x)), " s")
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
// number with a limited number of decimals, the error with two digits or more. An error nearly as
// large as the number is left out.
func yamlEstimate(x, se float64, decimals int, unit string) string {
	about := shortest(x, decimals) + unit
	if !(se > 0 && se <= 0.9*x) {
		return about
	}
	return fmt.Sprintf("{about: %s, se: %s%s}", about, shortest(se, max(0, 1-magnitude(se))), unit)
}

// yamlText returns a text in quotes, in which YAML reads nothing else.
func yamlText(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
