package scenarios

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/model/worth"
)

// maxBytes is the size of the largest file that is read.
const maxBytes = 1 << 20

// Scenario is a line, or several, and how to simulate it.
type Scenario struct {
	Name     string
	Question string // may be empty
	Base     string // what the line without changes is called beside its variants: [BaseName] if the file does not say
	File     string // as given to Load
	Shop
	Run      Settings
	Digest   string // SHA-256 of the file's bytes, in hexadecimal
	Variants []Variant
	Design   *Design // nil if none is searched

	Variant string   // that the scenario is, by [Scenario.As]; "" if it is the file itself
	Job     string   // for which its lines were set up, by whoever did it; "" if they are as they stand
	Made    []Made   // the settings with which it differs from that, by [Scenario.Set]
	Chosen  []string // the choices of its design that it has, by [Scenario.Designed]; nil if it is as it stands

	Unmade map[string]string // the variants that cannot be made of it, by [Scenario.Designed], and why

	tree *node // of the file without its variants and its design
	list *node // of the variants; nil if there are none

	sources sources // of what was set; its variants have them too
}

// Shop is what a scenario describes: the machines, the people and the work.
type Shop struct {
	Target float64 // net rate that a shift is to reach, good envelopes an hour; 0 for none

	Line      *model.Line      // the first, if there are several
	LineGroup *model.LineGroup // all of them with the crew they share; nil if there is one line

	// NoWork is true if the file says no work, because it has jobs. The shift of the lines is
	// then a stand-in: they can be looked at, and a season can be run, but not the lines.
	NoWork bool

	Never      []model.Forbidden // responses that no station may have
	Products   []*setup.Product  // the jobs; nil if none are given
	Changeover *setup.Changeover // between jobs; nil if it is not given
	Calendar   *seasons.Calendar // nil if it is not given
	Season     *seasons.Season   // of one line; nil if it is not given
	SeasonPlan *Plan             // the season of several lines; nil if it is not given
	Plan       *Plan             // nil if it is not given
	Costs      *worth.Costs      // of a year; nil if they are not given, or have no volume
	Prices     *worth.Costs      // of the work of a season or a plan: the costs, with a volume or without; nil if they are not given
}

// Settings say how many replications to run.
type Settings struct {
	Seed      uint64
	Precision float64 // half-width of the interval of the net rate to reach, as a share of it
	Min, Max  int     // replications
}

// Load reads the bytes of a scenario file. The name is used in messages only. An error
// is of type [Problems]; without one the line passes its Check.
func Load(file string, data []byte) (*Scenario, error) {
	r := newReader(file, nil)
	if len(data) > maxBytes {
		r.noteAt(1, 1, "the file is too large, want at most 1 MiB (%d bytes)", maxBytes)
		return nil, r.problems
	}
	sum := sha256.Sum256(data)
	data = withoutMark(data)
	r = newReader(file, data)
	tree := r.parse(data)
	if tree == nil {
		return nil, r.found()
	}
	plain := len(r.problems) == 0
	base := without(without(tree, "variants"), "design")
	s := r.decode(base)
	if n := child(tree, "design"); n != nil && len(r.problems) == 0 && r.given(n, n, "design") {
		s.Design = r.design(n, s, base)
	}
	if list := child(tree, "variants"); list != nil && plain && r.given(list, list, "variants") {
		s.Variants = r.variants(list, base)
	}
	if len(r.problems) > 0 {
		return nil, r.found()
	}
	s.File, s.Digest, s.tree, s.list, s.sources = file, hex.EncodeToString(sum[:]), base, child(tree, "variants"), r.sources
	return s, nil
}

// withoutMark returns the data without the byte order mark that some editors put first.
func withoutMark(data []byte) []byte {
	const mark = "\xef\xbb\xbf"
	if len(data) >= len(mark) && string(data[:len(mark)]) == mark {
		return data[len(mark):]
	}
	return data
}

// Read reads a scenario file from an input, such as an open file; "-" is called
// standard input. It reads no more than the size limit. An error of reading is returned
// as it is, wrong contents as [Problems].
func Read(file string, from io.Reader) (*Scenario, error) {
	if file == "-" {
		file = "standard input"
	}
	data, err := io.ReadAll(io.LimitReader(from, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return Load(file, data)
}
