package study

import (
	"errors"

	"netrate/model/runs"
	"netrate/sim"
)

// Course asks how a line delivers in the course of its shifts: their beginning, what they lose to
// stocks that run low together, their end.
type Course struct {
	Study *runs.Study // of shifts, one at least
}

// CourseAnswer is the rate of a line in each window of its shifts, all of one length.
type CourseAnswer struct {
	Shifts  int            `json:"shifts"` // that were looked at, the first
	Window  Number         `json:"window_s"`
	P5      Number         `json:"p5_per_h"` // of all windows together, good envelopes an hour
	P95     Number         `json:"p95_per_h"`
	Windows []CourseWindow `json:"windows"`
}

// CourseWindow is the rate in one window, good envelopes an hour, from shift to shift.
type CourseWindow struct {
	Middle Number `json:"middle_s"` // from the start of the shift
	P5     Number `json:"p5_per_h"`
	P25    Number `json:"p25_per_h"`
	P50    Number `json:"p50_per_h"`
	P75    Number `json:"p75_per_h"`
	P95    Number `json:"p95_per_h"`
}

// Ask returns the course. A job has none: that is an error.
func (q Course) Ask() (*CourseAnswer, error) {
	if q.Study == nil {
		return nil, errors.New("the course of no line is asked")
	}
	course, err := q.Study.Course()
	if err != nil {
		return nil, err
	}
	a := &CourseAnswer{Shifts: len(course.Rates[0]), Window: Number(course.Window)}
	var all sim.Sample
	for i, rates := range course.Rates {
		sorted := rates.Sorted()
		at := func(p float64) Number { return Number(sorted.Quantile(p)) }
		middle := (float64(i) + 0.5) * float64(course.Window)
		a.Windows = append(a.Windows, CourseWindow{Number(middle), at(0.05), at(0.25), at(0.5), at(0.75), at(0.95)})
		all = append(all, rates...)
	}
	sorted := all.Sorted()
	a.P5, a.P95 = Number(sorted.Quantile(0.05)), Number(sorted.Quantile(0.95))
	return a, nil
}
