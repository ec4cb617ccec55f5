package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/accept"
)

// Acceptance asks how a test tells a good line, which is as promised, from a bad one, which is just
// unacceptable: how long it must run, what it must deliver, and how often it decides wrongly.
//
// The test is worked in shifts of the good line, one after the other. The two lines are simulated
// as they are written: with their crews, and with what the beginning and the end of each shift cost.
// What is uncertain is taken at its mean, and drawn besides.
type Acceptance struct {
	Good, Bad    *model.Line // Bad is nil where both are made of Good
	Names        [2]string   // what the two are called
	Promised     float64     // where Bad is nil: the net rates of the two, good envelopes an hour
	Unacceptable float64
	Risks        accept.Risks
	Hours        float64            // of the test as planned; 0 for as many as it takes
	Demand       float64            // good envelopes that a test of these hours, or of those of the result, must deliver; 0 to choose
	Clauses      []AcceptanceLevels // beside that of the net rate
	Stages       *accept.Stages     // with Sequential: the limits of a contract, good envelopes after each shift; nil to choose
	Sequential   bool               // plan a test of the net rate besides that may end after each shift; it is that which a result is of
	Result       *AcceptanceResult  // what was seen in a test; nil if there was none
	Plan         sim.Plan           // Max is the number of tests that are simulated, of each line
}

// AcceptanceLevels is a clause of a test, and the levels between which it decides.
type AcceptanceLevels struct {
	Of        AcceptanceFigure
	Good, Bad float64 // in the unit of the figure; 0 for those of the two lines
	Limit     float64 // of a contract, in the same unit; 0 to choose
}

// AcceptanceFigure is what a clause is about.
type AcceptanceFigure int

// The figures, in the order in which their clauses stand.
const (
	AcceptanceRate      AcceptanceFigure = iota // good envelopes an hour: at least
	AcceptanceStops                             // stops for faults in 1,000 sets started: at most
	AcceptanceClearing                          // mean seconds to clear a fault, from the operator’s arrival: at most
	AcceptanceDefective                         // defective envelopes in a million delivered: at most
	AcceptanceTakenOut                          // sets taken out at a gate, diverted or outsorted, in 1,000 sets started: at most
)

// acceptanceWords are the figures as answers have them.
var acceptanceWords = [...]string{"net_rate", "stops", "clearing", "defective", "diverted"}

// MarshalText returns the word for the figure.
func (f AcceptanceFigure) MarshalText() ([]byte, error) { return []byte(acceptanceWords[f]), nil }

// AcceptanceResult is what was seen in a test. Figures that were not counted are negative.
type AcceptanceResult struct {
	Hours     float64 // worked, without what is excluded
	Good      float64 // envelopes
	Sets      float64 // started
	Stops     float64 // for faults
	Clearing  float64 // seconds, all faults together, from the operator’s arrival
	Defective float64 // envelopes
	TakenOut  float64 // sets diverted or outsorted
	Aside     int64   // stops of a log that are for no fault, and are not counted

	Until time.Time          // when it ended; zero if that is not said
	Parts []AcceptanceResult // that these are the sums of, one after the other; only a test that may end after each shift needs them
}

// AcceptanceImpossible is the error of a test that cannot be planned as it is asked for.
type AcceptanceImpossible struct{ Why string }

func (e *AcceptanceImpossible) Error() string { return e.Why }

func impossible(format string, args ...any) error {
	return &AcceptanceImpossible{fmt.Sprintf(format, args...)}
}

// AcceptanceShift is how long the shifts of a test are, in seconds, if the line’s work is a job.
const AcceptanceShift sim.Seconds = 8 * 3600

// AcceptanceReps is the usual number of simulated tests of each line.
const AcceptanceReps = 2000

// AcceptanceLeast is the least number of simulated tests: fewer show no risk to be small.
const AcceptanceLeast = 200

