package study

import (
	"math"
	"slices"

	"netrate/model/money"
	"netrate/model/worth"
	"netrate/sim"
)

// WorthAnswer is what lines cost a year and what each is worth against the first, as it was
// drawn: means of the draws and what nine in ten lie between.
type WorthAnswer struct {
	Currency string         `json:"currency"`
	Life     int            `json:"life_years"`
	Rate     Number         `json:"rate"` // a year, as a share
	Draws    int            `json:"draws"`
	Cautions []WorthCaution `json:"cautions"` // what is to be said of the figures, by whoever reports them
	Lines    []WorthLine    `json:"lines"`

	Pairs []WorthPair `json:"pairs"` // each against each of those before it

	Cheapest  int          `json:"cheapest"`               // the line with the lowest equivalent annual cost, in the mean
	Favourite int          `json:"favourite"`              // the line that is worth most against the first; 0 if there is no other
	Mixed     bool         `json:"by_job"`                 // a year has jobs, each with a volume
	Shared    bool         `json:"share_a_crew,omitempty"` // of several lines each
	ByLine    bool         `json:"by_line,omitempty"`      // each of which has a volume
	Uncertain bool         `json:"uncertain_inputs"`       // what is uncertain of the lines is drawn, too
	Ranges    bool         `json:"ranges"`                 // of the costs, are drawn; else all that varies is by chance in the shifts or uncertain of the lines
	Worth     *worth.Worth `json:"-"`                      // the draws themselves
}

// Operators returns how many operators a line has on average, as its costs have them.
func (a *WorthAnswer) Operators(line int) float64 {
	of := &a.Lines[line].Of
	l := of.Lines()[0]
	if of.Group != nil {
		return of.Group.Crew.Mean(l.Shift)
	}
	return l.Crew.Mean(l.Shift)
}

// AtWork returns how many lines run on average in the hours of a year: those that share a crew and
// have done their volume do not.
func (a *WorthAnswer) AtWork(line int) float64 {
	x := &a.Lines[line]
	if !a.ByLine {
		return float64(len(x.Of.Lines()))
	}
	sum := 0.0
	for _, l := range x.LineHours {
		sum += float64(l.Hours.Mean)
	}
	return sum / float64(x.Hours.Mean)
}

// WorthCaution is what is to be said of the figures.
type WorthCaution string

// The cautions.
const (
	WorthEstimate      WorthCaution = "an_estimate_not_financial_advice"
	WorthMedians       WorthCaution = "medians_of_payback_and_break_even" // means of all else
	WorthNoChangeovers WorthCaution = "no_changeovers_between_jobs"
	WorthSideBySide    WorthCaution = "each_line_at_its_rate_beside_all_others" // also while some of these have done their volume
)

// WorthLine is a year of a line.
type WorthLine struct {
	Name        string       `json:"name"`
	Price       Spread       `json:"price"`
	Hours       Spread       `json:"hours_per_year"`    // of each draw its volume over its rate
	HourRate    Number       `json:"volume_over_hours"` // good envelopes an hour of these hours: below the mean net rate where that is uncertain, as slow draws take more hours than fast ones save
	Cost        Spread       `json:"cost_per_year"`
	PerThousand Spread       `json:"cost_per_1000"`   // running: the price is not in it
	AllIn       Spread       `json:"all_in_per_1000"` // with the price, spread over the life with interest
	Cheapest    WorthChance  `json:"cheapest"`        // of all lines over the life
	Annual      Spread       `json:"equivalent_annual_cost"`
	Parts       []WorthPart  `json:"parts_per_year"`
	LineHours   []WorthHours `json:"hours_of_lines,omitempty"` // of lines that share a crew and have volumes of their own
	Against     *WorthGain   `json:"against_base,omitempty"`   // nil of the first

	Of       Alternative `json:"-"`
	Most     Number      `json:"most_per_year"`    // good envelopes that it can make in all hours of a year
	Overfull bool        `json:"more_than_a_year"` // its volume takes more hours than a year has

	rate float64 // mean net rate
}

