package study

import (
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/portable"
)

// rateClause returns the clause of the net rate. Where the lines are made for two net rates these are
// its levels, and what the lines deliver in the tests stands beside them.
func (t *acceptanceTest) rateClause(a *AcceptanceAnswer) AcceptanceClause {
	c := AcceptanceClause{
		Of: AcceptanceRate, Good: a.Good.NetRate.Mean, Bad: a.Bad.NetRate.Mean, FromLines: true,
		Limit: Number(t.rate.Least), Chosen: &AcceptanceLimit{Number(t.own), Number(t.rateWithin())}, Seller: wrongly(t.rate.Seller), Buyer: wrongly(t.rate.Buyer),
		Holds: t.rate.Holds(t.Risks),
	}
	if t.Bad == nil {
		c.Own, c.FromLines = &AcceptanceOwn{c.Good, c.Bad}, false
		c.Good, c.Bad = a.Good.Asked, a.Bad.Asked
	}
	return c
}

// chosen returns the limit that separates figures of the tests of the two lines, of which fewer are better, and within
// what it is known.
func (t *acceptanceTest) chosen(c *AcceptanceClause, good, bad sim.Sample, a *AcceptanceAnswer) *AcceptanceLimit {
	separate := accept.Separate
	if size, unit := t.size(c.Of, a); c.Counts() > 0 && float64(c.Bad)*size/unit < fewCounted {
		separate = accept.SeparateFew
	}
	good, bad = negative(good), negative(bad)
	limit := roundUp(-separate(good, bad, t.Risks).Least)
	return &AcceptanceLimit{Number(limit), Number(accept.SeparateWithin(separate, good, bad, t.Risks, Level))}
}

// clause returns another clause.
func (t *acceptanceTest) clause(levels AcceptanceLevels, a *AcceptanceAnswer) AcceptanceClause {
	good, bad := finite(t.sides[0].figures(levels.Of)), finite(t.sides[1].figures(levels.Of))
	c := AcceptanceClause{Of: levels.Of, Good: Number(levels.Good), Bad: Number(levels.Bad), FromLines: levels.Good == 0}
	if len(good) < AcceptanceLeast/2 || len(bad) < AcceptanceLeast/2 {
		c.NoTest = "in most tests there is nothing to count"
		return c
	}
	if c.Of == AcceptanceClearing && !(good.Mean() > 0) {
		c.NoTest = "clearing takes the good line no time"
		return c
	}
	if own := (AcceptanceOwn{Number(good.Mean()), Number(bad.Mean())}); c.FromLines {
		c.Good, c.Bad = own.Good, own.Bad
	} else {
		c.Own = &own
	}
	if !(c.Good > 0) {
		c.NoTest = fmt.Sprintf("none came in %d tests of the good line", len(good))
		return c
	}
	c.Asked = levels.Limit > 0
	worse := c.Bad > c.Good*1.01
	if !worse && !c.Asked { // a limit that is signed holds all the same
		c.NoTest = "the bad line is no worse in it"
		return c
	}
	switch {
	case !c.FromLines:
		c.plan(t, a, good, levels.Limit)
	case worse:
		c.Chosen = t.chosen(&c, good, bad, a)
		c.Limit = c.Chosen.Limit
	}
	if c.Asked {
		c.Limit = Number(levels.Limit)
	}
	least := -float64(c.Limit)
	l := accept.At(negative(good), negative(bad), least)
	c.Seller, c.Buyer = wrongly(l.Seller), wrongly(l.Buyer)
	if c.Holds = l.Holds(t.Risks); c.Planned != nil {
		c.Holds = float64(c.Planned.Buyer) <= t.Risks.Buyer && (!c.Asked || float64(c.Planned.Seller) <= t.Risks.Seller) // a limit that was chosen has the seller’s, but for rounding
	}
	if worse {
		c.Alone = t.alone(&c, a, good)
	}
	return c
}

// plan sets the limit of a clause whose levels are given, and the risks of it or of the one that the contract
// has: it has the seller’s risk in a test of the usual size, and the buyer’s is what comes of it.
func (c *AcceptanceClause) plan(t *acceptanceTest, a *AcceptanceAnswer, good sim.Sample, signed float64) {
	size, unit := t.size(c.Of, a)
	cv := 0.0
	switch level := float64(c.Good) / unit; c.Of {
	case AcceptanceClearing:
		cv = t.spread(good, size)
		c.take(roundUp(accept.TimesIn(int64(size), level, cv, t.Risks.Seller).Limit), signed)
	case AcceptanceRate, AcceptanceStops, AcceptanceDefective, AcceptanceTakenOut:
		if c.Of == AcceptanceTakenOut {
			c.Dispersion = Number(dispersion(good, size/unit))
		}
		allowed := accept.EventsAllowed(size, float64(c.Dispersion), level, t.Risks.Seller)
		c.take(roundUp(unit*(float64(allowed)+0.5)/size), signed) // half of one more, so that a test that is a little shorter may have as many
		c.Allowed = Number(c.allowedIn(size))
	}
	c.Planned = new(risksOf(c.risksIn(size, cv)))
	if t.stages != nil {
		for _, x := range t.stages.Shifts {
			c.AtEnds = append(c.AtEnds, risksOf(c.risksIn(math.Round(size*float64(x.Hours/a.Hours)), cv)))
		}
	}
}

