package workbench

import (
	"context"
	"errors"
	"strings"
	"sync"
	"time"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// planner asks when the jobs of the text's plan are done, until the text is another one: first on paper, then
// by simulation, sharper and sharper.
type planner struct {
	show func(rev int, regions map[string]string)

	turns
	known sync.Mutex
	anew  *study.PlansPlan // the plan that was found
	of    string           // the text, without its order, whose plan it is, with what is chosen: see keyOf
	whole *present.Plans   // the last whole answer

	length float64 // of the axis, hours of working time
	shown  bool    // there is something on the page
}

// start ends what is being asked and asks anew.
func (p *planner) start(t task) {
	p.next(func() { p.know(nil) }, func(ctx context.Context, before <-chan struct{}) {
		if before != nil {
			<-before
		}
		p.answer(ctx, t)
	})
}

// answer asks for the dates of a text's plan, from paper to the last replication.
func (p *planner) answer(ctx context.Context, t task) {
	if ctx.Err() != nil {
		return
	}
	sc, err := scenarios.Load(t.from.Title, []byte(t.text))
	switch {
	case err != nil && p.shown:
		p.show(t.rev, map[string]string{"planstate": region("planstate", planState{Stale: true, Says: "The text cannot be run. The plan below is of the text before."})})
		return
	case err != nil:
		return
	case sc.Plan == nil:
		p.shown = false
		p.show(t.rev, map[string]string{"planstate": "", "plan": "", "planned": "", "optional": "", "serviceask": ""})
		return
	}
	p.shown = true
	t.chosen = stillOptional(sc, t.chosen)
	p.show(t.rev, map[string]string{"optional": optionalOf(sc, t.chosen), "serviceask": serviceAskOf(sc)})
	base := study.PlansConfiguration{Name: scenarios.BaseName, Plan: sc.Plan.Plan, Costs: sc.Prices}
	both, err := base.With(t.chosen)
	q := &study.Plans{Configurations: both, Plan: sim.Plan{Seed: sc.Run.Seed, Min: desk.UsualReps, Max: desk.UsualReps}}
	if err := errors.Join(err, q.Check()); err != nil {
		p.show(t.rev, map[string]string{"planstate": region("planstate", planState{Stale: true, Given: sc.Plan.Order != nil, Says: plainly(err).Error()})})
		return
	}
	p.ask(ctx, t, sc, q)
}

// ask asks the question, which is right, and shows what comes of it.
func (p *planner) ask(ctx context.Context, t task, sc *scenarios.Scenario, q *study.Plans) {
	from, err := sc.Plan.Midnight()
	var args []string
	for _, name := range t.chosen {
		args = append(args, "--choose", name)
	}
	again, _ := command("plan", t.from, t.text, args...)
	says := present.Plans{Origin: page.Origin{Scenario: sc, Text: []byte(t.text)}, Plan: q.Plan, Starts: from, Command: again}
	tell := func(x present.Plans, state planState) {
		if ctx.Err() == nil {
			state.Given, state.Rev = sc.Plan.Order != nil, t.rev
			p.show(t.rev, p.regions(x, state))
		}
	}
	of := keyOf(withoutOrder(t, sc), t.chosen)
	if q.Anew = p.made(of); q.Anew == nil {
		p.show(t.rev, map[string]string{"planstate": region("planstate", planState{Rough: true, Rev: t.rev, Says: "The plan is being made…"})})
	} else if sc.Plan.Order != nil {
		says.PlansAnswer = &study.PlansAnswer{Plans: []study.PlansPlan{*q.Anew.OnPaper(sc.Plan.Order)}, Chosen: -1, Nearest: -1, Cheapest: -1}
		tell(says, planState{Rough: true, Says: "On paper; the probabilities are on their way"})
	}
	last := time.Now().Add(-showing)
	a, wrong := q.Ask(ctx, func(s study.Sofar[study.PlansAnswer]) {
		if time.Since(last) < showing || s.Done < firstShifts || s.Done >= q.Plan.Max || ctx.Err() != nil {
			return
		}
		says.PlansAnswer = s.Answer()
		tell(says, planState{Rough: true, Says: say.Plural(s.Done, "replication") + " so far: it gets sharper"})
		last = time.Now()
	})
	if err = errors.Join(err, wrong); err != nil || a == nil || len(a.Plans) == 0 || a.Settings.Partial {
		if err != nil && ctx.Err() == nil {
			p.show(t.rev, map[string]string{"planstate": region("planstate", planState{Stale: true, Says: err.Error()})})
		}
		return
	}
	p.keep(of, a.Anew())
	says.PlansAnswer = a
	p.know(&says)
	tell(says, planState{Says: say.Plural(a.Settings.Reps, "replication")})
}

// withoutOrder returns a text without the order of its plan.
func withoutOrder(t task, sc *scenarios.Scenario) string {
	if sc.Plan.Order == nil {
		return t.text
	}
	text, err := scenarios.EditedWithout(t.from.Title, []byte(t.text), "plan.order")
	if err != nil { // a plan is then found for this text alone
		return t.text
	}
	return string(text)
}

// made returns the plan that was found for a text; nil if none was.
func (p *planner) made(text string) *study.PlansPlan {
	p.known.Lock()
	defer p.known.Unlock()
	if p.of != text {
		return nil
	}
	return p.anew
}

func (p *planner) keep(text string, x *study.PlansPlan) {
	p.known.Lock()
	defer p.known.Unlock()
	p.of, p.anew = text, x
}

// keyOf returns by what the plan of a text is known, with what is chosen in it.
func keyOf(text string, chosen []string) string {
	return strings.Join(append([]string{text}, chosen...), "\x00")
}

// found returns the order that was found for a text, with what is chosen; nil if none is known.
func (p *planner) found(text string, chosen []string) []scenarios.LineOrder {
	sc, err := scenarios.Load("", []byte(text))
	if err != nil || sc.Plan == nil {
		return nil
	}
	x := p.made(keyOf(text, stillOptional(sc, chosen)))
	if x == nil {
		return nil
	}
	return named(&scenarios.Plan{Plan: x.Made.Plan}, x.Made.Order)
}

// know keeps a whole answer; nil for none.
func (p *planner) know(x *present.Plans) {
	p.known.Lock()
	defer p.known.Unlock()
	p.whole = x
}

// answered returns the last whole answer; nil for none.
func (p *planner) answered() page.Shown {
	p.known.Lock()
	defer p.known.Unlock()
	if p.whole == nil {
		return nil
	}
	return p.whole
}

// room returns how long the axis of a plan is, in hours of working time, to the end of the shift in which its
// last job is finished; dates may lie beyond. It stays as it
// is while the plan changes a little.
func (p *planner) room(x *study.PlansPlan) float64 {
	h := x.Made.Horizon
	last := sim.Seconds(1)
	for _, j := range x.Jobs() {
		for _, m := range []study.PlansMoment{j.Finished.P50, j.Finished.P90} {
			if !m.Never() {
				last = max(last, h.Worked(m.At))
			}
		}
	}
	windows, _ := h.Windows(h.At(last))
	if need := float64(h.Worked(windows[len(windows)-1].To)) / 3600; need > p.length || need < 0.7*p.length {
		p.length = need
	}
	return p.length
}
