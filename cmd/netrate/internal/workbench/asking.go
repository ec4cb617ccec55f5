package workbench

import (
	"cmp"
	"context"
	"maps"
	"runtime"
	"sync"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// How an answer sharpens: first from a few shifts; then, if nothing changes for a moment, up to what
// the file asks for, shown again and again on the way.
const (
	firstShifts = 16
	settling    = 150 * time.Millisecond
	showing     = 200 * time.Millisecond
)

// asker asks what the text asks, until the text is another one.
type asker struct {
	show func(rev int, regions map[string]string)

	turns
	telling sync.Mutex // so that nothing is shown of a text after something of the next

	last     *question               // whose answer is known, for a text that differs in costs alone
	compared *study.ComparisonAnswer // likewise
	pins     map[pin]pinned          // those that were read
	room     axis                    // of the figures of all answers

	known  sync.Mutex
	report page.Shown          // the last whole answer
	versus *present.Comparison // and comparison
}

// task is what is to be asked.
type task struct {
	rev    int
	text   string
	from   place
	job    string
	chosen []string // of what is optional in the plan
	pins   []pin
	made   bool // something was changed since the file was opened
}

// same returns the pin that is what the text asks; "" for none.
func (t task) same() string {
	for _, p := range t.pins {
		if p.Variant == "" && p.Text == t.text && p.Job == t.job {
			return p.Name
		}
	}
	return ""
}

// start ends what is being asked and asks anew. What is being written of the last answer comes to its
// end beside the first rough one to the new question; all that is kept between them is touched after it.
func (a *asker) start(t task) {
	a.next(a.forget, func(ctx context.Context, before <-chan struct{}) { a.answer(ctx, t, before) })
}

// answer asks a task from the first answer to the last; before is closed when what was asked before has
// ended, nil if nothing was.
func (a *asker) answer(ctx context.Context, t task, before <-chan struct{}) {
	q, err := a.begin(ctx, t, before)
	if before != nil {
		<-before
	}
	if err == nil && ctx.Err() == nil {
		a.sharpen(ctx, t, q)
	}
}

// begin shows the first answer to a task: a rough one, or the whole one at once where only costs differ
// from what was asked before, and that has ended. On an error that is shown instead.
func (a *asker) begin(ctx context.Context, t task, before <-chan struct{}) (*question, error) {
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	sc, err := scenarios.Load(t.from.Title, []byte(t.text))
	if err != nil {
		a.tell(ctx, t, problemRegions(err))
		return nil, err
	}
	q, err := newQuestion(sc, t.from, t.text, t.job)
	if err != nil {
		a.tell(ctx, t, withTrack(sc, t.job, unaskedRegions(err, t.rev)))
		return nil, err
	}
	q.room = &a.room
	if len(t.pins) > 0 { // beside which it has no name of its own
		q.name = nowName
	}
	fixed := fixed(q, firstShifts)
	var x *found
	if over(before) {
		x, err = a.onwards(ctx, q, fixed, 0, nil)
	} else {
		x, err = q.ask(ctx, fixed, 0, nil)
	}
	if err != nil || x == nil {
		a.tell(ctx, t, withTrack(sc, t.job, unaskedRegions(err, t.rev)))
		return nil, cmp.Or(err, ctx.Err())
	}
	x.rough = true
	a.tell(ctx, t, withTrack(sc, t.job, answerRegions(x, t.rev)))
	return q, nil
}

// over tells whether what was asked before has ended.
func over(before <-chan struct{}) bool {
	select {
	case <-before:
		return true
	default:
		return before == nil
	}
}

// sharpen asks a task from its first answer to the last, and sets it against the pins.
func (a *asker) sharpen(ctx context.Context, t task, q *question) {
	all, origins, wrong := a.alternatives(q, t.pins, t.same() != "")
	if wrong != nil {
		all = nil
	}
	a.gain(ctx, t, q, all)
	select {
	case <-ctx.Done():
		return
	case <-time.After(settling):
	}
	whole, err := a.onwards(ctx, q, q.plan(), study.UncertaintyDraws, a.nowAndThen(ctx, t))
	switch {
	case ctx.Err() != nil:
		return
	case err != nil:
		a.tell(ctx, t, unaskedRegions(err, t.rev))
		return
	}
	a.last = q
	a.know(ctx, whole, nil)
	a.tell(ctx, t, join(answerRegions(whole, t.rev), detailRegions(whole)))
	a.compare(ctx, t, q, all, origins, wrong)
}

// onwards asks a question with the shifts that the last one kept, if they are of the same line, or else
// with those of its own.
func (a *asker) onwards(ctx context.Context, q *question, plan sim.Plan, draws int, told func(func() *found)) (*found, error) {
	if a.last == nil || a.last.run == nil && a.last.group == nil {
		return q.ask(ctx, plan, draws, told)
	}
	run, group := q.run, q.group
	q.run, q.group = a.last.run, a.last.group
	x, err := q.ask(ctx, plan, draws, told)
	if err != nil { // what was kept is of another line
		q.run, q.group = run, group
		x, err = q.ask(ctx, plan, draws, told)
	}
	return x, err
}

// gain says roughly by how much what is there now differs from the base of the pins.
func (a *asker) gain(ctx context.Context, t task, q *question, all []study.Alternative) {
	html := ""
	if same := t.same(); same != "" {
		html = region("same", same)
	} else if len(t.pins) == 0 && t.made && len(q.sc.Variants) == 0 {
		html = region("offer", nil)
	} else if len(all) > 1 && len(t.pins) > 0 {
		quick := study.Comparison{Alternatives: []study.Alternative{all[0], all[len(all)-1]}, Plan: fixed(q, firstShifts)}
		c, err := quick.Ask(ctx, nil)
		if err != nil || c == nil { // the comparison of all says why
			return
		}
		html = gainRegion(c, say.Plural(firstShifts, present.ComparisonPeriod(c)))
	}
	a.tell(ctx, t, map[string]string{"gain": html})
}

// besideThePage returns how many replications are run at a time of what takes long: one processor is left to
// the page and to the first answer to what is changed next.
func besideThePage() int { return max(1, runtime.GOMAXPROCS(0)-1) }

// fixed returns the plan of a number of shifts.
func fixed(q *question, n int) sim.Plan {
	return sim.Plan{Seed: q.plan().Seed, Min: n, Max: n}
}

// nowAndThen returns a callback that shows an answer so far now and then.
func (a *asker) nowAndThen(ctx context.Context, t task) func(func() *found) {
	last := time.Now()
	return func(answer func() *found) {
		if time.Since(last) < showing || ctx.Err() != nil {
			return
		}
		x := answer()
		x.rough = true
		a.tell(ctx, t, answerRegions(x, t.rev))
		last = time.Now()
	}
}

// tell shows regions, unless the text is another one by now.
func (a *asker) tell(ctx context.Context, t task, regions map[string]string) {
	a.telling.Lock()
	defer a.telling.Unlock()
	if ctx.Err() == nil {
		a.show(t.rev, regions)
	}
}

// tellCompared shows a comparison, and of which text it is.
func (a *asker) tellCompared(ctx context.Context, t task, regions map[string]string) {
	regions["compared"] = region("compared", t.rev)
	a.tell(ctx, t, regions)
}

// compare sets the alternatives against each other, as netrate compare does.
func (a *asker) compare(ctx context.Context, t task, q *question, all []study.Alternative, origins []originOf, wrong error) {
	if len(all) < 2 || wrong != nil {
		a.compared = nil
		a.tellCompared(ctx, t, comparisonRegions(nil, t.pins, t.same(), wrong))
		return
	}
	plan := fixed(q, origins[0].Scenario.Run.Min)
	plan.Seed, plan.Workers = origins[0].Scenario.Run.Seed, besideThePage()
	x := study.Comparison{Alternatives: all, Plan: plan, Draws: study.UncertaintyDraws, Kept: a.compared}
	if x.Check() != nil { // what was kept is of other lines
		x.Kept = nil
	}
	last := time.Now()
	c, err := x.Ask(ctx, func(s study.Sofar[study.ComparisonAnswer]) {
		if time.Since(last) < 2*showing || ctx.Err() != nil || s.Done < firstShifts && !s.Draws {
			return
		}
		a.tellCompared(ctx, t, comparisonRegions(&present.Comparison{ComparisonAnswer: s.Answer(), Origins: origins, Command: "netrate compare"}, t.pins, t.same(), nil))
		last = time.Now()
	})
	if ctx.Err() != nil {
		return
	}
	if err != nil || c == nil {
		a.tellCompared(ctx, t, comparisonRegions(nil, t.pins, t.same(), err))
		return
	}
	a.compared = c
	whole := &present.Comparison{ComparisonAnswer: c, Origins: origins}
	whole.Command, _ = compareCommand(t)
	a.know(ctx, nil, whole)
	regions := comparisonRegions(whole, t.pins, t.same(), nil)
	if t.same() == "" {
		regions["gain"] = gainOf(c, t.pins)
	}
	a.tellCompared(ctx, t, regions)
}

// forget forgets the whole answers, which are of a text before.
func (a *asker) forget() {
	a.known.Lock()
	defer a.known.Unlock()
	a.report, a.versus = nil, nil
}

// know keeps a whole answer, or a whole comparison, unless the text is another one by now.
func (a *asker) know(ctx context.Context, x *found, c *present.Comparison) {
	a.known.Lock()
	defer a.known.Unlock()
	if ctx.Err() != nil {
		return
	}
	if x != nil {
		a.report = x.alone
	}
	if c != nil {
		a.versus = c
	}
}

// join returns all of several regions.
func join(some ...map[string]string) map[string]string {
	all := map[string]string{}
	for _, m := range some {
		maps.Copy(all, m)
	}
	return all
}
