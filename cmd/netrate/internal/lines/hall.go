package lines

import (
	"context"
	"errors"
	"fmt"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// shared is what several lines with one crew came to.
type shared struct {
	hall  *model.Hall
	all   *model.Study      // all lines together
	lines []*model.Study    // each of them
	alone []*model.Study    // each with as many people to itself, in the same shifts
	doubt *model.DoubtStudy // of all lines together; nil if nothing is in doubt, or it was not drawn
	field *field            // the lines as entrants
}

// runHall runs the lines of a scenario that share a crew and, on the same luck, each of
// them with as many people to itself.
func (o *runFlags) runHall(e desk.Env, again string, sc *scenarios.Scenario, source []byte, plan sim.Plan) error {
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	halls := []*model.Hall{sc.Hall}
	for _, l := range sc.Hall.Lines {
		halls = append(halls, &model.Hall{Lines: []*model.Line{l}, Crew: sc.Hall.Crew})
	}
	var s *shared
	early := desk.Watched(e, plan.Max, "shift", func(ctx context.Context, watch func(int)) (int, sim.Ending, error) {
		studies, err := model.RunHalls(ctx, halls, plan, watch)
		if err != nil {
			return 0, 0, err
		}
		done := len(studies[0][0].Shifts)
		if done > 0 {
			s = newShared(sc, source, again+o.doubt.again(), studies)
		}
		return done, studies[0][0].Ending, nil
	})
	if s == nil {
		return early
	}
	if early == nil {
		early = o.drawDoubtOf(e, s, plan)
	}
	return errors.Join(early, o.tellHall(e, s))
}

// drawDoubtOf draws what is in doubt of all lines and their crew.
func (o *runFlags) drawDoubtOf(e desk.Env, s *shared, plan sim.Plan) error {
	all := &field{entrants: []entrant{{line: s.all.Line, hall: s.hall, study: s.all}}}
	err := all.drawDoubtOfAll(e, plan, *o.doubt)
	s.doubt = all.entrants[0].doubt
	return err
}

// newShared puts together what was simulated: the hall, then each line by itself.
func newShared(sc *scenarios.Scenario, source []byte, again string, studies [][]*model.Study) *shared {
	s := &shared{hall: sc.Hall, lines: studies[0], all: model.Gathered(sc.Name, studies[0])}
	s.field = &field{origins: []page.Origin{{Scenario: sc, Text: source}}, again: again}
	for i, study := range s.lines {
		s.alone = append(s.alone, studies[i+1][0])
		s.field.entrants = append(s.field.entrants, entrant{name: study.Line.Name, scenario: sc, line: study.Line, study: study})
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

// cost returns how much less a line delivers than with as many people to itself.
func (s *shared) cost(i int) sim.Estimate {
	own, shared := s.alone[i].NetRates(), s.lines[i].NetRates()
	less := make(sim.Sample, len(own))
	for r := range less {
		less[r] = own[r] - shared[r]
	}
	return less.Interval(say.Level)
}

// costOfAll returns how much less all lines deliver together.
func (s *shared) costOfAll() sim.Estimate {
	less := make(sim.Sample, len(s.all.Shifts))
	for i := range s.lines {
		own, shared := s.alone[i].NetRates(), s.lines[i].NetRates()
		for r := range less {
			less[r] += own[r] - shared[r]
		}
	}
	return less.Interval(say.Level)
}

// finding says what sharing costs.
func (s *shared) finding() string {
	people := say.Plural(s.hall.Crew.Operators, "operator")
	cost := s.costOfAll()
	switch {
	case cost.N < 2:
		return "One shift alone does not say what sharing the crew costs."
	case !say.Differs(cost):
		return fmt.Sprintf("Sharing %s is not shown to cost anything, against lines that have as many to themselves.", people)
	}
	return fmt.Sprintf("Sharing %s costs %s good envelopes an hour, against lines that have as many to themselves.", people, say.Size(cost))
}
