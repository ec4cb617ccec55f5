package study

import (
	"context"
	"errors"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/tape"
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
	Basis       Basis          `json:"rests_on"` // what all figures rest on, but what says that it is at nominal values
	Operators   Number         `json:"operators"`
	NetRate     NetRate        `json:"net_rate"`                             // of all lines together
	AtNominal   *NetRate       `json:"net_rate_at_nominal_values,omitempty"` // where draws lead
	CrewBusy    Mean           `json:"crew_busy_share"`
	Cost        Mean           `json:"sharing_costs_per_h"` // good envelopes of all lines together
	Lines       []GroupRunLine `json:"lines"`
	Uncertainty *Uncertainty   `json:"uncertainty,omitempty"` // nil if nothing is uncertain, or it was not drawn

	Of      Alternative            `json:"-"`
	Study   *runs.Study            `json:"-"` // of all lines together, that leads: of the draws, or else at nominal values
	Nominal *runs.Study            `json:"-"` // the replications at nominal values
	Draws   *runs.UncertaintyStudy `json:"-"`
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

	Study   *runs.Study `json:"-"` // that leads, as in [GroupRunAnswer]
	Nominal *runs.Study `json:"-"`
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
	if err := ofLines(q.Alternative); err != nil {
		return nil, err
	}
	groups, all := q.apart()
	if err := drawsFit(all, q.Draws); err != nil {
		return nil, err
	}
	studies, err := q.begun(groups)
	if err != nil {
		return nil, err
	}
	var works []runs.Work
	for _, g := range groups {
		works = append(works, runs.Work{Group: g})
	}
	var elsewhere tape.Elsewhere // draws do not depend on what is at nominal values
	if err := elsewhere.Keep(runs.FurtherWork(elsewhere.Next(ctx), works, studies, q.Plan, nil, q.watch(told))); err != nil {
		return nil, err
	}
	if elsewhere.Err() == nil && len(studies[0][0].Shifts) == 0 {
		return nil, nil
	}
	for i, t := range all {
		t.study = runs.Gathered(t.Name, studies[i])
	}
	var drawn func(int)
	if told != nil {
		drawn = func(draw int) {
			told(Sofar[GroupRunAnswer]{Done: draw + 1, Most: q.Draws, Draws: true, Answer: func() *GroupRunAnswer { return q.answer(keptGroups(studies), nil) }})
		}
	}
	if all[0].study.Ending != sim.Cancelled {
		if err := drawAll(elsewhere.Next(ctx), all, q.Plan, q.Draws, drawn); err != nil {
			return nil, err
		}
	}
	if elsewhere.Err() != nil {
		return nil, elsewhere.Err()
	}
	a := q.answer(studies, all)
	if all[0].study.Ending == sim.Cancelled {
		a.Nominal.Ending = sim.Cancelled
		a.Settings = SettingsOf(a.Nominal.Plan, len(a.Nominal.Shifts), a.Nominal.Ending).leadBy(a.Draws)
	}
	return a, nil
}

// apart returns the lines together, and then each by itself with the whole crew.
func (q GroupRun) apart() ([]*model.LineGroup, []*tried) {
	group := q.Alternative.Group
	groups, all := []*model.LineGroup{group}, []*tried{{Alternative: &q.Alternative}}
	for i, l := range group.Lines {
		alone := group.Alone(i)
		groups, all = append(groups, alone), append(all, &tried{Alternative: &Alternative{Name: l.Name, Group: alone}})
	}
	return groups, all
}

// watch returns what tells the answer so far after each replication; nil if nobody is told.
func (q GroupRun) watch(told func(Sofar[GroupRunAnswer])) func(int, [][]*runs.Study) {
	if told == nil {
		return nil
	}
	return func(replication int, soFar [][]*runs.Study) {
		told(Sofar[GroupRunAnswer]{
			Done: replication + 1, Most: q.Plan.Max, Lines: 2 * len(q.Alternative.Group.Lines), // together, and each by itself
			Answer:      func() *GroupRunAnswer { return q.answer(keptGroups(soFar), nil) },
			Replication: func() []*runs.Study { return only(replication, soFar[0]) },
		})
	}
}

// begun returns the studies that the replications are added to: what is kept, or studies of none.
func (q *GroupRun) begun(groups []*model.LineGroup) ([][]*runs.Study, error) {
	var studies [][]*runs.Study
	for i, g := range groups {
		t := &tried{Alternative: &Alternative{Name: q.Alternative.Name, Group: g}}
		if q.Kept != nil && i == 0 {
			if err := t.keep(q.Kept.Nominal, q.Plan.Seed); err != nil {
				return nil, err
			}
		} else if q.Kept != nil {
			t.before = []*runs.Study{q.Kept.Lines[i-1].Alone.Nominal}
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

// answer puts together what was simulated: the group, then each line by itself; and what was drawn
// of them, if anything was.
func (q *GroupRun) answer(nominal [][]*runs.Study, drawn []*tried) *GroupRunAnswer {
	studies, at := nominal, runs.Gathered(q.Alternative.Name, nominal[0])
	var draws *runs.UncertaintyStudy
	if len(drawn) > 0 && drawn[0].draws != nil {
		studies, draws = nil, drawn[0].draws
		for _, t := range drawn {
			studies = append(studies, t.draws.Lines())
		}
	}
	lines, all := studies[0], runs.Gathered(q.Alternative.Name, studies[0])
	a := &GroupRunAnswer{
		Settings:  SettingsOf(at.Plan, len(at.Shifts), at.Ending).leadBy(draws),
		Basis:     basisOf(OnNominal, &model.Line{UncertainInputs: q.Alternative.Group.UncertainInputs()}).drawn(draws),
		Operators: Number(q.Alternative.Group.Crew.Mean(lines[0].Line.Shift)), NetRate: NetRateOf(all), CrewBusy: MeanOf(CrewBusy(all)),
		Uncertainty: UncertaintyOf(draws), Of: q.Alternative, Study: all, Nominal: at, Draws: draws,
	}
	if draws != nil {
		a.AtNominal = new(NetRateOf(at))
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
		line := t.answer()
		line.Nominal = nominal[0][i]
		if c := q.Alternative.Costs; c != nil {
			line.Exposures[0].at(c.Volumes[s.Line.Name].Mean())
		}
		a.Lines = append(a.Lines, GroupRunLine{
			LineAnswer: line,
			Running:    MeanIn(s, func(s *runs.Shift) float64 { return s.Running }),
			Waiting:    MeanIn(s, func(s *runs.Shift) float64 { return s.Waiting }),
			Working:    MeanIn(s, func(s *runs.Shift) float64 { return s.Working }),
			Stops:      MeanIn(s, func(s *runs.Shift) float64 { return s.Stops }),
			Alone: GroupRunAlone{
				NetRateOf(alone), MeanIn(alone, func(s *runs.Shift) float64 { return s.Waiting }), MeanOf(alone.IntervalOf(cost, Level)), alone, nominal[i+1][0],
			},
		})
	}
	a.Cost = MeanOf(all.IntervalOf(less, Level))
	return a
}
