package workbench

import (
	"context"
	"errors"
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// question is what the text at hand asks: a line, several with one crew, or a line at all its jobs.
type question struct {
	sc      *scenarios.Scenario
	of      study.Alternative
	origin  page.Origin
	command string // that does it again, without the seed and the number of shifts

	room  *axis            // of the figures
	name  string           // what the line is called in them; "" for the name that the file gives
	run   *study.RunAnswer // the answers so far, whose shifts are kept
	group *study.GroupRunAnswer
}

// found is an answer, in part or in whole.
type found struct {
	shown page.Shown // as the page has it
	alone page.Shown // as a report of its own has it
	rate  study.NetRate
	reps  int
	word  string // what one replication is: shift or job
	drawn bool   // what is uncertain was drawn
	rough bool   // more is to come
}

// newQuestion returns the question of a scenario, or why it cannot be asked.
func newQuestion(sc *scenarios.Scenario, from place, text, job string) (*question, error) {
	a, err := alternativeOf(sc, sc.Name, job)
	if err != nil {
		return nil, err
	}
	as := *sc
	as.Costs, as.LineGroup, as.Job = a.Costs, a.Group, desk.JobOf(a.Setups)
	if as.Line = a.Line; a.Group != nil {
		as.Line = a.Group.Lines[0]
	}
	q := &question{sc: &as, of: a, origin: page.Origin{Scenario: &as, Text: []byte(text)}}
	q.command, _ = command("run", from, text, jobArgs(job)...)
	return q, nil
}

// alternativeOf returns what a scenario describes, set up for a job; "" for the only one.
func alternativeOf(sc *scenarios.Scenario, name, job string) (study.Alternative, error) {
	a := page.AlternativeOf(sc, name)
	a.Called = ""
	var jobs []string
	if job != "" {
		jobs = []string{job}
	}
	if sc.NoWork && jobs == nil && (len(sc.Products) != 1 || sc.Season != nil) {
		return a, errNoWork
	}
	a, err := a.SetUp(sc.NoWork, jobs...)
	if errors.Is(err, setup.ErrWhich) {
		err = errNoWork
	}
	return a, err
}

// errNoWork says that the file leaves open what is run.
var errNoWork = errors.New("the file has several jobs: choose for which of them the line is set up, above")

// mixed reports whether the work is that of all jobs, by their yearly volumes.
func (q *question) mixed() bool {
	return q.of.Costs != nil && len(q.of.Costs.Volumes) > 0 && q.of.Group == nil
}

// plan returns how much the file asks for.
func (q *question) plan() sim.Plan {
	r := q.sc.Run
	return sim.Plan{Seed: r.Seed, Min: r.Min, Max: r.Max, Precision: r.Precision}
}

// ask asks for some shifts; told may have answers on the way. The answer is nil if ctx ended first.
func (q *question) ask(ctx context.Context, plan sim.Plan, draws int, told func(func() *found)) (*found, error) {
	switch {
	case q.of.Group != nil:
		x := study.GroupRun{Alternative: q.of, Plan: plan, Draws: draws, Kept: q.group}
		a, err := x.Ask(ctx, hearing(told, q.ofGroup))
		if a == nil || ctx.Err() != nil {
			return nil, err
		}
		q.group = a
		return q.ofGroup(a), err
	case q.mixed():
		plan.Min, plan.Precision = min(plan.Max, plan.First()), 0
		plan.Max = plan.Min
		x := study.MixRun{Alternative: q.of, Plan: plan, Draws: draws}
		a, err := x.Ask(ctx, hearing(told, q.ofMix))
		if a == nil || ctx.Err() != nil {
			return nil, err
		}
		return q.ofMix(a), err
	}
	x := study.Run{Alternative: q.of, Plan: plan, Draws: draws, Kept: q.run, Scenes: draws > 0}
	a, err := x.Ask(ctx, hearing(told, q.ofRun))
	if a == nil || ctx.Err() != nil {
		return nil, err
	}
	q.run = a
	return q.ofRun(a), err
}

// hearing returns a callback for a question of whose answers another one hears.
func hearing[A any](told func(func() *found), of func(*A) *found) func(study.Sofar[A]) {
	if told == nil {
		return nil
	}
	return func(s study.Sofar[A]) { told(func() *found { return of(s.Answer()) }) }
}

func (q *question) ofRun(a *study.RunAnswer) *found {
	x := present.Run{RunAnswer: a, Origin: q.origin, Command: q.command, Slips: study.Slips(&page.AlternativesOf(q.sc)[0], true, q.sc.StatesPolicy())}
	alone := x
	if q.room != nil {
		x.Room = q.room.of(a.Study.NetRates())
	}
	if q.name != "" {
		sc := *q.sc
		sc.Name, x.Origin.Scenario = q.name, &sc
	}
	return &found{shown: x, alone: alone, rate: a.NetRate, reps: a.Settings.Reps, word: page.Period(a.Line), drawn: a.Uncertainty != nil}
}

func (q *question) ofGroup(a *study.GroupRunAnswer) *found {
	x := present.Group{GroupRunAnswer: a, Origin: q.origin, Command: q.command, Slips: study.Slips(&page.AlternativesOf(q.sc)[0], true, q.sc.StatesPolicy())}
	return &found{shown: x, alone: x, rate: a.NetRate, reps: a.Settings.Reps, word: "shift", drawn: a.Uncertainty != nil}
}

func (q *question) ofMix(a *study.MixRunAnswer) *found {
	x := present.Mix{MixRunAnswer: a, Origin: q.origin, Command: q.command}
	return &found{shown: x, alone: x, rate: a.Line.NetRate, reps: a.Settings.Reps, word: "shift", drawn: a.Uncertainty != nil}
}

// alternatives returns what is set against each other: the pins and what is there now or, without pins,
// the variants of the file; and their origins. There may be fewer than two.
func (a *asker) alternatives(now *question, pins []pin, same bool) ([]study.Alternative, []page.Origin, error) {
	if len(pins) == 0 {
		if len(now.sc.Variants) == 0 {
			return nil, nil, nil
		}
		all := page.AlternativesOf(now.sc)
		var errs []error
		for i := range all[1:] {
			a, err := all[i+1].SetUp(now.sc.NoWork, jobsOf(now.sc.Job)...)
			all[i+1], errs = a, append(errs, err)
		}
		base := all[0]
		all[0] = now.of
		all[0].Name, all[0].Called = base.Name, base.Called
		return all, []page.Origin{now.origin}, errors.Join(errs...)
	}
	var all []study.Alternative
	var origins []page.Origin
	known := map[pin]pinned{}
	for _, p := range pins {
		x, read := a.pins[p]
		if !read {
			var err error
			if x.of, x.from, err = p.alternative(); err != nil {
				return nil, nil, fmt.Errorf("%s: %w", p.Name, err)
			}
		}
		known[p] = x
		all, origins = append(all, x.of), append(origins, x.from)
	}
	a.pins = known
	if same { // what is there now is one of them
		return all, origins, nil
	}
	last := now.of
	last.Name = nowName
	return append(all, last), append(origins, now.origin), nil
}

// pinned is a pin that was read.
type pinned struct {
	of   study.Alternative
	from page.Origin
}

func jobsOf(job string) []string {
	if job == "" {
		return nil
	}
	return []string{job}
}

// nowName is what the text at hand is called among the alternatives.
const nowName = "now"

// alternative returns what a pin describes, and where it is from.
func (p pin) alternative() (study.Alternative, page.Origin, error) {
	sc, err := scenarios.Load(p.Name, []byte(p.Text))
	if err == nil && p.Variant != "" {
		sc, err = sc.As(p.Variant)
	}
	if err != nil {
		return study.Alternative{}, page.Origin{}, plainly(err)
	}
	a, err := alternativeOf(sc, p.Name, p.Job)
	return a, page.Origin{Scenario: sc, Text: []byte(p.Text)}, err
}
