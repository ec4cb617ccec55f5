package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// PaperGap is by how much the simulation of a shift differs from the sum on paper, in good envelopes
// an hour, and what that is made of. Every part is measured, but for the last, which is what is left:
// the parts add up to the whole.
type PaperGap struct {
	Whole Mean        `json:"per_h"` // simulated less on paper
	Parts []PaperPart `json:"parts"`
}

// PaperPart is a part of the difference between simulation and paper, in good envelopes an hour.
type PaperPart struct {
	Name string `json:"name"`
	Mean
}

// The parts.
const (
	PaperUsedUp    = "stocks used up"
	PaperOverlap   = "stops that overlap, less waiting for a busy operator"
	PaperEnds      = "start and end of the shift"
	PaperBreaks    = "breaks for which the line stands"
	PaperSlow      = "slow cycles that the sum on paper leaves out"
	PaperDocuments = "document channel, against its share on paper"
	PaperRest      = "not measured apart, chance among it"
)

// PaperGapOf returns why a line delivers more or less than on paper; nil of a job, of several lines
// or jobs together, and of fewer than two shifts.
//
// In a shift of T seconds the line runs for R and stands for S. On paper it stands for P seconds for
// each that it runs, and g of its cycles, v an hour, bring a good set. So the net rate on paper is
// n = v·g / (1 + P), and as T = R + S,
//
//	(good/T − n)·T = (good − g·v·R) − n·(S − P·R)
//
// where both brackets are sums of what is measured in the shift. For a fault on paper stands what
// an operator needs, and a restart. In the simulation he needs the same, but what other stops hide
// of it, or he was waited for besides; what was left of it when the shift ended; and what no station
// could ask of him before the first set had come to it.
func PaperGapOf(s *runs.Study) *PaperGap {
	if len(s.Shifts) < 2 || s.Line.Job.Sets > 0 || s.Each > 0 {
		return nil
	}
	p := newPaperSum(s)
	gap := &PaperGap{Whole: MeanIn(s, func(x *runs.Shift) float64 { return x.NetRate - p.NetRate })}
	amounts := make(sim.Sample, len(s.Shifts))
	for k, name := range paperParts {
		if name == PaperDocuments && !HasChannel(s.Line) || name == PaperBreaks && !s.Line.Crew.StandsForBreaks() || name == PaperSlow && !s.Line.Slow.Given() {
			continue
		}
		for i := range s.Shifts {
			amounts[i] = p.perHour(p.partsOf(&s.Shifts[i])[k])
		}
		gap.Parts = append(gap.Parts, PaperPart{name, MeanOf(s.IntervalOf(amounts, Level))})
	}
	return gap
}

// paperParts are the parts, in the order in which they are told.
var paperParts = [...]string{PaperUsedUp, PaperOverlap, PaperEnds, PaperBreaks, PaperSlow, PaperDocuments, PaperRest}

// paperSum is the sum on paper, and what turns seconds and sets of a shift into envelopes an hour.
type paperSum struct {
	model.Analytic
	line    *model.Line
	starts  float64   // seconds of slow cycles after starts, for each cycle
	stopped []float64 // seconds for each cycle, by the stations that handle its set
	second  float64   // envelopes an hour that a second of standing in a shift costs
	set     float64   // and that a good set of a shift brings
}

func newPaperSum(s *runs.Study) *paperSum {
	p := &paperSum{Analytic: s.Line.Analytic(), line: s.Line}
	for i, t := range p.Terms {
		stopped := float64(float64(t.Reach*t.Stops) * float64(t.Down))
		stopped += float64(t.Broken)
		p.starts += float64(float64(t.Reach*t.Stops) * float64(s.Line.Starts()))
		if p.gathers(i) {
			stopped += float64(t.Starved)
		}
		p.stopped = append(p.stopped, stopped)
	}
	length := float64(s.Line.Shift)
	p.set, p.second = 3600/length, p.NetRate/length
	return p
}

// gathers reports whether a station is a document channel.
func (p *paperSum) gathers(i int) bool { return p.line.Stations[i].Kind().Role == model.Gathers }

// paperAmount is a part of one shift: seconds more than on paper, and good sets more.
type paperAmount struct{ seconds, sets float64 }

// perHour returns what a part comes to.
func (p *paperSum) perHour(x paperAmount) float64 {
	return float64(p.set*x.sets) - float64(p.second*x.seconds)
}

// partsOf returns the parts of one shift, all together its seconds stopped and its good sets less
// those on paper for the cycles of its running time.
func (p *paperSum) partsOf(s *runs.Shift) [len(paperParts)]paperAmount {
	cycles := (s.Running - s.Slow) * p.Speed / 3600
	starts := float64(p.starts * cycles)
	before, paper, documents := 0.0, 0.0, s.Documents // before the first set has come to the station
	first := p.line.Stations[0].Where().At
	for i, station := range p.line.Stations {
		empty := min(cycles, float64(station.Where().At-first))
		if p.gathers(i) {
			documents -= float64(p.stopped[i] * cycles)
			continue
		}
		before += float64(p.stopped[i] * empty)
		paper += float64(p.stopped[i] * (cycles - empty))
	}
	faults := s.Waiting + s.Working + s.Restarting + s.Starved - s.UsedUp - s.Documents
	started := Started(s)
	return [...]paperAmount{ // in the order of paperParts
		{s.UsedUp, 0},
		{faults - s.Clearing + s.LeftOver, 0},
		{-s.LeftOver - before, -float64(p.Good * (s.OnLine + cycles - started))},
		{s.Breaks, 0},
		{s.Slow - starts, 0},
		{documents, 0},
		{s.Clearing - (paper - starts), s.Good - float64(p.Good*(started-s.OnLine))},
	}
}

// Causes returns the measured parts that the difference clearly comes from, the largest first: the
// one or two that are certain and together at least half of it; none if there are no such, or no
// difference is shown.
func (g *PaperGap) Causes() []PaperPart {
	whole := float64(g.Whole.Mean)
	if !(math.Abs(whole) > float64(g.Whole.Half)) {
		return nil
	}
	share := func(x PaperPart) float64 { return float64(x.Mean.Mean) / whole }
	var all []PaperPart
	for _, x := range g.Parts {
		if x.Name != PaperRest && share(x) >= leastCause && math.Abs(float64(x.Mean.Mean)) > float64(x.Half) {
			all = append(all, x)
		}
	}
	slices.SortStableFunc(all, func(a, b PaperPart) int { return cmp.Compare(share(b), share(a)) })
	sum := 0.0
	for _, x := range all[:min(2, len(all))] {
		sum += share(x)
	}
	if sum < 0.5 {
		return nil
	}
	return all[:min(2, len(all))]
}

// leastCause is the least share of a difference that is named as its cause.
const leastCause = 0.2
