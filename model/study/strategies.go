package study

import (
	"context"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// Strategies asks what a line should answer to which fault: of all strategies that it can
// have, those that may be best are simulated in the same shifts, with common random numbers.
type Strategies struct {
	Line *model.Line
	Mix  *runs.Mix // its jobs, by their yearly volumes, of which a strategy is then; nil for one kind of work
	// Group is what the line shares its crew with, itself among them; nil of a line with a crew of its
	// own. The others stay as they are, and net rates are those of all lines together; all else is of
	// the line.
	Group *model.LineGroup
	// MaxDefective is the share of the envelopes delivered that may be defective, 0 or more;
	// nil for what the line's own strategy delivers, of which a hundredth more is no more.
	MaxDefective *float64
	// AllowUnread also looks at strategies that let personalised sets go that could not be read
	// or matched. Without it only the line's own may do that, and others where it does.
	AllowUnread bool
	Never       []model.Forbidden // what no strategy answers, the line's own neither; what each costs is answered
	Volume      float64           // good envelopes a year, of all jobs; 0 if it is not known
	Plan        sim.Plan
	Incidents   bool // the line's own strategy and the best have theirs, if a stream can come out of step; not of several jobs or lines
}

// StrategiesAnswer is which strategies a line can have, what each earns and risks, and which
// is best.
type StrategiesAnswer struct {
	Settings Settings `json:"settings"`
	Basis    Basis    `json:"rests_on"`

	Limit       Number `json:"max_defective_per_million"`
	LimitGiven  bool   `json:"limit_given"`  // if not, it is what the line's own strategy delivers
	AllowUnread bool   `json:"allow_unread"` // strategies were looked at that let sets go that could not be read or matched

	Best   string   `json:"best"`             // a strategy's name; where none is within the limit, what comes nearest
	Within bool     `json:"within_the_limit"` // a strategy is
	Shown  bool     `json:"shown"`            // nothing else within the limit may be as good
	Rivals []string `json:"may_be_as_good"`   // others within the limit that are not shown to deliver less

	OnPaper    StrategiesSearch     `json:"on_paper"`
	Method     string               `json:"method"` // of the differences
	Decisions  []StrategiesDecision `json:"decisions"`
	Strategies []StrategiesOne      `json:"strategies"` // the line's own first, then by the risk
	Never      []StrategiesPrice    `json:"never"`      // as in the question

	Leader int   `json:"leader"`            // the number of the best strategy
	AsGood []int `json:"as_good,omitempty"` // those of the rivals

	Line  *model.Line           `json:"-"`
	Pairs [][]output.Comparison `json:"-"` // Pairs[i][k] sets k against i; intervals right all at once
}

// StrategiesSearch is how the strategies that were simulated were chosen.
type StrategiesSearch struct {
	Considered  Number `json:"considered"`      // all that the line can have
	Undominated int    `json:"undominated"`     // of them, no other is as good in everything
	Near        int    `json:"near_a_frontier"` // of these
	Margin      Number `json:"margin"`          // share of the net rate that counts as near
	Slack       Number `json:"slack"`           // share of each figure that counts as alike
}

// StrategiesDecision is a fault that leaves a choice.
type StrategiesDecision struct {
	Station   string   `json:"station"`
	Fault     string   `json:"fault"`
	Responses []string `json:"responses"` // possible ones
}

// StrategiesOne is a strategy that was simulated.
type StrategiesOne struct {
	Name        string      `json:"name"`         // "own", A, B, …
	Otherwise   string      `json:"otherwise"`    // what it answers otherwise than the line's own; "" for that
	ShipsUnread bool        `json:"ships_unread"` // it lets sets go that could not be read or matched
	Responses   []string    `json:"responses"`    // one for each decision
	NetRate     NetRate     `json:"net_rate"`
	ToOwn       *Difference `json:"to_own"`  // nil for the line's own
	ToBest      *Difference `json:"to_best"` // nil for the best
	Defective   Risk        `json:"defective"`
	Exposure    *Exposure   `json:"exposure,omitempty"`         // nil of several jobs, each of which has its own
	Exposures   []*Exposure `json:"exposures_by_job,omitempty"` // of several jobs
	Jobs        []LineJob   `json:"jobs,omitempty"`             // of several, what the line delivers of each
	Remakes     *Mean       `json:"remakes_per_1000,omitempty"` // of sets started; nil of a line that has none
	Within      bool        `json:"within_the_limit"`
	Frontier    bool        `json:"on_the_frontier"` // no other delivers more at no more risk

	OnPaper  StrategiesPaper `json:"on_paper"`
	Incident *IncidentAnswer `json:"incident,omitempty"` // if it is asked for; not in an answer so far

	Saving   bool           `json:"on_the_remakes_frontier"` // no other delivers more with no more remakes
	Strategy model.Strategy `json:"-"`
	Study    *runs.Study    `json:"-"` // of all lines together, if it shares its crew
	Work     runs.Work      `json:"-"` // the line, its jobs or the lines that share its crew, with this strategy
}

// StrategiesPaper is what a strategy comes to on paper.
type StrategiesPaper struct {
	NetRate   Number `json:"net_rate"`
	Defective Number `json:"defective_per_million"`
	Remakes   Number `json:"remakes_per_1000"`
}

// strategiesAlike is how far apart two figures may be that count as the same.
const strategiesAlike = 1.01

// work returns the line at what a strategy decides for.
func (q *Strategies) work() *model.AtJobs {
	if q.Mix == nil {
		return q.Line.AsItStands()
	}
	return &model.AtJobs{Line: q.Mix.Line, Jobs: q.Mix.Lines(), Shares: q.Mix.Shares}
}

// works returns the line with each of some strategies.
func (q *Strategies) works(all []model.Strategy) works {
	var w works
	for _, x := range all {
		lines := q.work().Answering(x)
		switch {
		case q.Group != nil:
			group := &model.LineGroup{Lines: slices.Clone(q.Group.Lines), Crew: q.Group.Crew}
			group.Lines[q.place()] = lines[0]
			w = append(w, runs.Work{Group: group})
		case q.Mix != nil:
			w = append(w, runs.Work{Mix: q.Mix.With(lines)})
		default:
			w = append(w, runs.Work{Line: lines[0]})
		}
	}
	return w
}

// place returns the number of the line among those that share its crew; -1 if it is none of them.
func (q *Strategies) place() int {
	return slices.IndexFunc(q.Group.Lines, func(l *model.Line) bool { return l.Name == q.Line.Name })
}

// own returns the study of the line itself in one of what was run.
func (q *Strategies) own(s *runs.Study) *runs.Study {
	if q.Group == nil {
		return s
	}
	return s.Lines()[q.place()]
}

// Breach returns why the line cannot do without what is forbidden, as a sentence; "" if it can.
func (q *Strategies) Breach() string { return q.work().Breach(q.Never) }

// decisions returns what a strategy must decide, with the responses that are looked at.
func (q *Strategies) decisions() []model.Decision {
	if q.AllowUnread {
		return model.Permitted(q.work().Decisions(), q.Never)
	}
	return model.Permitted(q.work().GuardedDecisions(), q.Never)
}

// limit returns the share of the envelopes that may be defective, on paper.
func (q *Strategies) limit() float64 {
	if q.MaxDefective != nil {
		return *q.MaxDefective
	}
	return strategiesAlike * q.work().Defective()
}

// search returns the strategies that are worth a simulation, the line's own first.
func (q *Strategies) search() model.Search {
	found := q.work().SearchStrategies(q.decisions(), q.limit(), 0)
	own := found.Candidates[found.Own]
	found.Candidates = slices.Insert(slices.Delete(found.Candidates, found.Own, found.Own+1), 0, own)
	found.Own = 0
	return found
}

// Ask finds the strategies that may be best, simulates them and chooses. After each shift of
// all of them it calls told, if there is one.
//
// When ctx is cancelled the answer is of the shifts done; it is nil if none was. The answer is
// the same bit for bit for any number of workers. MaxDefective must be a share, 0 or more.
func (q Strategies) Ask(ctx context.Context, told func(Sofar[StrategiesAnswer])) (*StrategiesAnswer, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	nominal := works{workOf(q.Line, q.Mix, q.Group)}
	means, err := nominal.atMeans()
	if err != nil {
		return nil, err
	}
	basis := nominal.basis()
	q.at(means[0])
	found, tempting := q.search(), q.tempting()
	var strategies []model.Strategy
	for _, x := range append(slices.Clone(found.Candidates), tempting...) {
		if x.Strategy != nil {
			strategies = append(strategies, x.Strategy)
		}
	}
	tried := q.works(strategies)
	answer := func(studies []*runs.Study) *StrategiesAnswer {
		a := q.judge(found, tempting, studies, tried)
		a.Basis = basis
		return a
	}
	studies, err := together(ctx, tried, q.Plan, answer, told)
	if err != nil || len(studies[0].Shifts) == 0 {
		return nil, err
	}
	a := answer(studies)
	if q.Incidents && q.Mix == nil && q.Group == nil {
		err = a.incidents()
	}
	return a, err
}

// at puts the line, its jobs and what it shares its crew with in the place of those of the question.
func (q *Strategies) at(w runs.Work) {
	switch q.Mix, q.Group = w.Mix, w.Group; {
	case w.Group != nil:
		q.Line = w.Lines()[q.place()] // with the crew that they share
	case w.Mix != nil:
		q.Line = w.Mix.Line
	default:
		q.Line = w.Line
	}
}

// incidents gives the line's own strategy and the best theirs.
func (a *StrategiesAnswer) incidents() (err error) {
	for _, x := range []*StrategiesOne{a.Own(), a.Leading()} {
		if IncidentLane(x.Study.Line) < 0 {
			continue
		}
		if x.Incident, err = (Incident{Line: x.Study.Line}).Ask(); err != nil {
			return err
		}
	}
	return nil
}
