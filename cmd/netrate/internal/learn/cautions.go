package learn

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// Unknown causes are told at once from this share of all stops on (common practice, no
// source).
const manyUnknown = 0.01

// cautions returns what must be known before any figure is believed, in sentences.
func (r *records) cautions() []string {
	text := r.mistaken()
	stops, unknown, words := 0, int64(0), r.unknownWords()
	for _, s := range r.stations {
		stops += len(s.stops)
	}
	for _, n := range words {
		unknown += n
	}
	if float64(unknown) > manyUnknown*float64(stops) {
		text = append(text, fmt.Sprintf("%s of %s (%s) have causes that are not known, most often %s: --cause says what a word means.",
			say.Thousands(unknown), say.Plural(stops, "stop"), say.Percent(float64(unknown)/float64(stops), 0), say.List(frequent(words, 2))))
	}
	return text
}

// unknownWords returns the words of the log whose meaning is not known, with their stops.
func (r *records) unknownWords() map[string]int64 {
	words := map[string]int64{}
	for _, s := range r.stations {
		for word, n := range s.unknownWords() {
			words[word] += n
		}
	}
	return words
}

func (s *stationRecord) unknownWords() map[string]int64 {
	words := map[string]int64{}
	for _, stop := range s.stops {
		if stop.Cause == stoplog.Other {
			words[stop.Called]++
		}
	}
	return words
}

// frequent returns the words that are met most, so many at most, with their numbers.
func frequent(words map[string]int64, most int) (all []string) {
	sorted := sortedWords(words)
	for _, word := range sorted[:min(len(sorted), most)] {
		all = append(all, fmt.Sprintf("%q (%s)", word, say.Thousands(words[word])))
	}
	return all
}

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

// twin returns the station that was most likely meant, if only one of the files has a station;
// "" if none is near. That of stops without feeds has feeds; that of feeds without stops has
// stops, but no feeds.
func (r *records) twin(of *stationRecord) string {
	counted, stopped := of.feeds > 0, len(of.stops) > 0
	if counted == stopped {
		return ""
	}
	var names []string
	for _, s := range r.stations {
		meant := s.feeds > 0
		if counted {
			meant = len(s.stops) > 0 && s.feeds == 0
		}
		if meant && s.name != of.name && sameNumbers(s.name, of.name) {
			names = append(names, s.name)
		}
	}
	return scenarios.Nearest(of.name, names)
}

var numbers = regexp.MustCompile(`[1-9][0-9]*`)

// sameNumbers reports whether the numbers in two names are the same: feeder 1 is not feeder
// 2 misspelt.
func sameNumbers(a, b string) bool {
	return slices.Equal(numbers.FindAllString(a, -1), numbers.FindAllString(b, -1))
}

// mistaken says which stations the two files probably call by different names.
func (r *records) mistaken() (text []string) {
	for _, s := range r.stations {
		if len(s.stops) == 0 {
			continue
		}
		if twin := r.twin(s); twin != "" {
			text = append(text, fmt.Sprintf("%q has %s in %s and no feeds in %s: did you mean %q, which has %s feeds and %s?",
				s.name, say.Plural(len(s.stops), "stop"), desk.ShownFile(r.logFile), desk.ShownFile(r.countFile), twin, say.Thousands(r.feedsOf(twin)), say.Plural(len(r.stopsOf(twin)), "stop")))
		}
	}
	return text
}

// withCautions returns a finding behind what must be known before it.
func (r *records) withCautions(finding string) string {
	return strings.Join(append(r.cautions(), finding), " ")
}
