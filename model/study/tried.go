package study

import (
	"context"
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// tried is an alternative as it is run: what came of it, and of what it was run.
type tried struct {
	*Alternative
	mix   *runs.Mix              // its work by jobs, if the costs have a yearly volume of each; else nil
	study *runs.Study            // of a line group that of all its lines together
	draws *runs.UncertaintyStudy // nil if nothing is uncertain, or it was not drawn

	means  bool          // each uncertain input is taken at the mean of its prior
	before []*runs.Study // what is kept of an earlier answer, of each of its lines; else nil
}

// leading returns the study whose figures lead: that of the draws of what is uncertain, if there are
// such.
func (t *tried) leading() *runs.Study {
	if t.draws != nil {
		return t.draws.Study
	}
	return t.study
}

// lines returns the lines that were simulated: those of the alternative or, of several jobs, the
// line set up for each.
func (t *tried) lines() []*model.Line {
	lines := t.Lines()
	if t.mix != nil {
		lines = t.mix.Lines()
	}
	if t.means {
		return atMeans(lines)
	}
	return lines
}

// personalised reports whether any of these lines has personalised pieces.
func (t *tried) personalised() bool {
	return slices.ContainsFunc(t.lines(), (*model.Line).Personalised)
}

// standing is how far alternatives are that are being run.
type standing struct {
	kept func() []*tried      // copies of the alternatives as they stand
	last func() []*runs.Study // of each, its last replication
}

// work returns the alternative as it is run.
func (t *tried) work() runs.Work {
	w := workOf(t.Line, t.mix, t.Group)
	if t.means {
		return w.AtMeans()
	}
	return w
}

// runTogether runs all alternatives in the same replications and gives each its study. After each
// replication, in order, it calls watch, if there is one.
func runTogether(ctx context.Context, all []*tried, plan sim.Plan, selection *output.Selection, watch func(replication int, so standing)) error {
	var works []runs.Work
	var studies [][]*runs.Study
	for _, t := range all {
		works, studies = append(works, t.work()), append(studies, t.begun())
	}
	joined := func(lines func(own []*runs.Study) []*runs.Study, soFar [][]*runs.Study) (of []*runs.Study) {
		for i, own := range soFar {
			of = append(of, works[i].Joined(all[i].Name, lines(own)))
		}
		return of
	}
	var each func(int, [][]*runs.Study)
	if watch != nil {
		each = func(replication int, soFar [][]*runs.Study) {
			watch(replication, standing{
				func() []*tried { return inPlace(all, joined(keptStudies, soFar)) },
				func() []*runs.Study {
					return joined(func(own []*runs.Study) []*runs.Study { return only(replication, own) }, soFar)
				},
			})
		}
	}
	if err := runs.FurtherWork(ctx, works, studies, plan, selection, each); err != nil {
		return err
	}
	for i, own := range studies {
		all[i].study = works[i].Joined(all[i].Name, own)
	}
	return nil
}

// inPlace returns copies of the alternatives with a study for each.
func inPlace(all []*tried, studies []*runs.Study) []*tried {
	copies := make([]*tried, len(all))
	for i, t := range all {
		one := *t
		one.study = studies[i]
		copies[i] = &one
	}
	return copies
}

// kept returns copies of alternatives that were run, as those of an answer so far.
func kept(all []*tried) []*tried {
	var studies []*runs.Study
	for _, t := range all {
		studies = append(studies, t.study.Kept())
	}
	return inPlace(all, studies)
}

// only returns studies of one replication alone.
func only(replication int, studies []*runs.Study) (alone []*runs.Study) {
	for _, s := range studies {
		alone = append(alone, s.Only(replication))
	}
	return alone
}

func keptStudies(studies []*runs.Study) []*runs.Study {
	kept := make([]*runs.Study, len(studies))
	for i, s := range studies {
		kept[i] = s.Kept()
	}
	return kept
}

// drawAll draws what is uncertain of the alternatives, the same for all. It does nothing where
// nothing is uncertain or shall be drawn. When ctx is cancelled the alternatives have the draws
// until then, if these say anything.
func drawAll(ctx context.Context, all []*tried, plan sim.Plan, draws int, watch func(draw int)) error {
	if draws == 0 || !uncertain(all) {
		return nil
	}
	plan.Max = draws
	var studies []*runs.UncertaintyStudy
	var ending sim.Ending
	var err error
	switch {
	case all[0].Group != nil:
		studies, ending, err = runs.RunUncertainLineGroups(ctx, groupsOf(all), plan, UncertaintyEach, watch)
	case all[0].mix != nil:
		studies, ending, err = runs.RunUncertainMixed(ctx, mixesOf(all), plan, UncertaintyEach, watch)
	default:
		studies, ending, err = runs.RunUncertain(ctx, linesOf(all), plan, UncertaintyEach, watch)
	}
	if err != nil {
		return err
	}
	for i, s := range studies {
		if s.Draws() >= UncertaintyLeast {
			all[i].draws = s
		}
		if ending == sim.Cancelled {
			all[i].study.Ending = sim.Cancelled
		}
	}
	return nil
}

// drawsFit returns why as many draws of what is uncertain cannot be kept; nil if they can.
func drawsFit(all []*tried, draws int) error {
	if draws != 0 && draws < UncertaintyLeast {
		return fmt.Errorf("the uncertain inputs are drawn %d times, want 0 for none, or %d or more", draws, UncertaintyLeast)
	}
	if draws == 0 || !uncertain(all) {
		return nil
	}
	var lines []*model.Line
	for _, t := range all {
		if t.Group != nil {
			lines = append(lines, &model.Line{UncertainInputs: t.Group.UncertainInputs()})
			continue
		}
		lines = append(lines, t.lines()...)
	}
	return runs.DrawsFit(draws, UncertaintyEach, lines...)
}

// uncertain reports whether anything of the alternatives is.
func uncertain(all []*tried) bool {
	for _, t := range all {
		if t.Group != nil && len(t.Group.UncertainInputs()) > 0 || t.Line != nil && len(t.Line.UncertainInputs) > 0 {
			return true
		}
	}
	return false
}

func linesOf(all []*tried) (lines []*model.Line) {
	for _, t := range all {
		lines = append(lines, t.Line)
	}
	return lines
}

func groupsOf(all []*tried) (groups []*model.LineGroup) {
	for _, t := range all {
		groups = append(groups, t.Group)
	}
	return groups
}

func mixesOf(all []*tried) (mixes []*runs.Mix) {
	for _, t := range all {
		mixes = append(mixes, t.mix)
	}
	return mixes
}
