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
	studies, err := TogetherWork(ctx, []Work{{Group: h}}, plan, nil, watchAll)
	if err != nil {
		return nil, err
	}
	return studies[0], nil
}
