package study

import (
	"slices"

	"netrate/sim"
	"netrate/sim/output"
)

// SweepShape is how the net rate follows the values of a sweep.
type SweepShape int

// The shapes.
const (
	SweepUnknown SweepShape = iota // one replication alone does not say how far its figures may be off
	SweepFlat                      // no point is shown to be worse than another
	SweepEnough                    // of counts: the first that is not shown to be worse than the best is enough
	SweepLeads                     // the best point is all that can be named
	SweepToEdge                    // it is highest at an end of the range
	SweepPeaked                    // it is highest between two values
	SweepRising                    // of counts: only the last is enough, and more may be better still
)

// MarshalText returns the word for a shape.
func (s SweepShape) MarshalText() ([]byte, error) {
	return []byte([...]string{"unknown", "flat", "enough", "leads", "to_edge", "peaked", "rising"}[s]), nil
}

// SweepEdge is how the net rate goes to an end of the range.
type SweepEdge struct {
	From         int         `json:"from"`           // the first point of the way
	To           int         `json:"to"`             // the last, which is the best
	Rises        bool        `json:"rises"`          // with rising values; else it falls
	AllTheWay    bool        `json:"all_the_way"`    // each step is shown to go that way
	Gain         *Difference `json:"gain"`           // of To over From
	NothingAbove bool        `json:"nothing_above"`  // at all higher values the line does the very same
	Beyond       bool        `json:"may_lie_beyond"` // the best may lie beyond the range
}

// course fills in how the net rate follows the values of the only parameter.
func (a *SweepAnswer) course(q *Sweep, rates []sim.Sample) {
	var steps [][2]int
	for i := 1; i < len(rates); i++ {
		steps = append(steps, [2]int{i - 1, i})
		if !slices.Equal(rates[i], rates[i-1]) {
			a.Last = i
		}
	}
	for i, c := range output.Pairwise(rates, steps, Level) {
		a.Points[i+1].Change = DifferenceOf(c)
	}
	if !a.curved() {
		return
	}
	var places []float64
	for i := range a.Last + 1 {
		places = append(places, q.reached(i))
	}
	p := output.FindPeak(places, rates[:a.Last+1], Level, q.Plan.Seed)
	a.Peak = &SweepPeak{At: Number(p.At), Low: Number(p.Low), High: Number(p.High), Level: Level, Edge: p.Edge}
	a.Peak.Beyond = a.Peak.Low <= q.Vary[0].Values[0].Number || float64(a.Peak.High) >= q.reached(a.Last) && !q.atCap(a.Last)
	if p.Edge {
		a.Edge = a.edge(q, rates)
	}
}

// curved reports whether the net rate has a highest place that can be looked for.
func (a *SweepAnswer) curved() bool {
	inside := a.Best > 0 && a.Best < a.Last
	switch v := &a.Vary[0]; {
	case v.Words(), v.Counts(), a.Last < 2, a.flat():
		return false
	case inside && (a.Points[0].NotShownWorse || a.Points[a.Last].NotShownWorse):
		return false // it may as well rise or fall all the way
	}
	return true
}

// flat reports whether no point is shown to be worse than another.
func (a *SweepAnswer) flat() bool { return len(a.Rivals()) == len(a.Points)-1 }

func (a *SweepAnswer) shape() SweepShape {
	switch {
	case a.Settings.Reps < 2:
		return SweepUnknown
	case a.flat():
		return SweepFlat
	case len(a.Vary) == 1 && a.Vary[0].Counts():
		if int(a.Enough) == len(a.Points)-1 {
			return SweepRising
		}
		return SweepEnough
	case a.Peak == nil:
		return SweepLeads
	case a.Peak.Edge:
		return SweepToEdge
	}
	return SweepPeaked
}

// edge returns how the net rate goes to the end at which it is highest.
func (a *SweepAnswer) edge(q *Sweep, rates []sim.Sample) *SweepEdge {
	e := &SweepEdge{From: 0, To: a.Last, Rises: true, Beyond: true}
	if a.Best == 0 {
		e.From, e.To, e.Rises = a.Last, 0, false
	}
	e.Gain = DifferenceOf(output.Paired(rates[e.From], rates[e.To], Level))
	e.AllTheWay = a.monotone(e.Rises)
	if e.Rises {
		e.NothingAbove = a.Last < len(a.Points)-1
		e.Beyond = !e.NothingAbove && !q.atCap(a.Last)
	}
	return e
}

// monotone reports whether every step up to the last is shown to go up, or down.
func (a *SweepAnswer) monotone(up bool) bool {
	for _, p := range a.Points[1 : a.Last+1] {
		if !p.Change.Shown() || p.Change.Mean > 0 != up {
			return false
		}
	}
	return true
}
