package stoplog

import (
	"fmt"
	"strings"
	"unicode"

	"netrate/model"
	"netrate/model/study"
)

// Cause is why a line stopped, in the words of the model.
type Cause = study.LogCause

// The causes. The first eight are the faults of the model.
const (
	Misfeed         = Cause(model.Misfeed)
	Double          = Cause(model.Double)
	Jam             = Cause(model.Jam)
	EnvelopeMisfeed = Cause(model.EnvelopeMisfeed)
	Flap            = Cause(model.Flap)
	InsertionJam    = Cause(model.InsertionJam)
	NoRead          = Cause(model.NoRead)
	Mismatch        = Cause(model.Mismatch)
	HopperEmpty     = study.LogHopperEmpty
	BinFull         = study.LogBinFull
	BeltFull        = study.LogBeltFull
	Breakdown       = study.LogBreakdown // what needs a technician
	Planned         = study.LogPlanned   // a break, a changeover, maintenance
	Other           = study.LogOther     // everything else
	causes          = study.LogCauses
)

// CauseOf returns the cause with the given name.
func CauseOf(name string) (Cause, error) {
	var names []string
	for c := range causes {
		if names = append(names, c.String()); plain(name) == plain(c.String()) {
			return c, nil
		}
	}
	return 0, fmt.Errorf("cause is %q: %s", name, meant(name, names))
}

// usualCauses are words for causes as people write them, besides the names: common practice,
// no source.
var usualCauses = map[Cause]string{
	Misfeed:         "misfeeds, miss, missed feed, no feed, nothing fed, missing insert, insert missing",
	Double:          "doubles, double feed, double fed, two fed, multifeed, double sheet",
	Jam:             "jams, jammed, feeder jam, feed jam, paper jam",
	EnvelopeMisfeed: "no envelope, missing envelope, envelope missing, envelope not fed",
	Flap:            "flap closed, flap shut, flap not open, flap not opened, unopened flap, closed flap",
	InsertionJam:    "inserter jam, jam at insertion, jam in inserter",
	NoRead:          "no reads, not read, unreadable, read failure, code not read",
	Mismatch:        "mismatches, wrong piece, out of step, out of sequence, sequence error, matching error",
	HopperEmpty:     "feeder empty, empty hopper, empty feeder, hopper ran out, out of inserts, out of envelopes, no material",
	BinFull:         "full bin, divert bin full, reject bin full, gate bin full",
	Breakdown: "breakdowns, broken down, machine down, technician, technician called, waiting for technician, mechanic, mechanic called, " +
		"repair, long repair, electrical fault, motor fault, drive fault",
	Planned: "planned stop, break, breaks, lunch, lunch break, tea break, pause, rest, changeover, job change, change of job, " +
		"set up, make ready, maintenance, cleaning, shift change, shift end, end of shift, start of shift, meeting, no work, no job, waiting for work",
	BeltFull: "full belt, delivery full, delivery belt full, conveyor full",
}

// Words is a name of ours, and the words for it that a file may have without being told.
type Words struct {
	Name  string
	Usual []string // may be empty
}

// CauseWords returns the causes with the usual words for them. Case, blanks and signs make no
// difference in a file.
func CauseWords() []Words {
	var list []Words
	for c := range causes {
		w := Words{Name: c.String()}
		if usual := usualCauses[c]; usual != "" {
			w.Usual = strings.Split(usual, ", ")
		}
		list = append(list, w)
	}
	return list
}

// causeWords returns what each word, made plain, means: the usual words, and before them
// the user's own. Two words of his that are the same when made plain must mean the same.
func causeWords(own map[string]Cause) (map[string]Cause, error) {
	words := map[string]Cause{}
	for c := range causes {
		words[plain(c.String())] = c
		for word := range strings.SplitSeq(usualCauses[c], ", ") {
			words[plain(word)] = c
		}
	}
	delete(words, "") // Other has no other words
	mine := map[string]Cause{}
	for _, word := range sortedKeys(own) {
		c, key := own[word], plain(word)
		if !(c >= 0 && c < causes) {
			return nil, fmt.Errorf("%q is to mean cause %d, which there is not", word, int(c))
		}
		if before, twice := mine[key]; twice && before != c {
			return nil, fmt.Errorf("%q is to mean both %s and %s", word, before, c)
		}
		mine[key], words[key] = c, c
	}
	return words, nil
}

// plain returns a word without what nobody remembers: case, blanks and signs.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}
