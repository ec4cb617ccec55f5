package study

import (
	"context"

	"netrate/sim"
	"netrate/sim/output"
)

// How the cheapest design is found that is enough.
const (
	designEnough      = 400 // shifts of each, at most
	designEnoughBlock = 16  // designs that are simulated together
	designEnoughMost  = 480 // designs that may be enough, of each number of operators, before the search for one that is gives up
)

// findEnough finds, of each number of operators, the cheapest design that reaches the target in so many
// shifts of the search, and the cheapest that is shown to.
func (s *designSearch) findEnough(ctx context.Context) error {
	if s.Goal != DesignOperators {
		return nil
	}
	for _, crew := range s.crews {
		var maybe []*candidate
		for _, c := range pointers(s.all) { // the cheapest first
			if c.operators == crew && c.reaches(1-designClearly).High >= Number(s.Share) && len(maybe) < designEnoughMost {
				maybe = append(maybe, c)
			}
		}
		if err := s.enoughOf(ctx, maybe); err != nil || ctx.Err() != nil {
			return err
		}
	}
	return nil
}

// enoughOf finds the cheapest of some designs, the cheapest first.
func (s *designSearch) enoughOf(ctx context.Context, maybe []*candidate) error {
	found := false
	for len(maybe) > 0 {
		block := maybe[:min(designEnoughBlock, len(maybe))]
		maybe = maybe[len(block):]
		for _, c := range block {
			c.figures = designSums{}
		}
		if err := s.search(ctx, block, 0, min(designEnough, max(designFirst, s.Plan.Max)), func(int, sim.Sample) {}); err != nil || ctx.Err() != nil {
			return err
		}
		for _, c := range block {
			r := c.reaches(1 - Level)
			if sure := r.Low >= Number(s.Share); sure || !found && r.Share >= Number(s.Share) {
				found = true
				if s.enough = append(s.enough, c); sure {
					return nil
				}
			}
		}
	}
	return nil
}

// reaches returns the share of the shifts that reach the target, which lies outside its interval with some risk.
func (c *candidate) reaches(risk float64) Proportion {
	low, high := output.ExactInterval(int64(c.figures.hits), int64(c.figures.shifts), 1-risk)
	return Proportion{Number(c.figures.hits / c.figures.shifts), Number(low), Number(high), Number(1 - risk)}
}