// MoreHours returns by what share the hours are more than the volume takes at the mean net rate.
func (l *WorthLine) MoreHours() float64 { return l.rate/float64(l.HourRate) - 1 }

// WorthHours are those of one of several lines.
type WorthHours struct {
	Line  string `json:"line"`
	Hours Spread `json:"hours_per_year"`
}

// WorthPart is a part of the yearly cost.
type WorthPart struct {
	Name string `json:"name"`
	Spread
}

// WorthGain is what a line is worth against the first.
type WorthGain struct {
	Saving     Spread      `json:"saving_per_year"`
	NPV        Spread      `json:"npv"`
	Payback    WorthMedian `json:"payback_years"`
	Discounted WorthMedian `json:"discounted_payback_years"`
	BreakEven  WorthMedian `json:"break_even_per_year"` // good envelopes
	Chance     WorthChance `json:"npv_above_0"`

	Verdict WorthVerdict `json:"verdict"`
	Pays    WorthPays    `json:"pays"`     // by the median of the break-even
	PaysIn  Number       `json:"pays_in"`  // share of the draws in which that is so
	NeverIn Number       `json:"never_in"` // share of the draws in which no volume is large enough
}

// WorthMedian is a figure that may be infinite, which is encoded as null: it has no mean.
type WorthMedian struct {
	P5  Number `json:"p5"`
	P50 Number `json:"p50"`
	P95 Number `json:"p95"`
}