// Check returns what is wrong with the question itself.
func (q *Acceptance) Check() error {
	errs := []error{q.Risks.Check()}
	if q.Bad == nil && !(q.Unacceptable > 0 && q.Promised > q.Unacceptable && !math.IsInf(q.Promised, 0)) {
		errs = append(errs, impossible("promised are %g good envelopes an hour, and unacceptable %g: want more promised than unacceptable, and both above 0", q.Promised, q.Unacceptable))
	}
	if q.Plan.Max < AcceptanceLeast {
		errs = append(errs, impossible("%d tests of each line say too little of the risks, want at least %d", q.Plan.Max, AcceptanceLeast))
	}
	if !(q.Hours >= 0 && q.Hours <= acceptanceMost) {
		errs = append(errs, impossible("the test takes %g h, want more than 0 h and at most %d h", q.Hours, acceptanceMost))
	}
	if q.Sequential && (q.Hours > 0 || q.Demand > 0) {
		errs = append(errs, impossible("a test that may end after each shift takes as long as the risks demand, and its limits follow from these: neither hours nor a demand are given for it"))
	}
	if q.Sequential && q.Result != nil {
		errs = append(errs, q.partsRight())
	}
	if q.Demand != 0 && (!(q.Demand > 0) || math.IsInf(q.Demand, 0) || q.Hours == 0 && q.Result == nil) {
		errs = append(errs, impossible("%g good envelopes are demanded: want more than 0, and the hours in which", q.Demand))
	}
	if q.Stages != nil {
		errs = append(errs, q.stagesRight())
	}
	for _, c := range q.Clauses {
		if (c.Good != 0 || c.Bad != 0) && !(c.Good > 0 && c.Bad > c.Good && !math.IsInf(c.Bad, 0)) {
			errs = append(errs, impossible("%s of %g is good and of %g bad: want more of it to be bad, and both above 0", acceptanceWords[c.Of], c.Good, c.Bad))
		}
		if c.Limit != 0 && (!(c.Limit > 0) || math.IsInf(c.Limit, 0) || q.Hours == 0 && q.Result == nil) {
			errs = append(errs, impossible("the limit of %s is %g: want more than 0, and the hours of the test", acceptanceWords[c.Of], c.Limit))
		}
	}
	return errors.Join(append(errs, q.canBe())...)
}

// Ask plans the test. It calls told, if there is one, as the simulated tests are done. The answer is
// nil if ctx is done first: of half the tests no risk is known.
func (q *Acceptance) Ask(ctx context.Context, told func(Sofar[AcceptanceAnswer])) (*AcceptanceAnswer, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	t := newAcceptanceTest(q, told)
	for _, step := range []func(context.Context) error{t.makeLines, t.findLength, t.confirm, t.asItWas, t.inStages, t.inTheirShifts, t.withoutBadLots, t.alongTheCurve, t.drawInputs, t.drawWritten} {
		if err := step(ctx); err != nil {
			return nil, err
		}
		if ctx.Err() != nil {
			return nil, nil
		}
	}
	return t.answer(), nil
}

func newAcceptanceTest(q *Acceptance, told func(Sofar[AcceptanceAnswer])) *acceptanceTest {
	return &acceptanceTest{Acceptance: q, told: told, seed: q.Plan.Seed, fresh: acceptanceSearch}
}

// acceptanceTest is an acceptance test as it is planned.
type acceptanceTest struct {
	*Acceptance
	told     func(Sofar[AcceptanceAnswer])
	done     int
	sides    [2]*side // good and bad
	scale    float64  // how often the good line’s faults come on one that is as slow as the bad one; 0 if none is
	why      string   // if none is
	noStages string   // why no test in stages is planned, though one is asked for

	length   sim.Seconds
	bounds   *AcceptanceBetween // between what the shortest length lies; nil where none was looked for
	planned  *AcceptancePlanned // where a test took other hours
	pair     pair               // how the two lines are made, where they are
	written  sim.Estimate       // the net rate of the line of the file; of no shifts where that is one of the two
	longRun  *Interval          // of that line, with what is uncertain drawn; nil where nothing is
	rate     accept.Limit       // of the net rate, good envelopes in the test
	own      float64            // what that would be without a demand
	seed     uint64             // of the tests, see ofItsLength
	fresh    int                // the number of the next shift that had no part in what is known
	spent    int                // the one after the last that was run
	stages   *AcceptanceStages
	staged   accept.Stages     // by which these are
	tried    accept.Staged     // what they do
	ended    [2]*side          // its tests, up to where each of them ended
	shifts   *AcceptanceShifts // in which a test was run, if they are others than those of the plan
	inRows   [2]*side          // tests in these
	material *AcceptanceMaterial
	curve    []AcceptancePoint
	drawn    *AcceptanceDrawn
}

// side is one of the two lines, and its simulated tests.
type side struct {
	line   *model.Line // works for a shift; nothing of it is uncertain
	faults float64     // how often its faults come, as multiples of those of the line that it is made of
	tests  []tested
}

// ticked counts simulated tests.
func (t *acceptanceTest) ticked(n int) {
	t.done += n
	if t.told != nil {
		most := t.most()
		t.told(Sofar[AcceptanceAnswer]{Done: min(t.done, most), Most: most})
	}
}

// most returns about how many tests are simulated in all.
func (t *acceptanceTest) most() int {
	n := 5*t.Plan.Max + curvePoints*curveTests(t.Plan.Max)
	if t.Sequential {
		n += 4 * t.Plan.Max
	}
	return max(n, t.done)
}
