package runs

import (
	"context"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Gathered returns the studies of the lines of a line group as one study of all of them together.
//
// Its net rate and its losses are the sums of those of the lines, and so are the other
// figures of a shift: where two lines run for eight hours, sixteen are counted. The line of
// the study stands for all of them, with every station and their one crew: it can be looked
// at, and not be run. It has no incidents and no course of a shift.
//
// The studies must be of one line group, as [RunLineGroup] returns them.
func Gathered(name string, studies []*Study) *Study {
	first := studies[0]
	all := &Study{
		Line: &model.Line{Name: name, Shift: first.Line.Shift, Crew: first.Line.Crew, Restart: first.Line.Restart},
		Plan: first.Plan, Ending: first.Ending, Each: first.Each, Shifts: slices.Clone(first.Shifts), lines: studies,
	}
	all.Total.Time.Shift = first.Total.Time.Shift
	for n, s := range studies {
		all.Line.Stations = append(all.Line.Stations, s.Line.Stations...)
		for i := range s.Shifts {
			if n > 0 {
				all.Shifts[i].add(&s.Shifts[i])
			}
		}
		all.Total.Cycles += s.Total.Cycles
		all.Total.Sets.Add(s.Total.Sets)
		all.Total.Time.Running += s.Total.Time.Running
		for _, o := range s.Total.Stations {
			o.Name = s.Line.Name + ": " + o.Name
			all.Total.Stations = append(all.Total.Stations, o)
		}
	}
	return all
}

// Lines returns the studies of the lines that the study is of together; nil if it is of one.
func (s *Study) Lines() []*Study { return s.lines }

// lossesTogether returns the sums of the losses of several lines, step by step in the order
// of the line that has most of them.
func lossesTogether(lines []*Study) (rated float64, losses []Loss, net float64) {
	for _, s := range lines {
		from, steps, to := s.Losses()
		rated, losses, net = rated+from, lossesAdded(losses, steps), net+to
	}
	return rated, losses, net
}

func lossesAdded(a, b []Loss) []Loss {
	if len(b) > len(a) { // what both have stands in the same order
		a, b = b, a
	}
	for _, step := range b {
		if i := slices.IndexFunc(a, func(l Loss) bool { return l.Name == step.Name }); i >= 0 {
			a[i].PerHour += step.PerHour
		} else {
			a = append(a, step)
		}
	}
	return a
}

// RunLineGroup runs replications of the line group until the net rate of all lines together is known
// as precisely as the plan asks, or its limits are reached, or ctx is done. It returns a
// study of each line, in order; the lines of their studies have the crew of the line group.
func RunLineGroup(ctx context.Context, h *model.LineGroup, plan sim.Plan, watch func(replication int)) ([]*Study, error) {
	var watchAll func(int, [][]*Study)
	if watch != nil {
		watchAll = func(replication int, _ [][]*Study) { watch(replication) }
	}
	studies, err := RunLineGroups(ctx, []*model.LineGroup{h}, plan, watchAll)
	if err != nil {
		return nil, err
	}
	return studies[0], nil
}

// RunLineGroups runs the same replications of several line groups, so that a station of a line that
// two of them have has common random numbers in both, until the net rate of the first is known as
// RunLineGroup has it. It returns the studies of the lines of each line group. Watch, if there is one, is
// called with those so far, which go on to grow: see [Study.Kept].
func RunLineGroups(ctx context.Context, groups []*model.LineGroup, plan sim.Plan, watch func(replication int, soFar [][]*Study)) ([][]*Study, error) {
	studies := make([][]*Study, len(groups))
	for i, h := range groups {
		for _, l := range h.Lines {
			studies[i] = append(studies[i], &Study{Line: h.Attended(l)})
		}
	}
	if err := FurtherLineGroups(ctx, groups, studies, plan, watch); err != nil {
		return nil, err
	}
	return studies, nil
}

// FurtherLineGroups runs more replications of line groups that ran together before, and adds them to the
// studies of their lines, as [Further] does.
func FurtherLineGroups(ctx context.Context, groups []*model.LineGroup, studies [][]*Study, plan sim.Plan, watch func(replication int, soFar [][]*Study)) error {
	n := 0
	for _, lines := range studies {
		n += len(lines)
	}
	if err := within(n, plan); err != nil {
		return err
	}
	before := make([]float64, len(studies[0][0].Shifts))
	for i, lines := range studies {
		for _, s := range lines {
			s.Plan = plan
			for r := range before {
				if i == 0 {
					before[r] += s.Shifts[r].NetRate
				}
			}
		}
	}
	fold := func(replication int, outs *groupOutcomes) float64 {
		first := 0.0
		for i := range studies {
			for k, s := range studies[i] {
				rate := s.Fold(&(*outs)[i][k])
				if i == 0 {
					first += rate
				}
			}
		}
		if watch != nil {
			watch(replication, studies)
		}
		return first
	}
	worker := func() (func(int, *groupOutcomes) error, error) { return newLineGroups(groups, plan.Seed) }
	_, ending, err := sim.Resume(ctx, plan, before, worker, fold, false)
	if err != nil {
		return err
	}
	for _, lines := range studies {
		for _, s := range lines {
			s.Ending = ending
		}
	}
	return nil
}

// newLineGroups returns a worker that runs one replication of every line group.
func newLineGroups(groups []*model.LineGroup, seed uint64) (func(int, *groupOutcomes) error, error) {
	sims := make([]*model.LineGroupSim, len(groups))
	for i, h := range groups {
		s, err := model.NewLineGroup(h)
		if err != nil {
			return nil, err
		}
		sims[i] = s
	}
	return func(replication int, outs *groupOutcomes) error {
		if *outs == nil {
			*outs = make(groupOutcomes, len(groups))
			for i, h := range groups {
				(*outs)[i] = make([]model.Outcome, len(h.Lines))
			}
		}
		for i, s := range sims {
			if err := s.Run(seed, replication, (*outs)[i]); err != nil {
				return err
			}
		}
		return nil
	}, nil
}
