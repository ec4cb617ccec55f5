package study

import (
	"context"
	"errors"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// GroupRun asks what several lines with one crew deliver and what sharing the crew costs: each
// line is also run by itself with as many people, in the same replications.
type GroupRun struct {
	Alternative Alternative // a line group
	Plan        sim.Plan    // a precision in it is that of the net rate of all lines together
	Draws       int         // of what is uncertain; 0 for none, else [UncertaintyLeast] or more

	Kept *GroupRunAnswer // an earlier answer to the question, whose replications are kept; nil for none
}

// GroupRunAnswer is what a line group came to.
type GroupRunAnswer struct {
	Settings    Settings       `json:"settings"`
	Operators   int            `json:"operators"`
	NetRate     NetRate        `json:"net_rate"` // of all lines together
	CrewBusy    Mean           `json:"crew_busy_share"`
	Cost        Mean           `json:"sharing_costs_per_h"` // good envelopes of all lines together
	Lines       []GroupRunLine `json:"lines"`
	Uncertainty *Uncertainty   `json:"uncertainty,omitempty"` // nil if nothing is uncertain, or it was not drawn

	Of    Alternative            `json:"-"`
	Study *runs.Study            `json:"-"` // of all lines together
	Draws *runs.UncertaintyStudy `json:"-"`
}

// GroupRunLine is what one of the lines came to. The crew's share of its time is that for this
// line.
type GroupRunLine struct {
	LineAnswer
	Running Mean          `json:"running_s"` // of the shift
	Waiting Mean          `json:"waiting_s"`
	Working Mean          `json:"working_s"`
	Stops   Mean          `json:"stops"`
	Alone   GroupRunAlone `json:"alone"`
}

// GroupRunAlone is a line with as many people to itself.
type GroupRunAlone struct {
	NetRate NetRate `json:"net_rate"`
	Waiting Mean    `json:"waiting_s"`
	Cost    Mean    `json:"sharing_costs_per_h"` // good envelopes that the line delivers less with the shared crew

	Study *runs.Study `json:"-"`
}

// Ask runs the replications, and draws what is uncertain. After each replication and each draw it
// calls told, if there is one.
//
// When ctx is cancelled the answer is of what was done by then; it is nil if no replication was.
// The answer is the same bit for bit for any number of workers.
func (q GroupRun) Ask(ctx context.Context, told func(Sofar[GroupRunAnswer])) (*GroupRunAnswer, error) {
	group := q.Alternative.Group
	if group == nil {
		return nil, errors.New("a group run is of several lines with one crew; one line is a run")
	}
	if err := drawsFit([]*tried{{Alternative: &q.Alternative}}, q.Draws); err != nil {
		return nil, err
	}
	groups := []*model.LineGroup{group}
	for _, l := range group.Lines {
		groups = append(groups, &model.LineGroup{Lines: []*model.Line{l}, Crew: group.Crew})
	}
	studies, err := q.begun(groups)
	if err != nil {
		return nil, err
	}
	var watch func(int, [][]*runs.Study)
	if told != nil {
		watch = func(replication int, soFar [][]*runs.Study) {
			told(Sofar[GroupRunAnswer]{
				Done: replication + 1, Most: q.Plan.Max,
				Answer:      func() *GroupRunAnswer { return q.answer(keptGroups(soFar), nil) },
				Replication: func() []*runs.Study { return only(replication, soFar[0]) },
			})
		}
	}
	if err := runs.FurtherLineGroups(ctx, groups, studies, q.Plan, watch); err != nil || len(studies[0][0].Shifts) == 0 {
		return nil, err
	}
	all := []*tried{{Alternative: &q.Alternative, study: runs.Gathered(q.Alternative.Name, studies[0])}}
	var drawn func(int)
	if told != nil {
		drawn = func(draw int) {
			told(Sofar[GroupRunAnswer]{Done: draw + 1, Most: q.Draws, Draws: true, Answer: func() *GroupRunAnswer { return q.answer(keptGroups(studies), nil) }})
		}
	}
	if all[0].study.Ending != sim.Cancelled {
		if err := drawAll(ctx, all, q.Plan, q.Draws, drawn); err != nil {
			return nil, err
		}
	}
	a := q.answer(studies, all[0].draws)
	if all[0].study.Ending == sim.Cancelled {
		a.Study.Ending = sim.Cancelled
		a.Settings = SettingsOf(a.Study.Plan, len(a.Study.Shifts), a.Study.Ending)
	}
	return a, nil
}

// begun returns the studies that the replications are added to: what is kept, or studies of none.
func (q *GroupRun) begun(groups []*model.LineGroup) ([][]*runs.Study, error) {
	var studies [][]*runs.Study
	for i, g := range groups {
		t := &tried{Alternative: &Alternative{Name: q.Alternative.Name, Group: g}}
		if q.Kept != nil && i == 0 {
			if err := t.keep(q.Kept.Study, q.Plan.Seed); err != nil {
				return nil, err
			}
		} else if q.Kept != nil {
			t.before = []*runs.Study{q.Kept.Lines[i-1].Alone.Study}
		}
		studies = append(studies, t.begun())
	}
	return studies, nil
}

func keptGroups(groups [][]*runs.Study) [][]*runs.Study {
	var kept [][]*runs.Study
	for _, studies := range groups {
		kept = append(kept, keptStudies(studies))
	}
	return kept
}

// answer puts together what was simulated: the group, then each line by itself.
func (q *GroupRun) answer(studies [][]*runs.Study, draws *runs.UncertaintyStudy) *GroupRunAnswer {
	lines, all := studies[0], runs.Gathered(q.Alternative.Name, studies[0])
	a := &GroupRunAnswer{
		Settings:  SettingsOf(all.Plan, len(all.Shifts), all.Ending),
		Operators: q.Alternative.Group.Crew.Operators, NetRate: NetRateOf(all), CrewBusy: MeanOf(CrewBusy(all)),
		Uncertainty: UncertaintyOf(draws), Of: q.Alternative, Study: all, Draws: draws,
	}
	less := make(sim.Sample, len(all.Shifts))
	for i, s := range lines {
		alone := studies[i+1][0]
		own, shared := alone.NetRates(), s.NetRates()
		cost := make(sim.Sample, len(own))
		for r := range less {
			cost[r] = own[r] - shared[r]
			less[r] += cost[r]
		}
		t := &tried{Alternative: &Alternative{Name: s.Line.Name, File: q.Alternative.File, Line: s.Line}, study: s}
		a.Lines = append(a.Lines, GroupRunLine{
			LineAnswer: t.answer(),
			Running:    MeanIn(s, func(s *runs.Shift) float64 { return s.Running }),
			Waiting:    MeanIn(s, func(s *runs.Shift) float64 { return s.Waiting }),
			Working:    MeanIn(s, func(s *runs.Shift) float64 { return s.Working }),
			Stops:      MeanIn(s, func(s *runs.Shift) float64 { return s.Stops }),
			Alone: GroupRunAlone{
				NetRateOf(alone), MeanIn(alone, func(s *runs.Shift) float64 { return s.Waiting }), MeanOf(cost.Interval(Level)), alone,
			},
		})
	}
	a.Cost = MeanOf(less.Interval(Level))
	return a
}
