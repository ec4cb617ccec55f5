package study

import (
	"cmp"
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/portable"
)

// AcceptanceShifts is a test that was run in other shifts than those of its plan, by the rows of its counts: more of
// them, or longer ones. Each begins anew, with full hoppers if the file says so, and has a day of its own; so that
// lines deliver something else in as many hours.
//
// Its verdict stands as long as such shifts make the risk of that very verdict no larger than was agreed: to refuse
// every test of which a shift ended early would cost both sides a test and help neither. Where they do make it
// larger, a buyer who has to take a line, or a seller who has it sent back, would bear what nobody signed: then the
// clause is not judged.
type AcceptanceShifts struct {
	Planned  int    `json:"planned"`
	Rows     int    `json:"rows"`
	Shortest Number `json:"shortest_h"` // of the rows
	Longest  Number `json:"longest_h"`
	Unknown  bool   `json:"unknown,omitempty"` // the rows are no shifts, but sums of several

	Risks *AcceptanceShiftRisks `json:"risks,omitempty"` // nil where the shifts are not known, or the demand decides nothing
}

// AcceptanceShiftRisks are the risks by the limits of a test if it is run in other shifts.
type AcceptanceShiftRisks struct {
	Seller    Proportion `json:"good_line_fails"` // by the net rate
	Buyer     Proportion `json:"bad_line_passes"`
	FailsAny  Proportion `json:"good_line_fails_any_clause"`
	PassesAll Proportion `json:"bad_line_passes_all_clauses"`
}

// How much longer or shorter than planned a row may be, as a share of a shift, and how many there may be, to be taken
// for shifts.
const (
	shiftOff = 0.05
	rowsMost = 500
)

// shiftsOfRows compares the rows of the counts with the shifts of the plan; nil where they are the same.
func (t *acceptanceTest) shiftsOfRows() *AcceptanceShifts {
	rows := t.rows()
	slices.SortFunc(rows, func(a, b float64) int { return cmp.Compare(b, a) })
	if len(rows) == 0 {
		return nil
	}
	shift := float64(t.sides[0].line.Shift / 3600)
	planned := t.plannedShifts(shift, len(rows))
	off := func(planned, row float64) int {
		if math.Abs(planned-row) <= float64(shiftOff*shift) {
			return 0
		}
		return 1
	}
	if slices.CompareFunc(planned, rows, off) == 0 {
		return nil
	}
	return &AcceptanceShifts{
		Planned: len(planned), Rows: len(rows), Shortest: Number(rows[len(rows)-1]), Longest: Number(rows[0]),
		Unknown: rows[0] > hoursOfDay || len(rows) > rowsMost || len(rows) == 1 && rows[0] > float64((1+shiftOff)*shift),
	}
}

// rows returns the hours of the rows in which there are any.
func (t *acceptanceTest) rows() (all []float64) {
	for _, part := range t.Result.Parts {
		if part.Hours > 0 {
			all = append(all, part.Hours)
		}
	}
	return all
}

// plannedShifts returns how long the shifts of a test are, in hours, the longest first: of one that may end after each
// as many as there are rows.
func (t *acceptanceTest) plannedShifts(shift float64, rows int) (all []float64) {
	if t.Sequential {
		return slices.Repeat([]float64{shift}, rows)
	}
	hours := float64(t.length / 3600)
	for ; hours > shift+1e-6; hours -= shift {
		all = append(all, shift)
	}
	return append(all, hours)
}

// inTheirShifts runs tests of both lines in the shifts in which the test was run, if these are not those of the plan.
func (t *acceptanceTest) inTheirShifts(ctx context.Context) error {
	if t.Result == nil {
		return nil
	}
	if t.shifts = t.shiftsOfRows(); t.shifts == nil || t.shifts.Unknown || t.Sequential || t.otherHours() {
		return nil
	}
	each := t.rows()
	lengths, sum, left := make([]sim.Seconds, len(each)), portable.Sum(each), t.length
	for k, hours := range each {
		lengths[k] = max(1, sim.Seconds(math.Round(hours/sum*float64(t.length)))) // which are those of the test, within what clocks may be off
		left -= lengths[k]
	}
	last := &lengths[len(lengths)-1]
	if *last += left; !(*last > 0) {
		t.shifts.Unknown = true
		return nil
	}
	err := t.both(ctx, func(ctx context.Context, i int, line *model.Line) error {
		s := &side{line: line}
		t.inRows[i] = s
		trial := &runs.Trial{Line: line, Length: t.length, Window: t.length, Each: lengths}
		return t.try(ctx, trial, t.Plan.Max, func(r *runs.TrialRun) { s.tests = append(s.tests, testedOf(r)) })
	})
	t.refresh()
	return err
}

// shiftRisks returns the risks of a test in the shifts in which it was run; nil if they are those of the plan.
func (t *acceptanceTest) shiftRisks(a *AcceptanceAnswer) *AcceptanceShiftRisks {
	if t.inRows[0] == nil {
		return nil
	}
	good, bad := t.inRows[0], t.inRows[1]
	rate := &a.Clauses[0]
	return &AcceptanceShiftRisks{
		Seller:    wrongly(good.times(func(x *tested) bool { return !rate.Passes(x.figure(AcceptanceRate)) })),
		Buyer:     wrongly(bad.times(func(x *tested) bool { return rate.Passes(x.figure(AcceptanceRate)) })),
		FailsAny:  wrongly(good.times(func(x *tested) bool { return !passesAll(a.Clauses, x) })),
		PassesAll: wrongly(bad.times(func(x *tested) bool { return passesAll(a.Clauses, x) })),
	}
}

// Bears reports whether by the net rate it can be said that a line passes, or fails: whether such shifts leave the risk
// of that no larger than was asked for, or than it is by the plan, as far as the tests can tell.
func (r *AcceptanceShiftRisks) Bears(passes bool, a *AcceptanceAnswer) bool {
	c := &a.Clauses[0]
	if passes {
		return r.Buyer.Low <= max(a.Buyer, c.Buyer.High)
	}
	return r.Seller.Low <= max(a.Seller, c.Seller.High)
}
