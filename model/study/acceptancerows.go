package study

import (
	"errors"
	"fmt"
	"math"

	"netrate/model"
)

// What in the counts of a test cannot be, row by row and in all: a sum hides a row that is wrong. What is possible and
// yet looks like a slip of the pen is said with the verdict, see [AcceptanceVerdict].

// fasterByClock is by how much more than its speed a line may seem to deliver, and operators to clear, since hours are
// read off a clock.
const fasterByClock = 1.02

// hoursOfDay is longer than any shift.
const hoursOfDay = 24

// canBe returns what in the counts of a test cannot be.
func (q *Acceptance) canBe() error {
	r := q.Result
	if r == nil {
		return nil
	}
	var errs []error
	for i := range r.Parts {
		if err := q.countsOf(&r.Parts[i]); err != nil {
			errs = append(errs, impossible("row %d of the counts: %v", i+1, err))
		}
	}
	if errs == nil {
		errs = append(errs, q.countsOf(r), q.longRow())
	}
	return errors.Join(errs...)
}

// longRow returns an error if a row is longer than a day, and another no longer than a shift: it is the sum of several,
// or 75 was written for 7.5.
func (q *Acceptance) longRow() error {
	shift, long, short := float64(shiftwork(q.Good).Shift)/3600, -1, false
	for i, x := range q.Result.Parts {
		if x.Hours > hoursOfDay && x.Hours > float64(3*shift) && long < 0 {
			long = i
		}
		short = short || x.Hours <= fasterByClock*shift
	}
	if long < 0 || !short {
		return nil
	}
	return impossible("row %d of the counts is of %g h, and another is of a shift of %g h or less: want a row for each shift", long+1, q.Result.Parts[long].Hours, shift)
}

// countsOf returns what cannot be of counts in some hours; those that are negative were not counted.
func (q *Acceptance) countsOf(r *AcceptanceResult) error {
	lines := []*model.Line{q.Good}
	if q.Bad != nil {
		lines = append(lines, q.Bad)
	}
	speed, crew, reach := 0.0, 0, 0
	for _, l := range lines {
		speed, crew, reach = max(speed, l.RunSpeed()), max(crew, l.Crew.Most()), max(reach, l.Stations[len(l.Stations)-1].Where().At+1)
	}
	if shift := float64(shiftwork(q.Good).Shift) / 3600; !q.Good.Begins.Track && r.Hours > shift/2 {
		reach = 0 // a shift begins with an empty track; a part of one may deliver what was started before
	} else if q.Good.Begins.Track {
		reach = math.MaxInt32 // as many as are found there, in each shift
	}
	out, cleared := r.Good+max(r.Defective, 0), r.Clearing
	left := out + max(r.TakenOut, 0)
	switch most := float64(fasterByClock * speed * r.Hours); {
	case r.Sets >= 0 && out > r.Sets+float64(reach):
		return impossible("%.0f envelopes were delivered of %.0f sets started: no more can be", out, r.Sets)
	case r.Sets >= 0 && left > r.Sets+float64(reach):
		return impossible("%.0f envelopes were delivered and %.0f sets diverted or outsorted, of %.0f sets started: no more can be", out, r.TakenOut, r.Sets)
	case r.Good > most && r.Hours > 0:
		return impossible("%.0f good envelopes in %g h are %.0f an hour, and the line of the file runs %.0f cycles an hour at most", r.Good, r.Hours, r.Good/r.Hours, speed)
	case out > most || r.Sets > most+float64(reach):
		return impossible("%.0f sets and %.0f envelopes in %g h are more than the line of the file has cycles, which are %.0f an hour at most", max(r.Sets, 0), out, r.Hours, speed)
	case cleared > 0 && r.Stops == 0:
		return impossible("%g s were spent on clearing, and no fault stopped the line", cleared)
	case cleared > fasterByClock*3600*r.Hours*float64(crew):
		return impossible("%.0f s were spent on clearing in %g h, and %s at work no more than %.0f", cleared, r.Hours, operatorsAre(crew), 3600*r.Hours*float64(crew))
	}
	return nil
}

func operatorsAre(n int) string {
	if n == 1 {
		return "1 operator is"
	}
	return fmt.Sprintf("%d operators are", n)
}