// WorthChance is a probability as the draws show it, with its interval.
type WorthChance struct {
	Share Number `json:"share"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
	Level Number `json:"level"`
}

// WorthVerdict says whether a line pays for itself.
type WorthVerdict int

// The verdicts, by the probability that the net present value is above 0.
const (
	WorthLikelyNot WorthVerdict = iota // below a half
	WorthMay                           // a half or more
	WorthIs                            // nearly certain
	WorthIsNot                         // nearly certain not to be
)

// MarshalText returns the word for a verdict.
func (v WorthVerdict) MarshalText() ([]byte, error) {
	return []byte([...]string{"likely_not", "may", "pays", "does_not"}[v]), nil
}

// worthNearly is from where on a probability is taken for nearly certain.
const worthNearly = 0.95

// WorthPays says from what volume on a line pays.
type WorthPays int

// The volumes.
const (
	WorthPaysFrom   WorthPays = iota // the break-even
	WorthPaysAlways                  // at any volume
	WorthPaysNever                   // no volume is large enough
	WorthPaysBeyond                  // only at more than it can make in a year
	WorthPaysBelow                   // only at small volumes: its price is lower, and each envelope dearer
)

// MarshalText returns the word for a volume.
func (p WorthPays) MarshalText() ([]byte, error) {
	return []byte([...]string{"from_break_even", "always", "never", "beyond_a_year", "small_volumes"}[p]), nil
}

// HoursOfAYear are all there are.
const HoursOfAYear = 365 * 24

func worthGain(g *worth.Gain, most float64) *WorthGain {
	x := &WorthGain{
		Saving: SpreadOf(g.Saving), NPV: SpreadOf(g.NPV),
		Payback: worthMedian(g.Payback), Discounted: worthMedian(g.Discounted), BreakEven: worthMedian(g.BreakEven),
		Chance: worthChance(g.Chance),
	}
	switch p := g.Chance.Share; {
	case p >= worthNearly:
		x.Verdict = WorthIs
	case p <= 1-worthNearly:
		x.Verdict = WorthIsNot
	case p >= 0.5:
		x.Verdict = WorthMay
	}
	switch middle := float64(x.BreakEven.P50); {
	case math.IsInf(middle, 1):
		x.Pays = WorthPaysNever
	case middle == 0 && x.NPV.Mean < 0:
		x.Pays = WorthPaysBelow
	case middle == 0:
		x.Pays = WorthPaysAlways
	case middle > most:
		x.Pays = WorthPaysBeyond
	}
	x.PaysIn, x.NeverIn = x.Pays.drawsIn(g, most), WorthPaysNever.drawsIn(g, most)
	return x
}

// drawsIn returns the share of the draws of a gain in which it is so.
func (p WorthPays) drawsIn(g *worth.Gain, most float64) Number {
	n := 0
	for i, even := range g.BreakEven {
		if p.holds(even, g.NPV[i], most) {
			n++
		}
	}
	return Number(float64(n) / float64(len(g.BreakEven)))
}

// holds reports whether it is so of a draw with a break-even and a net present value, of a line that can
// make so much in a year.
func (p WorthPays) holds(even, npv, most float64) bool {
	switch p {
	case WorthPaysNever:
		return math.IsInf(even, 1)
	case WorthPaysAlways:
		return even == 0 && npv >= 0
	case WorthPaysBelow:
		return even == 0 && npv < 0
	case WorthPaysBeyond:
		return even > most
	case WorthPaysFrom:
	}
	return even > 0 && even <= most
}

func worthChance(p money.Probability) WorthChance {
	return WorthChance{Number(p.Share), Number(p.Low), Number(p.High), Number(p.Level)}
}

func worthMedian(s sim.Sample) WorthMedian {
	return WorthMedian{Number(orderOf(s, 0.05)), Number(orderOf(s, 0.5)), Number(orderOf(s, 0.95))}
}

// orderOf returns the figure below which a share of the draws lies, one of them: some may be
// infinite, so that nothing lies between two.
func orderOf(s sim.Sample, share float64) float64 {
	sorted := slices.Sorted(slices.Values(s))
	return sorted[int(math.Round(share*float64(len(sorted)-1)))]
}

// WorthStep is a part of the cost by which a line differs from the first.
type WorthStep struct {
	Part   string  // "" for all that is too small to be shown
	Change float64 // in the cost of a thousand good envelopes
}

// worthSmall is the least change that is a step of its own, as a share of the whole.
const worthSmall = 0.0005

// Steps returns how a line comes from the cost of a thousand good envelopes of the first to its
// own, part by part.
func (a *WorthAnswer) Steps(line int) []WorthStep {
	var steps []WorthStep
	small := 0.0
	for _, p := range worth.CostParts() {
		change := a.Worth.PartPerThousand(line, p).Mean() - a.Worth.PartPerThousand(0, p).Mean()
		if math.Abs(change) < worthSmall*float64(a.Lines[0].PerThousand.Mean) {
			small += change
			continue
		}
		steps = append(steps, WorthStep{p.String(), change})
	}
	if small != 0 {
		steps = append(steps, WorthStep{"", small})
	}
	return steps
}

// Share returns how much of all that the yearly cost of a line differs by from the first, part by
// part and whichever way, is in one part: 0 to 1, and 0 where nothing differs.
func (a *WorthAnswer) Share(line int, part worth.CostPart) float64 {
	of, all := 0.0, 0.0
	for _, p := range worth.CostParts() {
		change := math.Abs(a.Worth.Lines[line].Parts[p].Mean() - a.Worth.Lines[0].Parts[p].Mean())
		if all += change; p == part {
			of = change
		}
	}
	if all == 0 {
		return 0
	}
	return of / all
}

// WorthAt is the net present value at a yearly volume.
type WorthAt struct {
	Volume float64 // good envelopes a year
	NPV    sim.Estimate
}

// worthVolumes is how many volumes a curve has.
const worthVolumes = 21

// curveBeyond is how far a curve goes on after the volume from which the favourite pays.
const curveBeyond = 1.2

// Curve returns the net present value of a line by yearly volume, from none to twice that of
// the costs or, where it is further, beyond the volume from which the favourite pays.
func (a *WorthAnswer) Curve(line int) []WorthAt {
	var curve []WorthAt
	most := 2 * a.Worth.Volume.Mean()
	if x := a.Lines[a.Favourite].Against; x != nil && x.Pays == WorthPaysFrom {
		most = max(most, curveBeyond*float64(x.BreakEven.P50))
	}
	for k := range worthVolumes {
		volume := most * float64(k) / (worthVolumes - 1)
		curve = append(curve, WorthAt{volume, a.Worth.NPVs(line, volume).Interval(Level)})
	}
	return curve
}
