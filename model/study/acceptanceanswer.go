package study

import (
	"netrate/model"
	"netrate/sim"
	"netrate/sim/accept"
)

// AcceptanceAnswer is the plan of an acceptance test, and the risks of what it decides.
type AcceptanceAnswer struct {
	Settings Settings `json:"settings"`
	Basis    Basis    `json:"rests_on"`

	Seller  Number             `json:"seller_risk"` // asked for
	Buyer   Number             `json:"buyer_risk"`
	Hours   Number             `json:"hours"` // at work
	Given   bool               `json:"hours_given"`
	Between *AcceptanceBetween `json:"shortest_between,omitempty"` // nil where no length was looked for, or a shift is enough
	Planned *AcceptancePlanned `json:"planned,omitempty"`          // where the test that was run took other hours
	Asked   bool               `json:"demand_given"`               // of good envelopes
	Spread  bool               `json:"lots_or_days_given"`         // each shift was simulated with a day and lots of its own
	Shift   Number             `json:"shift_h"`                    // of each of which the test has as many as it takes
	Begins  string             `json:"begins"`                     // how each begins
	Speed   Number             `json:"speed"`                      // of the good line, cycles an hour
	Crew    model.Crew         `json:"-"`                          // of the good line

	Good    AcceptanceLine     `json:"good_line"`
	Bad     AcceptanceLine     `json:"bad_line"`
	Written *Mean              `json:"file_net_rate,omitempty"` // of the line as the file has it, where the two are made of it
	LongRun *Interval          `json:"file_long_run,omitempty"` // of the net rate of that line, with what is uncertain of it drawn; nil where nothing is
	Clauses []AcceptanceClause `json:"clauses"`                 // that of the net rate first

	FailsAny  Proportion `json:"good_line_fails_any_clause"`
	PassesAll Proportion `json:"bad_line_passes_all_clauses"`

	Struck   AcceptanceStruck    `json:"worst_hours_struck"`
	Curve    []AcceptancePoint   `json:"operating_characteristic"`
	NoWay    string              `json:"no_curve,omitempty"`         // why there is none
	Material *AcceptanceMaterial `json:"without_bad_lots,omitempty"` // nil where no lot is bad
	Drawn    *AcceptanceDrawn    `json:"inputs_drawn,omitempty"`
	Stages   *AcceptanceStages   `json:"sequential,omitempty"`    // if it is asked for
	NoStages string              `json:"no_sequential,omitempty"` // why there is none

	Result *AcceptanceVerdict `json:"result,omitempty"`
}

// AcceptanceBetween is between what the shortest test that holds the risks lies, as far as the simulated
// tests show: with [Level] confidence, and more.
type AcceptanceBetween struct {
	Low  Number  `json:"from_h"`
	High *Number `json:"to_h"` // nil if they do not show it
}

// AcceptancePlanned is what the plan was of a test that took other hours: its limits are not those by
// which the test is judged.
type AcceptancePlanned struct {
	Hours Number `json:"hours"`
	Limit Number `json:"limit"` // good envelopes
}

// AcceptanceLine is one of the two lines, in the tests.
type AcceptanceLine struct {
	Name    string `json:"name"`
	Asked   Number `json:"asked_net_rate,omitempty"` // which it was made for; 0 if it is as it is written
	Faults  Number `json:"faults_times"`             // how often its faults come, as multiples of those of the file
	NetRate Mean   `json:"net_rate"`
	Sets    Number `json:"sets_started"` // in a test, on average
	Stops   Number `json:"stops"`        // for faults
}

// AcceptanceClause is one figure, its limit, and what that decides.
type AcceptanceClause struct {
	Of         AcceptanceFigure  `json:"of"`
	Good       Number            `json:"good"` // the levels, in the unit of the figure
	Bad        Number            `json:"bad"`
	FromLines  bool              `json:"levels_of_the_lines"`
	Asked      bool              `json:"limit_given,omitempty"`           // in the contract; of the net rate see demand_given
	Anew       bool              `json:"limit_worked_out_anew,omitempty"` // for a test that was run, and not by its plan
	Limit      Number            `json:"limit"`                           // good envelopes of the whole test; of other clauses in the unit of the figure. All risks are those of it as it stands here, rounded up
	Chosen     *AcceptanceLimit  `json:"limit_chosen,omitempty"`          // by the tests of this answer, whether it is the limit or the contract gives another; nil where none is
	Seller     Proportion        `json:"good_line_fails"`
	Buyer      Proportion        `json:"bad_line_passes"`
	Holds      bool              `json:"holds_the_risks"`                      // at its own levels
	Allowed    Number            `json:"allowed,omitempty"`                    // where it is planned at levels of its own: so many in a test of the usual size
	Dispersion Number            `json:"dispersion,omitempty"`                 // of what is counted there in tests of the good line: its variance over its mean; 0 where the plan takes it for 1
	Planned    *AcceptanceRisks  `json:"at_levels,omitempty"`                  // risks at levels that are not those of the lines, by the plan
	AtEnds     []AcceptanceRisks `json:"at_levels_after_each_shift,omitempty"` // likewise, where a test that may end after each shift does
	Own        *AcceptanceOwn    `json:"lines_have,omitempty"`                 // where levels are given
	Alone      *AcceptanceAlone  `json:"by_itself,omitempty"`                  // what a test of it alone would take
	NoTest     string            `json:"cannot_be,omitempty"`                  // why it decides nothing
}

