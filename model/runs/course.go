package runs

import (
	"errors"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Course is what a line delivers in the course of its shift: the shift cut into windows of
// equal length.
type Course struct {
	Window sim.Seconds
	Rates  []sim.Sample // of each window: good envelopes an hour, shift by shift
}

// Windows are of half an hour, as nearly as the shift can be cut into them, unless that makes too
// few or too many to be looked at.
const (
	usualWindow   = sim.Seconds(1800)
	fewestWindows = 4
	mostWindows   = 96
)

// courseShifts is how many shifts a study keeps the course of, the first ones. It does so whether
// it is asked or not: it costs a hundredth of these shifts, and running them once more costs all.
const courseShifts = 200

// Course returns the course of the first shifts, 200 of them at most. It is an error of a study
// that has none: of no shifts, of a job, or of several lines or jobs together.
func (s *Study) Course() (*Course, error) {
	ends := windows(s.Line)
	if len(s.course) == 0 || len(ends) == 0 {
		return nil, errors.New("the course of a line is that of shifts of one line, of one at least")
	}
	c := &Course{Window: ends[0], Rates: make([]sim.Sample, len(ends))}
	for good := range slices.Chunk(s.course, len(ends)) {
		before := int64(0)
		for i, delivered := range good {
			c.Rates[i] = append(c.Rates[i], float64(delivered-before)*3600/float64(c.Window))
			before = delivered
		}
	}
	return c, nil
}

// windows returns when the windows of a shift end; none of a job.
func windows(l *model.Line) []sim.Seconds {
	if l.Job.Sets > 0 {
		return nil
	}
	n := min(max(fewestWindows, int(math.Round(min(float64(l.Shift/usualWindow), mostWindows)))), mostWindows)
	ends := make([]sim.Seconds, n)
	for i := range ends {
		ends[i] = l.Shift * sim.Seconds(i+1) / sim.Seconds(n)
	}
	ends[n-1] = l.Shift // not a little more or less
	return ends
}

// replication is what one replication of a line came to.
type replication struct {
	model.Outcome
	course  []int64 // good sets delivered by the end of each window; empty if it is not kept
	shift   Shift   // its figures, if they are worked out
	figured bool
}

// ready is a line that is ready to run.
type ready struct {
	*model.Sim
	windows []sim.Seconds
}

func newReady(l *model.Line) (ready, error) {
	s, err := model.New(l)
	return ready{s, windows(l)}, err
}

// run runs one replication into r, and keeps its course if it is one of the first.
func (x ready) run(seed uint64, number int, r *replication) error {
	r.course = r.course[:0]
	if number >= courseShifts || len(x.windows) == 0 {
		return x.Run(seed, number, &r.Outcome)
	}
	r.course = slices.Grow(r.course, len(x.windows))[:len(x.windows)]
	return x.Course(seed, number, x.windows, r.course, &r.Outcome)
}

// figure works out the figures of a replication of a line: beside others, as it is not where it is
// taken in.
func (r *replication) figure(l *model.Line) { r.shift, r.figured = shiftOf(l, &r.Outcome), true }

// take takes in one more replication.
func (s *Study) take(r *replication) {
	r.figure(s.Line)
	s.takeFigured(r)
}

// takeFigured takes in one more replication, whose figures are worked out unless it was recorded.
func (s *Study) takeFigured(r *replication) float64 {
	if !r.figured {
		r.figure(s.Line)
	}
	s.course = append(s.course, r.course...)
	return s.add(r.shift, &r.Outcome)
}
