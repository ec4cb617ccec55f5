package study

import (
	"slices"

	"netrate/model"
	"netrate/model/setup"
	"netrate/model/worth"
)

// Alternative is what a question is about: one of the lines that are set against each other, or
// the only line. It may also be several lines with one crew, a line group.
type Alternative struct {
	Name    string
	Called  string   // in a sentence; “Name” if it is empty
	Note    string   // what it is about; may be empty
	Changes []string // from the first alternative, in words; may be empty
	File    string   // where it was read; may be empty

	Line     *model.Line      // nil if the alternative is a line group
	Group    *model.LineGroup // nil if the alternative is one line
	Costs    *worth.Costs     // nil if none are known
	Products []*setup.Product // the jobs that may be run; may be empty
	Target   float64          // net rate that a replication is to reach, good envelopes an hour; 0 for none
	Setups   []*setup.Setup   // for which its lines are set up, by [Alternative.SetUp]; nil if they are as they stand
}

// Lines returns the lines of the alternative: the one, or those of the group.
func (a *Alternative) Lines() []*model.Line {
	if a.Group != nil {
		return a.Group.Lines
	}
	return []*model.Line{a.Line}
}

// Job reports whether one replication of the alternative is a job that ends when it is
// finished, and not a shift.
func (a *Alternative) Job() bool { return a.Lines()[0].Job.Sets > 0 }

// Personalised reports whether any of its lines has personalised pieces.
func (a *Alternative) Personalised() bool {
	return slices.ContainsFunc(a.Lines(), (*model.Line).Personalised)
}

// InWords returns what the alternative is called in a sentence.
func (a *Alternative) InWords() string {
	if a.Called != "" {
		return a.Called
	}
	return "“" + a.Name + "”"
}