// AcceptanceLimit is a limit that was chosen.
type AcceptanceLimit struct {
	Limit  Number `json:"limit"`
	Within Number `json:"within,omitempty"` // of it lies the one that more tests would come to, with [Level] confidence; 0 of one that is computed
}

// AcceptanceOwn are the levels of the two lines, on average.
type AcceptanceOwn struct {
	Good Number `json:"good_line"`
	Bad  Number `json:"bad_line"`
}

// AcceptanceRisks are the risks at two levels.
type AcceptanceRisks struct {
	Seller Number `json:"seller"`
	Buyer  Number `json:"buyer"`
}

// AcceptanceAlone is a test of one clause by itself: of fixed length, and sequential.
type AcceptanceAlone struct {
	Unit    string          `json:"unit"`    // in which its length is: sets, times or envelopes
	Length  Number          `json:"length"`  // of fixed length
	Allowed Number          `json:"allowed"` // stops, seconds of the mean, or defective envelopes
	Risks   AcceptanceRisks `json:"risks"`
	Hours   Number          `json:"hours"` // of the good line

	Slope        Number           `json:"slope"` // of the sequential test: per unit of the length
	Accept       Number           `json:"accept_below"`
	Reject       Number           `json:"reject_above"`
	End          Number           `json:"ends_at,omitempty"` // 0 if it has no end
	AllowedAtEnd Number           `json:"allowed_at_end,omitempty"`
	MeanGood     Number           `json:"mean_length_good"`
	MeanBad      Number           `json:"mean_length_bad"`
	Exact        *AcceptanceRisks `json:"sequential_risks,omitempty"` // nil where they are Wald’s
}

// AcceptanceStruck is what it does to the net rate’s clause if of each eight hours the worst is struck
// out afterwards, and made up for by an average one.
type AcceptanceStruck struct {
	Hours  int        `json:"hours"` // in the test; 0 if it has no eight
	Buyer  Proportion `json:"bad_line_passes"`
	Seller Proportion `json:"good_line_fails"`
}

// AcceptancePoint is a point of the operating characteristic: the good line with its faults more or
// less often.
type AcceptancePoint struct {
	Faults  Number     `json:"faults_times"`
	NetRate Number     `json:"net_rate"`
	Passes  Proportion `json:"passes"`
}

// AcceptanceDrawn is what becomes of a good line whose uncertain inputs are drawn anew for each test.
type AcceptanceDrawn struct {
	Draws int        `json:"draws"`
	Fails Proportion `json:"good_line_fails"` // the net rate’s clause
}

// AcceptanceVerdict is what a test has shown.
type AcceptanceVerdict struct {
	Clauses []AcceptanceFound `json:"clauses"`
	Passes  bool              `json:"passes"` // all clauses that were counted, and none is left that cannot be judged
	Hours   Number            `json:"hours"`  // that the test took
	Rate    Interval          `json:"net_rate"`
	Aside   int64             `json:"stops_left_aside"`     // of a stop log: for stocks, planned, or for what is no fault
	Decided *AcceptanceEnded  `json:"sequential,omitempty"` // of a test that may end after each shift

	Shifts *AcceptanceShifts `json:"other_shifts,omitempty"` // where the rows of the counts are not the shifts of the plan

	Cut       *AcceptanceCut `json:"other_hours,omitempty"` // where the demand was signed for other hours than the test took
	NotJudged bool           `json:"not_judged,omitempty"`  // the line neither passes nor fails, since a clause could decide either way that is open
}