// risksIn returns the risks of the limit at the levels that are given, in a number of pieces. A single time has the
// coefficient of variation cv.
func (c *AcceptanceClause) risksIn(pieces, cv float64) accept.Risks {
	if c.Of == AcceptanceClearing {
		return accept.TimePlan{Number: max(1, int64(pieces)), Limit: float64(c.Limit), CV: cv}.Risks(float64(c.Good), float64(c.Bad))
	}
	unit := c.Counts()
	return c.allowing(pieces, c.allowedIn(pieces)).Risks(float64(c.Good)/unit, float64(c.Bad)/unit)
}

// allowedIn returns how many the limit allows in a number of pieces.
func (c *AcceptanceClause) allowedIn(pieces float64) float64 {
	return math.Floor(float64(float64(c.Limit)*pieces/c.Counts()) + 1e-9)
}

// fewCounted is the number of events in a test of the bad line below which the shares of tests lie in heaps.
const fewCounted = 30

// dispersion returns the variance of a count over its mean, at least 1, of what was counted per so many pieces in each
// test. Sets are taken out several at a time where a fault of one costs those about it too.
func dispersion(counts sim.Sample, pieces float64) float64 {
	if !(counts.Mean() > 0) {
		return 1
	}
	sd := counts.SD()
	return math.Max(1, float64(sd*sd)*pieces/counts.Mean())
}

// allowing returns the plan that allows a count in a number of pieces.
func (c *AcceptanceClause) allowing(pieces, count float64) accept.EventPlan {
	return accept.EventPlan{Length: pieces, Allowed: int64(count), Dispersion: float64(c.Dispersion)}
}

// take sets the limit that decides: the one of the contract, if it has one, or that which was chosen.
func (c *AcceptanceClause) take(chosen, signed float64) {
	c.Chosen = &AcceptanceLimit{Limit: Number(chosen)}
	if c.Limit = c.Chosen.Limit; c.Asked {
		c.Limit = Number(signed)
	}
}

// size returns of how many pieces a figure is in a test of the good line, and in how many pieces its
// unit is.
func (t *acceptanceTest) size(f AcceptanceFigure, a *AcceptanceAnswer) (size, unit float64) {
	switch f {
	case AcceptanceClearing:
		n := 0.0
		for _, x := range t.sides[0].tests {
			n += float64(x.Cleared) / float64(len(t.sides[0].tests))
		}
		return math.Max(1, math.Round(n)), 1
	case AcceptanceDefective:
		return math.Round(float64(a.Good.NetRate.Mean * a.Hours)), 1e6
	case AcceptanceRate, AcceptanceStops, AcceptanceTakenOut:
	}
	return math.Round(float64(a.Good.Sets)), 1000
}

// spread returns the coefficient of variation of a single time, from that of the means of each times.
func (t *acceptanceTest) spread(means sim.Sample, each float64) float64 {
	return math.Max(0.01, means.SD()/means.Mean()*math.Sqrt(each))
}

// mostAlone is the number of events that a test of one clause may have to allow; for one that needs
// more the levels are too near each other.
const mostAlone = 2000

// alone returns what a test of the clause by itself would take; nil if that is too much, and of sets taken out, which
// do not come one by one.
func (t *acceptanceTest) alone(c *AcceptanceClause, a *AcceptanceAnswer, means sim.Sample) *AcceptanceAlone {
	if c.Of == AcceptanceTakenOut {
		return nil
	}
	size, unit := t.size(c.Of, a)
	good, bad := float64(c.Good)/unit, float64(c.Bad)/unit
	if apart := portable.Log(bad / good); c.Of != AcceptanceClearing && (12/(apart*apart) > mostAlone || bad >= 0.5) {
		return nil
	}
	var x *AcceptanceAlone
	switch c.Of {
	case AcceptanceClearing:
		x = aloneTimes(good, bad, t.spread(means, size), t.Risks)
	case AcceptanceDefective:
		x = aloneShare(good, bad, t.Risks)
	case AcceptanceRate, AcceptanceStops, AcceptanceTakenOut:
		x = aloneEvents(good, bad, t.Risks)
	}
	x.Hours = x.Length * a.Hours / Number(size)
	return x
}

