package lines

import (
	"errors"
	"fmt"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// shared is what several lines with one crew came to, as it is told.
type shared struct {
	*study.GroupRunAnswer
	field *field // the lines as entrants
}

// runHall runs the lines of a scenario that share a crew and, in the same shifts, each of
// them with as many people to itself.
func (o *runFlags) runHall(e desk.Env, again string, sc *scenarios.Scenario, source []byte, plan sim.Plan) error {
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.GroupRun{Alternative: study.Alternative{Name: sc.Name, File: sc.File, Group: sc.Hall}, Plan: plan, Draws: int(*o.doubt)}
	a, early := desk.Asked(e, "shift", q.Ask, func(a *study.GroupRunAnswer) study.Settings { return a.Settings })
	if a == nil {
		return early
	}
	return errors.Join(early, o.tellHall(e, newShared(sc, source, again+o.doubt.again(), a)))
}

// newShared puts an answer to what was run.
func newShared(sc *scenarios.Scenario, source []byte, again string, a *study.GroupRunAnswer) *shared {
	s := &shared{a, &field{origins: []page.Origin{{Scenario: sc, Text: source}}, again: again}}
	for _, x := range a.Lines {
		s.field.entrants = append(s.field.entrants, entrant{name: x.Name, scenario: sc, line: x.Study.Line, study: x.Study})
	}
	return s
}

// tellHall writes the answer in the forms that are asked for.
func (o *runFlags) tellHall(e desk.Env, s *shared) error {
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(s.answer),
		Document: page.Document(func() any { return s.document() }),
		Data:     func(to io.Writer) error { return writeAllCSV(to, s.field) },
		Page:     page.Made(s.report),
	})
}

// finding says what sharing costs.
func (s *shared) finding() string {
	people := say.Plural(s.Operators, "operator")
	cost := s.Cost.Estimate()
	switch {
	case len(s.Study.Shifts) < 2:
		return "One shift alone does not say what sharing the crew costs."
	case !say.Differs(cost):
		return fmt.Sprintf("Sharing %s is not shown to cost anything, against lines that have as many to themselves.", people)
	}
	return fmt.Sprintf("Sharing %s costs %s good envelopes an hour, against lines that have as many to themselves.", people, say.Size(cost))
}
