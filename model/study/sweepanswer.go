package study

import (
	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// SweepAnswer is what a sweep came to. Where it names a point it gives its index.
type SweepAnswer struct {
	Settings Settings `json:"settings"`
	Basis    Basis    `json:"rests_on"`

	Vary   []SweepParameter `json:"vary"`
	Peak   *SweepPeak       `json:"peak"` // nil where none is looked for
	Best   int              `json:"best"` // the point with the highest mean
	Points []SweepPoint     `json:"points"`

	Shape  SweepShape `json:"shape"`
	Next   Index      `json:"next"`   // the point with the highest mean but for the best
	Enough Index      `json:"enough"` // the first point that is not shown to be worse than the best
	// Last is, of one parameter, the last value at which the line does not do the very same,
	// replication by replication, as at the value before.
	Last    int        `json:"last_change"`
	Edge    *SweepEdge `json:"edge,omitempty"`      // nil unless the net rate is highest at an end of the range
	Cap     *SweepCap  `json:"cap,omitempty"`       // nil unless the line is asked for as much speed as its stations allow
	Cleaner Index      `json:"far_fewer_defective"` // a point that delivers far fewer defective envelopes than the best, the fewest of all

	Exposures []*Exposure `json:"exposures_of_best"` // one for each job if they have yearly volumes, else one
}

// SweepPoint is what one value, or one of each parameter, comes to.
type SweepPoint struct {
	Values  []string `json:"values"`
	NetRate NetRate  `json:"net_rate"`
	// Change is the difference from the point before: nil for the first, and with two
	// parameters. FromBest is that from the best, nil for the best itself. The intervals of all
	// changes are right at once, and so are those from the best.
	Change        *Difference     `json:"change"`
	FromBest      *Difference     `json:"from_best"`
	NotShownWorse bool            `json:"not_shown_worse"` // than the best; the best is not
	Means         map[string]Mean `json:"means"`           // of all figures of a replication, by [Column]

	Defective     Number      `json:"defective_per_million"`      // envelopes in a million delivered
	DefectiveHalf Number      `json:"defective_half_per_million"` // how far that may be off, if defects come at random
	Speed         Number      `json:"speed_per_h"`                // at which the line runs, cycles an hour
	Capped        bool        `json:"capped"`                     // its stations do not allow the speed that is asked for
	Study         *runs.Study `json:"-"`
}

// SweepPeak is where the net rate is highest, between the values.
type SweepPeak struct {
	At    Number `json:"at"` // in the unit of the parameter
	Low   Number `json:"low"`
	High  Number `json:"high"`
	Level Number `json:"level"`
	Edge  bool   `json:"edge"` // the highest value is the first or the last

	Beyond bool `json:"may_lie_beyond"` // the range ends within the interval: the peak may lie beyond
}

// SweepCap is the most speed that the stations of the line allow.
type SweepCap struct {
	Speed    Number   `json:"speed_per_h"`
	Stations []string `json:"stations"` // that allow no more
	Exceeded bool     `json:"exceeded"` // some point asks for more
}

// Rivals returns the points, the best apart, that are not shown to be worse than it.
func (a *SweepAnswer) Rivals() []int {
	var rivals []int
	for i := range a.Points {
		if i != a.Best && a.Points[i].NotShownWorse {
			rivals = append(rivals, i)
		}
	}
	return rivals
}

// Figures returns the figures, besides the net rate, whose means the points have.
func (a *SweepAnswer) Figures() []runs.Figure {
	var lines []*model.Line
	for i := range a.Points {
		lines = append(lines, linesIn(a.Points[i].Study)...)
	}
	return FiguresOf(lines...)[1:]
}

// linesIn returns the lines that were simulated in a study.
func linesIn(s *runs.Study) []*model.Line {
	if s.Jobs() == nil {
		return []*model.Line{s.Line}
	}
	var lines []*model.Line
	for _, j := range s.Jobs() {
		lines = append(lines, j.Study.Line)
	}
	return lines
}

// ChangesAmong returns how each of some points, but for the first, differs from the one
// before it among them; all intervals are right at once.
func (a *SweepAnswer) ChangesAmong(points []int) []Difference {
	var steps [][2]int
	for n := 1; n < len(points); n++ {
		steps = append(steps, [2]int{points[n-1], points[n]})
	}
	var changes []Difference
	for _, c := range output.Pairwise(a.rates(), steps, Level) {
		changes = append(changes, *DifferenceOf(c))
	}
	return changes
}

// rates returns the net rates of each point, replication by replication.
func (a *SweepAnswer) rates() []sim.Sample {
	var all []sim.Sample
	for i := range a.Points {
		all = append(all, a.Points[i].Study.NetRates())
	}
	return all
}

// answer returns what the lines came to, whose studies have the same replications.
func (q *Sweep) answer(studies []*runs.Study) *SweepAnswer {
	first := studies[0]
	a := &SweepAnswer{Vary: q.Vary, Cleaner: -1, Settings: SettingsOf(q.Plan, len(first.Shifts), first.Ending)}
	if len(first.Shifts) == 0 {
		return a
	}
	figures := FiguresOf(q.work().simulated()...)[1:]
	for i, s := range studies {
		a.Points = append(a.Points, q.point(i, s, figures))
	}
	rates := a.rates()
	for i := range rates {
		if rates[i].Mean() > rates[a.Best].Mean() {
			a.Best = i
		}
	}
	a.fromBest(rates)
	if len(q.Vary) == 1 {
		a.course(q, rates)
	}
	a.Shape = a.shape()
	a.Cap = q.cap()
	a.Cleaner = Index(a.cleaner())
	a.Exposures = exposuresIn(studies[a.Best])
	return a
}

// point returns what a line came to by itself.
func (q *Sweep) point(i int, s *runs.Study, figures []runs.Figure) SweepPoint {
	p := SweepPoint{NetRate: NetRateOf(s), Means: map[string]Mean{}, Speed: Number(q.runSpeed(i)), Study: s}
	for _, v := range q.values(i) {
		p.Values = append(p.Values, v.Text)
	}
	for _, f := range figures {
		p.Means[Column(f)] = MeanIn(s, f.Of)
	}
	p.Capped = q.asksFor(i) > float64(p.Speed)
	if d := DefectsOf(s); d.Seen {
		p.Defective, p.DefectiveHalf = Number(d.PerMillion), Number(d.Half)
	}
	return p
}

// fromBest sets each point against the best. The truly best point is the best of these
// replications or not shown to be worse with the confidence of all intervals, though it is the
// replications that say which one is the best: for it to be neither, one of the intervals of
// the others against it would have to be wrong, and there are no more of them than pairs here.
func (a *SweepAnswer) fromBest(rates []sim.Sample) {
	var pairs [][2]int
	for i := range rates {
		if i != a.Best {
			pairs = append(pairs, [2]int{a.Best, i})
		}
	}
	a.Points[a.Best].NotShownWorse = true
	a.Next, a.Enough = -1, -1
	for n, c := range output.Pairwise(rates, pairs, Level) {
		p := &a.Points[pairs[n][1]]
		p.FromBest = DifferenceOf(c)
		p.NotShownWorse = !p.FromBest.Shown()
		if a.Next < 0 || p.FromBest.Mean > a.Points[a.Next].FromBest.Mean {
			a.Next = Index(pairs[n][1])
		}
	}
	for i := range a.Points {
		if a.Points[i].NotShownWorse {
			a.Enough = Index(i)
			break
		}
	}
}

// cleaner returns the point that delivers the fewest defective envelopes, if the best delivers
// more than twice as many, and more than chance explains if defects come at random; else -1.
func (a *SweepAnswer) cleaner() int {
	fewest := a.Best
	for i := range a.Points {
		if a.Points[i].Defective < a.Points[fewest].Defective {
			fewest = i
		}
	}
	best := &a.Points[a.Best]
	ratio := float64(a.Points[fewest].Defective / best.Defective)
	if !(ratio*(1+2*float64(best.DefectiveHalf/best.Defective)) < 0.5) {
		return -1
	}
	return fewest
}
