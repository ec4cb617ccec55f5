package model

import "netrate/sim"

// ledgers rebuilds an outcome from the events alone, with what is in the line itself:
// capacities, and which station is what. Attempts are not told of.
type ledgers struct {
	line    *Line
	out     Outcome
	fates   map[int64]Fate   // of this pass, by the number of the set
	blames  map[int64][2]int // station and fault, likewise
	last    Fate             // of the set of which it hears what it holds
	starts  Event            // of the line, while it runs
	running bool
	called  map[int]Event // tasks that wait, since when
	taken   map[int]Event // tasks in hand
	helped  map[int]Event // of these, with help
	levels  []int64       // of each stock, as last told
}

func newLedgers(l *Line) *ledgers {
	g := &ledgers{line: l, levels: make([]int64, len(l.Stations))}
	for _, s := range l.Stations {
		g.out.Stations = append(g.out.Stations, StationOutcome{Name: s.Where().Name})
	}
	return g
}

// hear takes in one event.
func (g *ledgers) hear(e Event) {
	at := &g.out.Stations[e.Station]
	switch e.Kind {
	case PassBegins:
		g.begins()
	case LineStarts:
		g.starts, g.running = e, true
	case LineHalts:
		g.halts(e)
	case StopArises:
		at.Stops[e.Cause].Count++
	case Stood:
		stood(&at.Stops[e.Cause], e)
	case FaultOccurs:
		at.Faults[e.Fault]++
		switch {
		case e.Seen:
		case e.Fault == Double:
			at.Missed++
		case e.Fault == Misfeed:
			at.Unnoticed++
		}
	case FalselyCalled:
		at.FalseCalls++
	case SetLeaves:
		g.leaves(e)
	case SetHeld:
		*fateOf(&at.Pieces, g.last) += e.N - 1
	case PieceTaken:
		*fateOf(&at.Pieces, e.Fate)++
		g.out.Stations[e.Blamed].Remakes[e.Fault] += e.N
	case PiecesDiscarded:
		at.Pieces.Spoiled += e.N
	case StockLevel:
		if h := g.hopper(e.Station); h != nil && e.Cycle == 0 && e.At == 0 && !g.running {
			at.Pieces.Loaded += e.N - h.Capacity // it does not begin full
		}
		g.levels[e.Station] = e.N
	case StockFilled:
		if g.hopper(e.Station) != nil {
			at.Pieces.Loaded += e.N
		}
	case TaskCalled, TaskTaken, TaskHelped, TaskDone:
		g.task(e)
	case PassEnds:
		g.ends(e)
	case StoodForBreak:
		g.out.Time.Breaks += e.Until - e.At
	case StopEnds, SetCondemned, CrewIs, CycleTakes:
	}
}

func (g *ledgers) begins() {
	g.fates, g.blames = map[int64]Fate{}, map[int64][2]int{}
	g.called, g.taken, g.helped = map[int]Event{}, map[int]Event{}, map[int]Event{}
	g.out.Job.Passes++
	for i := range g.line.Stations {
		if h := g.hopper(i); h != nil {
			g.out.Stations[i].Pieces.Loaded += h.Capacity
		}
	}
}

// hopper returns the hopper of a station, or nil.
func (g *ledgers) hopper(i int) *Stock {
	if own := g.line.Stations[i].Stocked(); own.Pieces && own.Stock != nil && own.Capacity > 0 {
		return own.Stock
	}
	return nil
}

func (g *ledgers) halts(e Event) {
	g.out.Time.Running += e.At - g.starts.At
	g.running = false
}

func stood(t *StopTotal, e Event) {
	switch d := e.Until - e.At; e.Phase {
	case Waiting:
		t.Waiting += d
	case Working:
		t.Working += d
	case Restarting:
		t.Restarting += d
	case Starving:
		t.Starved += d
	}
}