// AcceptanceFound is what a test has shown of one clause.
type AcceptanceFound struct {
	Of      AcceptanceFigure `json:"of"`
	Counted bool             `json:"counted"`
	Figure  Number           `json:"figure"`
	Passes  bool             `json:"passes"`
	AsBad   Proportion       `json:"good_line_as_bad"` // the chance that a good line does no better
	AsGood  Proportion       `json:"bad_line_as_good"` // the chance that a bad line does no worse

	NotJudged bool `json:"not_judged,omitempty"` // the test took other hours than those that were signed, and could have gone either way in these, or other shifts, which make the risk of what it would decide larger: Passes says nothing

	Whole *AcceptanceCount `json:"whole,omitempty"` // of a clause on a count

	Alone *AcceptanceEndedAlone `json:"by_itself,omitempty"` // by the sequential test of this clause alone; nil if it has none, or it is not asked for
}

// AcceptanceCount is a figure of a test, and its limit, as whole numbers.
type AcceptanceCount struct {
	Count  Number `json:"count"`
	Most   Number `json:"at_most"` // that the limit allows in so many pieces
	Pieces Number `json:"pieces"`  // sets started, or envelopes delivered
}

// answer returns what was found.
func (t *acceptanceTest) answer() *AcceptanceAnswer {
	good, bad := t.sides[0], t.sides[1]
	plan := sim.Plan{Seed: t.Plan.Seed, Min: t.Plan.Max, Max: t.Plan.Max}
	a := &AcceptanceAnswer{
		Settings: SettingsOf(plan, t.Plan.Max, sim.AtMost), Basis: basisOf(OnMeans, t.lines()...),
		Seller: Number(t.Risks.Seller), Buyer: Number(t.Risks.Buyer),
		Hours: Number(t.length / 3600), Given: t.given(), Between: t.bounds, Planned: t.planned, Asked: t.Demand > 0, Shift: Number(good.line.Shift / 3600), Spread: good.line.SpreadGiven(), Begins: good.line.Begins.String(),
		Speed: Number(good.line.RunSpeed()), Crew: good.line.Crew,
		Good: t.lineAnswer(0), Bad: t.lineAnswer(1),
		Curve: t.curve, NoWay: t.why, Drawn: t.drawn, LongRun: t.longRun, Material: t.material, Stages: t.stages, NoStages: t.noStages,
	}
	if t.written.N > 0 {
		a.Written = new(MeanOf(t.written))
	}
	a.Clauses = append(a.Clauses, t.rateClause(a))
	for _, levels := range t.Clauses {
		a.Clauses = append(a.Clauses, t.clause(levels, a))
	}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		c.Anew = t.anew() && c.NoTest == "" && !c.Asked && (c.Of != AcceptanceRate || !a.Asked || t.otherHours())
	}
	a.FailsAny = wrongly(good.times(func(x *tested) bool { return !passesAll(a.Clauses, x) }))
	a.PassesAll = wrongly(bad.times(func(x *tested) bool { return passesAll(a.Clauses, x) }))
	if t.stages != nil && len(a.Clauses) > 1 {
		t.allInStages(a)
	}
	a.Struck = t.struckOut()
	if t.Result != nil {
		a.Result = t.verdict(a)
	}
	return a
}

// anew reports whether limits that no contract gives are not those of a plan, since the test that was run
// took other hours, or its hours are all that is known of the plan.
func (t *acceptanceTest) anew() bool {
	return t.planned != nil || t.Result != nil && t.Demand > 0 && t.Hours == 0
}

func (t *acceptanceTest) lineAnswer(i int) AcceptanceLine {
	s := t.sides[i]
	hours := float64(t.length) / 3600
	rates := s.figures(AcceptanceRate)
	for k := range rates {
		rates[k] /= hours
	}
	l := AcceptanceLine{Name: t.Names[i], Asked: t.asked(i), Faults: Number(s.faults), NetRate: MeanOf(rates.Interval(Level))}
	for _, x := range s.tests {
		l.Sets += Number(x.Sets) / Number(len(s.tests))
		l.Stops += Number(x.Stops) / Number(len(s.tests))
	}
	return l
}

// times counts the tests that are so.
func (s *side) times(so func(*tested) bool) accept.Wrong {
	w := accept.Wrong{Of: int64(len(s.tests))}
	for i := range s.tests {
		if so(&s.tests[i]) {
			w.Times++
		}
	}
	return w
}

// wrongly returns a risk with its exact interval.
func wrongly(w accept.Wrong) Proportion {
	low, high := w.Interval(Level)
	return Proportion{Number(w.Share()), Number(low), Number(high), Level}
}

// struckOut returns what striking out the worst hours does.
func (t *acceptanceTest) struckOut() AcceptanceStruck {
	least := t.rate.Least
	return AcceptanceStruck{
		Hours:  int(float64(t.length/acceptanceWindow)+1e-9) / struckEach,
		Seller: wrongly(t.sides[0].times(func(x *tested) bool { return x.worst < least })),
		Buyer:  wrongly(t.sides[1].times(func(x *tested) bool { return x.worst >= least })),
	}
}
