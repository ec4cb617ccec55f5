package accept

import "netrate/sim/portable"

// SharePlan is a test of a number of pieces: a line passes if at most Allowed of them are defective.
type SharePlan struct {
	Pieces  int64
	Allowed int64
}

// Share returns the plan with the fewest pieces for a share of defective pieces, good or bad, if
// each piece is defective independently of all others (binomial). It panics unless
// 0 < good < bad < 1 and on risks that cannot be.
func Share(good, bad float64, r Risks) SharePlan {
	levels(good, bad, r)
	if !(bad < 1) {
		panic("accept: a bad share of 1 or more")
	}
	allowed := least(mostAllowed, func(allowed int64) bool {
		n := piecesFor(allowed, bad, r.Buyer)
		return 1-SharePlan{n, allowed}.Passes(good) <= r.Seller
	})
	return SharePlan{piecesFor(allowed, bad, r.Buyer), allowed}
}

// piecesFor returns the fewest pieces of which a line with the bad share passes at most with the
// probability risk, if allowed of them may be defective.
func piecesFor(allowed int64, bad, risk float64) int64 {
	const most = 1 << 52
	return allowed + least(most, func(more int64) bool {
		return SharePlan{allowed + more, allowed}.Passes(bad) <= risk
	})
}

// Passes returns the probability that a line with a share of defective pieces passes.
func (p SharePlan) Passes(share float64) float64 {
	if p.Allowed >= p.Pieces {
		return 1
	}
	return portable.BetaBelow(float64(p.Pieces-p.Allowed), float64(p.Allowed+1), 1-share)
}

// Risks returns the true risks at the two shares.
func (p SharePlan) Risks(good, bad float64) Risks {
	return Risks{1 - p.Passes(good), p.Passes(bad)}
}