func aloneEvents(good, bad float64, r accept.Risks) *AcceptanceAlone {
	p, s := accept.Events(good, bad, r), accept.TruncatedEvents(good, bad, r)
	_, meanGood := s.Of(good)
	_, meanBad := s.Of(bad)
	return &AcceptanceAlone{
		Unit: "sets", Length: Number(math.Ceil(p.Length)), Allowed: Number(p.Allowed), Risks: risksOf(p.Risks(good, bad)),
		Slope: Number(s.Slope), Accept: Number(s.Accept), Reject: Number(s.Reject),
		End: Number(s.End), AllowedAtEnd: Number(s.Allowed), MeanGood: Number(meanGood), MeanBad: Number(meanBad),
		Exact: new(risksOf(s.Risks(good, bad))),
	}
}

func aloneShare(good, bad float64, r accept.Risks) *AcceptanceAlone {
	p, s := accept.Share(good, bad, r), accept.SequentialShare(good, bad, r)
	return &AcceptanceAlone{
		Unit: "envelopes", Length: Number(p.Pieces), Allowed: Number(p.Allowed), Risks: risksOf(p.Risks(good, bad)),
		Slope: Number(s.Slope), Accept: Number(s.Accept), Reject: Number(s.Reject),
		MeanGood: Number(s.Expected(good, 1-r.Seller)), MeanBad: Number(s.Expected(bad, r.Buyer)),
	}
}

func aloneTimes(good, bad, cv float64, r accept.Risks) *AcceptanceAlone {
	p, s := accept.Times(good, bad, cv, r), accept.SequentialTimes(good, bad, cv, r)
	half := float64(portable.Log1p(float64(cv*cv)) / 2)
	return &AcceptanceAlone{
		Unit: "times", Length: Number(p.Number), Allowed: Number(p.Limit), Risks: risksOf(p.Risks(good, bad)),
		Slope: Number(s.Slope), Accept: Number(s.Accept), Reject: Number(s.Reject),
		MeanGood: Number(s.Expected(portable.Log(good)-half, 1-r.Seller)), MeanBad: Number(s.Expected(portable.Log(bad)-half, r.Buyer)),
	}
}

func risksOf(r accept.Risks) AcceptanceRisks {
	return AcceptanceRisks{Number(r.Seller), Number(r.Buyer)}
}

// Passes reports whether a figure passes the clause; one that cannot be tested is always passed.
func (c *AcceptanceClause) Passes(figure float64) bool {
	switch {
	case c.NoTest != "" || math.IsNaN(figure):
		return true
	case c.Of == AcceptanceRate:
		return figure >= float64(c.Limit)
	}
	return figure <= float64(c.Limit)
}

// Counts returns in how many pieces the unit of a clause on a count is; 0 of one that is not on a count.
func (c *AcceptanceClause) Counts() float64 {
	switch c.Of {
	case AcceptanceStops, AcceptanceTakenOut:
		return 1000
	case AcceptanceDefective:
		return 1e6
	case AcceptanceRate, AcceptanceClearing:
	}
	return 0
}

// Most returns how many a clause on a count allows in a number of pieces: its limit times the pieces, rounded
// down. A test has as many or fewer exactly if it passes.
func (c *AcceptanceClause) Most(pieces float64) Number {
	unit := c.Counts()
	most := math.Floor(float64(c.Limit) * pieces / unit)
	if c.Passes(unit * (most + 1) / pieces) { // the product was rounded down
		return Number(most + 1)
	}
	if most > 0 && !c.Passes(unit*most/pieces) { // or up
		return Number(most - 1)
	}
	return Number(most)
}

// From returns in how many pieces, at the fewest, a clause on a count allows so many.
func (c *AcceptanceClause) From(most Number) float64 {
	pieces := math.Floor(float64(most) * c.Counts() / float64(c.Limit))
	for c.Most(pieces) < most {
		pieces++
	}
	return pieces
}

func passesAll(clauses []AcceptanceClause, x *tested) bool {
	for i := range clauses {
		if !clauses[i].Passes(x.figure(clauses[i].Of)) {
			return false
		}
	}
	return true
}

// finite returns the figures of the tests that say something.
func finite(figures sim.Sample) sim.Sample {
	var all sim.Sample
	for _, x := range figures {
		if !math.IsNaN(x) {
			all = append(all, x)
		}
	}
	return all
}

// negative turns figures of which fewer are better into ones of which more are.
func negative(figures sim.Sample) sim.Sample {
	all := make(sim.Sample, len(figures))
	for i, x := range figures {
		all[i] = -x
	}
	return all
}

// roundUp rounds a limit up to four digits, which people can write in a contract.
func roundUp(x float64) float64 {
	if !(x > 0) {
		return x
	}
	digits := int(math.Floor(portable.Log10(x))) - 3
	n := math.Ceil(x/math.Pow10(digits) - 1e-9)
	if digits < 0 {
		return n / math.Pow10(-digits) // which is the number that people write, and not one next to it
	}
	return n * math.Pow10(digits)
}
