package seasons

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// Paper is how long the jobs of a plan and the changeovers between them take on paper: each in the mean,
// as if all the crew were at its line.
type Paper struct {
	time   [][]sim.Seconds    // of each line, for each job; +Inf where it cannot be
	change [][][]sim.Seconds  // of each line, from each job, and in one row more from the start, to each
	parts  [][][][]changePart // of those changeovers, what people do at one station each; nil where all may do all
	calls  [][][]paperCall    // of each line, at each job: what it calls the crew for

	// Of each line, for each job: work at the bench beside it, and how long after the line is free the last
	// of it is done if the bench has no other; nil without a bench.
	beside, tail [][]sim.Seconds
}

// paperRuns is how many times a job is simulated on each line for its mean time.
const paperRuns = 8

// Paper simulates each job of the plan by itself, on each line. What it finds depends on lines, crew,
// products, changeovers and jobs, not on who is there when: plans that differ in no more can share it.
// The error is that of ctx if it is done first.
func (p *Plan) Paper(ctx context.Context, seed uint64) (*Paper, error) {
	all := &Paper{}
	for i, line := range p.Lines {
		x := paperLine{plan: p, line: line.AttendedBy(p.Crew).AtMeans(), setups: make([]*setup.Setup, len(p.Products)), changes: map[[2]int]paperChange{}}
		times, err := x.times(ctx, i, seed)
		if err != nil {
			return nil, err
		}
		change, parts := x.between(i)
		all.time, all.change, all.parts, all.calls = append(all.time, times), append(all.change, change), append(all.parts, parts), append(all.calls, x.calls)
		if p.Closing.Closing == model.Beside {
			all.beside, all.tail = append(all.beside, x.beside), append(all.tail, x.tail)
		}
	}
	return all, nil
}

// paperLine is a line on paper.
type paperLine struct {
	plan    *Plan
	line    *model.Line
	setups  []*setup.Setup
	changes map[[2]int]paperChange

	beside, tail []sim.Seconds // of each job, at the bench
	calls        [][]paperCall // of each job
}

// times returns the mean time of each job on the line; +Inf where it cannot be.
func (x *paperLine) times(ctx context.Context, line int, seed uint64) ([]sim.Seconds, error) {
	times := make([]sim.Seconds, len(x.plan.Jobs))
	x.beside, x.tail = make([]sim.Seconds, len(x.plan.Jobs)), make([]sim.Seconds, len(x.plan.Jobs))
	x.calls = make([][]paperCall, len(x.plan.Jobs))
	sims := make([]*model.Sim, len(x.plan.Products))
	for j, job := range x.plan.Jobs {
		times[j] = sim.Seconds(math.Inf(1))
		if !job.may(line) || job.InHand >= 0 && job.InHand != line {
			continue
		}
		if sims[job.Product] == nil {
			made, reasons := (&Season{Line: x.line, Closing: x.plan.Closing, Begins: x.plan.Begins}).setUp(x.plan.Products[job.Product])
			if len(reasons) > 0 {
				if _, unfit := errors.AsType[*Unfit](reasons[0]); unfit {
					continue
				}
				return nil, errors.Join(reasons...)
			}
			s, err := model.New(made.Line)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", x.line.Name, err)
			}
			sims[job.Product], x.setups[job.Product] = s, made
		}
		sum, tail, made := sim.Seconds(0), sim.Seconds(0), int64(0)
		for r := range paperRuns {
			if ctx.Err() != nil {
				return nil, context.Cause(ctx)
			}
			var out model.Outcome
			if err := sims[job.Product].RunJob(seed, r, job.Sets, &out); err != nil {
				return nil, fmt.Errorf("%s: %s: %w", x.line.Name, job.Name, err)
			}
			sum += out.Job.Finish
			x.calls[j] = addCalls(x.calls[j], &out, paperRuns*out.Job.Finish)
			if x.plan.Closing.Closing == model.Beside {
				sum -= out.Job.Hand // the line is free
				tail, made = tail+out.Job.Hand, made+out.Job.ByHand
			}
		}
		times[j] = sum / paperRuns
		if made > 0 {
			x.beside[j], x.tail[j] = sim.Seconds(made)*sim.Seconds(3600/x.plan.Closing.PerHour)/paperRuns, tail/paperRuns
		}
	}
	return times, nil
}

// between returns the mean time of the changeover from each job, and from what the line is set up for
// at the start, to each, and its parts.
func (x *paperLine) between(line int) (times [][]sim.Seconds, parts [][][]changePart) {
	jobs := x.plan.Jobs
	times, parts = make([][]sim.Seconds, len(jobs)+1), make([][][]changePart, len(jobs)+1)
	start := -1
	for _, job := range jobs {
		if job.InHand == line {
			start = job.Product
		}
	}
	for i := range times {
		from := start
		if i < len(jobs) {
			from = jobs[i].Product
		}
		for k, job := range jobs {
			c := paperChange{}
			switch {
			case x.setups[job.Product] == nil || from >= 0 && x.setups[from] == nil: // it cannot be
			case i == len(jobs) && job.InHand == line: // it is under way
			case i == k:
			default:
				c = x.change(from, job.Product)
			}
			times[i], parts[i] = append(times[i], c.time), append(parts[i], c.parts)
		}
	}
	return times, parts
}

// paperChange is a changeover on paper.
type paperChange struct {
	time  sim.Seconds
	parts []changePart // nil where all may do all
}

// changePart is what people do in a changeover at one station.
type changePart struct {
	station string  // "" for the line as a whole
	share   float64 // of the time that all takes, in the mean
}

// change returns the changeover between products; from -1 for none.
func (x *paperLine) change(from, to int) paperChange {
	pair := [2]int{from, to}
	if c, known := x.changes[pair]; known {
		return c
	}
	c := paperChange{}
	if x.plan.Change != nil {
		var before *setup.Setup
		if from >= 0 {
			before = x.setups[from]
		}
		items := x.plan.Change.Items(before, x.setups[to])
		changers := x.plan.Crew.Changers(x.line.Name)
		if c.time = meanTotal(items, changers); x.plan.Crew.People != nil {
			c.parts = partsByStation(items, changers, c.time)
		}
	}
	x.changes[pair] = c
	return c
}

// partsByStation returns the parts of a changeover that takes so long with so many operators.
func partsByStation(items []setup.Item, operators int, all sim.Seconds) (parts []changePart) {
	for _, station := range slices.Compact(slices.Sorted(slices.Values(stationsOf(items)))) {
		own := slices.DeleteFunc(slices.Clone(items), func(i setup.Item) bool { return i.Automatic || i.Station != station })
		share := 0.0
		if all > 0 {
			share = min(1, float64(meanTotal(own, operators)/all))
		}
		parts = append(parts, changePart{station, share})
	}
	return parts
}