func (g *ledgers) leaves(e Event) {
	g.fates[int64(e.Set)], g.last = e.Fate, e.Fate
	for i := range g.out.Stations {
		if e.Holds>>i&1 != 0 {
			*fateOf(&g.out.Stations[i].Pieces, e.Fate)++
		}
	}
	if e.Fate == OnLine {
		g.out.Sets.OnLine++
		return
	}
	g.blames[int64(e.Set)] = [2]int{e.Blamed, int(e.Fault)}
	blamed := &g.out.Stations[e.Blamed]
	blamed.Lost[e.Fault]++
	blamed.Remakes[e.Fault] += e.N
	switch e.Fate {
	case Defective:
		g.out.Sets.Defective++
		blamed.Defective[e.Fault]++
	case Diverted:
		g.out.Sets.Diverted++
		g.out.Stations[e.Station].Removed++
	case Outsorted:
		g.out.Sets.Outsorted++
		g.out.Stations[e.Station].Removed++
	case Spoiled:
		g.out.Sets.Spoiled++
	case OnLine, fine:
	}
}

func fateOf(p *Pieces, f Fate) *int64 {
	return [...]*int64{&p.Defective, &p.Diverted, &p.Outsorted, &p.Spoiled, &p.OnLine}[f]
}

func (g *ledgers) task(e Event) {
	switch account := g.account(e); e.Kind {
	case TaskCalled:
		g.called[e.Task] = e
		account.Calls++
	case TaskTaken:
		account.Waiting += e.At - g.called[e.Task].At
		delete(g.called, e.Task)
		g.taken[e.Task] = e
	case TaskHelped:
		g.helped[e.Task] = e
	case TaskDone:
		if h, is := g.helped[e.Task]; is {
			account.Walking += min(e.At, h.Arrives) - h.At
			account.Working += max(e.At-h.Arrives, 0)
			delete(g.helped, e.Task)
		}
		begun := g.taken[e.Task]
		begun.Until = e.At // help may have come
		account.Walking += begun.Arrives - begun.At
		account.Working += begun.Until - begun.Arrives
		account.Done++
		delete(g.taken, e.Task)
	default:
	}
}

func (g *ledgers) account(e Event) *sim.Account {
	switch e.Work {
	case FillStock:
		return &g.out.Stations[e.Station].Stock
	case Repair:
		return &g.out.Stations[e.Station].Repair
	case ClearFault, RealignLane, ChangeStock:
	}
	return &g.out.Stations[e.Station].Clearing
}

// ends closes the books of a pass.
func (g *ledgers) ends(e Event) {
	if g.running {
		g.halts(e)
	}
	o := &g.out
	o.Cycles += int64(e.Cycle)
	o.Time.Shift += e.At
	o.Sets.Started += e.N
	for _, t := range g.taken {
		account := g.account(t)
		account.Walking += min(e.At, t.Arrives) - t.At
		account.Working += max(e.At-t.Arrives, 0)
	}
	for _, h := range g.helped {
		account := g.account(h)
		account.Walking += min(e.At, h.Arrives) - h.At
		account.Working += max(e.At-h.Arrives, 0)
	}
	for _, t := range g.called {
		g.account(t).Waiting += e.At - t.At
	}
	for i := range o.Stations {
		if g.hopper(i) != nil {
			o.Stations[i].Pieces.Left += g.levels[i]
		}
	}
	g.run(e.N)
}

// run follows the sets of a pass in their order, and the runs of those delivered defective.
func (g *ledgers) run(started int64) {
	length := int64(0)
	for set := int64(1); set <= started; set++ {
		switch f, lost := g.fates[set]; {
		case !lost:
			g.out.Sets.Good++
			length = 0
		case f == Defective:
			if length++; length == 1 {
				b := g.blames[set]
				g.out.Stations[b[0]].Runs[b[1]]++
			}
			g.out.LongestRun = max(g.out.LongestRun, length)
		}
	}
}

// outcome returns what was rebuilt: what is left over is good.
func (g *ledgers) outcome() *Outcome {
	o := &g.out
	o.Stations[len(o.Stations)-1].Removed = o.Sets.Good + o.Sets.Defective
	for i := range o.Stations {
		p := &o.Stations[i].Pieces
		lost := p.Defective + p.Diverted + p.Outsorted + p.Spoiled + p.OnLine
		if p.Good = p.Loaded - lost - p.Left; g.line.is(i, Gathers) && g.hopper(i) == nil {
			p.Good, p.Loaded = o.Sets.Good, lost+o.Sets.Good
		}
	}
	return o
}
