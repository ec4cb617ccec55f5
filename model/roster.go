package model

import (
	"math"
	"slices"

	"netrate/sim"
)

// roster is the people of a shift: how many operators are there, and their breaks. It moves them by
// one timer, for the next change; where the crew never changes there is none.
type roster struct {
	spec   *Crew
	begun  sim.Seconds // when the shift began, or what came before it: what its times count from
	stages []Presence
	pool   *sim.Pool
	shop   *sim.Alarms
	random *sim.Stream
	lines  []*Sim // that they attend to

	next   *sim.Alarm
	stage  int
	block  sim.Seconds    // when the block under way is over; +Inf for none
	part   [2]sim.Seconds // when one operator more comes and goes in it
	breaks int            // that have begun
	rest   bool           // the last of them is not over
}

// newRoster returns the people of some lines; nil where they are always as many.
func newRoster(spec *Crew, pool *sim.Pool, shop *sim.Alarms, lines ...*Sim) *roster {
	if !spec.Varies() {
		return nil
	}
	r := &roster{spec: spec, stages: spec.Stages(), pool: pool, shop: shop, lines: lines}
	r.random = lines[0].stream("crew", "presence")
	r.next = shop.Timer(r.change)
	if slices.ContainsFunc(spec.Breaks, func(b Break) bool { return b.Stands }) { // of fewer timers the next is found faster
		for _, s := range lines {
			s.standstill.pause = s.clocks.Track.Timer(s.standstill.stands)
		}
	}
	return r
}

// begin puts those who are there at the start of the shift into the pool, which has been reset.
func (r *roster) begin() {
	r.begun = r.shop.Now()
	r.stage, r.breaks, r.rest = 0, 0, false
	r.cut()
	r.settle()
}

// handsOver has people be there as at the start of a shift: a break under way is over.
func (r *roster) handsOver() {
	if r.rest && r.spec.Breaks[r.breaks-1].Stands {
		for _, s := range r.lines {
			s.standstill.breakTurns(false)
		}
	}
	r.begin()
	r.pool.Dispatch()
}

// cut begins a block, and draws when one operator more is there in it.
func (r *roster) cut() {
	now, share := r.shop.Now(), sim.Seconds(r.stages[r.stage].Part)
	r.block, r.part = endless, [2]sim.Seconds{endless, endless}
	if share == 0 {
		return
	}
	r.block = min(now+r.spec.Block, r.stageEnds())
	length := r.block - now
	comes := now + sim.Seconds(sim.Seconds(r.random.Uniform())*length*(1-share))
	r.part = [2]sim.Seconds{comes, comes + sim.Seconds(length*share)}
}

var endless = sim.Seconds(math.Inf(1))

// stageEnds returns when the next stage begins.
func (r *roster) stageEnds() sim.Seconds {
	if r.stage+1 < len(r.stages) {
		return r.begun + r.stages[r.stage+1].After
	}
	return endless
}

// breakTurns returns when the break under way is over or, if there is none, the next begins.
func (r *roster) breakTurns() sim.Seconds {
	switch {
	case r.rest:
		return r.begun + r.spec.Breaks[r.breaks-1].End()
	case r.breaks < len(r.spec.Breaks):
		return r.begun + r.spec.Breaks[r.breaks].After
	}
	return endless
}

// change does what is due now.
func (r *roster) change() {
	now := r.shop.Now()
	if now >= r.stageEnds() {
		r.stage++
		r.cut()
	} else if now >= r.block {
		r.cut()
	}
	for now >= r.breakTurns() { // one may begin when the last is over
		if r.rest = !r.rest; r.rest {
			r.breaks++
		}
		if r.spec.Breaks[r.breaks-1].Stands {
			for _, s := range r.lines {
				s.standstill.breakTurns(r.rest)
			}
		}
	}
	r.settle()
	r.pool.Dispatch()
}

// settle has as many operators be there as there should be now, and waits for the next change.
func (r *roster) settle() {
	now, there := r.shop.Now(), r.stages[r.stage].Operators
	if r.part[0] <= now && now < r.part[1] {
		there++
	}
	if r.rest {
		there = min(there, r.spec.Breaks[r.breaks-1].Remain)
	}
	r.pool.Resize(there)
	for _, s := range r.lines {
		s.observeNumber(CrewIs, 0, int64(there))
	}
	next := min(r.stageEnds(), r.block, r.breakTurns())
	for _, at := range r.part {
		if at > now {
			next = min(next, at)
		}
	}
	if r.next.Stop(); next < endless {
		r.next.Set(next)
	}
}

// breakTurns has the line stand for a break, or no longer, from now on.
func (st *standstill) breakTurns(begins bool) {
	switch {
	case begins && st.s.clocks.Running():
		st.pause.Set(st.s.clocks.Cycle() + 1)
	case begins:
		st.book()
		if st.starving != nil { // it waited for a document
			st.s.observeStop(StopEnds, st.starving.station, st.starving.cause)
			st.starving = nil
			for _, h := range st.s.channels {
				h.full.Stop()
			}
			st.first = &st.pausing
		} else if len(st.open) == 0 { // it was about to restart
			st.restart.Stop()
			st.first = &st.pausing
		}
		st.resting = true
	case st.resting:
		st.book()
		st.resting = false
		if len(st.open) == 0 {
			st.restarts()
		}
	default: // it ended before the cycle in which it began
		st.pause.Stop()
	}
}

// stands stops the line at the end of the cycle in which a break began.
func (st *standstill) stands() {
	if st.s.clocks.Running() { // else something has stopped it in this cycle
		st.s.clocks.Halt()
		st.s.observe(LineHalts, 0)
		st.since = st.s.clocks.Shop.Now()
	}
	st.first, st.resting = &st.pausing, true
}
