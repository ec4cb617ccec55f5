package scenarios

import (
	"slices"

	"netrate/model"
	"netrate/model/setup"
)

// work is what is simulated: a shift, or a job of a number of sets.
type work struct {
	Shift   *seconds  `yaml:"shift,omitempty" jsonschema_description:"length of one replication, such as 8 h; or give sets"`
	Sets    *sets     `yaml:"sets,omitempty" jsonschema_description:"a job: one replication works until this many sets are done"`
	Remakes *remakes  `yaml:"remakes,omitempty" jsonschema_description:"how the sets of a job that were not delivered good are made again; they are not if not given"`
	Begins  *begins   `yaml:"begins,omitempty" jsonschema_description:"what is there when a shift or a job begins: full hoppers and an empty track if not given"`
	Source  *sentence `yaml:"source,omitempty" jsonschema_description:"where the shift or the number of sets comes from"`
}

func (w *work) decode(r *reader, n *node, key string) {
	r.inside(n, key, w)
	shift, sets := hinted(n, "shift"), hinted(n, "sets")
	switch {
	case n.Kind != mappingNode: // noted
	case !shift && !sets:
		r.note(n, "%s has no shift and no sets: give a shift such as 8 h, or a number of sets", key)
	case shift && sets:
		r.note(n, "%s has sets as well as shift: give one of them", key)
	}
}

// job returns the job; the zero one for a shift.
func (w work) job() model.Job {
	j := w.Remakes.closing()
	j.Sets = int64(or(w.Sets, 0))
	return j
}

// remakes is one way to close the remakes of a job.
type remakes struct {
	SecondPass *secondPass `yaml:"second_pass,omitempty" jsonschema_description:"they are run on the line in a pass of their own, and so on until none is left"`
	ByHand     *rate       `yaml:"by_hand,omitempty" jsonschema_description:"they are made by hand once the line is done, at a number an hour such as 60/h"`
	Beside     *rate       `yaml:"beside,omitempty" jsonschema_description:"they are made by hand beside the line while it runs, from when the first is lost, by somebody who is not of the crew, at a number an hour such as 60/h"`
}

type secondPass struct {
	Setup *duration `yaml:"setup" jsonschema_description:"time from the end of a pass to the start of the next one, such as 10 min"`
}

func (m *remakes) decode(r *reader, n *node, key string) {
	r.inside(n, key, m)
	if r.spoilt(n) || len(n.Content) == 2 {
		return
	}
	r.note(n, "%s has %d ways to close them, want one: second_pass, by_hand or beside", key, len(n.Content)/2)
}

// closing returns how remakes are closed, in a job of no sets yet.
func (m *remakes) closing() (j model.Job) {
	switch way := or(m, remakes{}); {
	case way.SecondPass != nil:
		j.Closing, j.Setup = model.SecondPass, way.SecondPass.Setup.time()
	case way.Beside != nil:
		j.Closing, j.PerHour = model.Beside, float64(*way.Beside)
	case way.ByHand != nil:
		j.Closing, j.PerHour = model.ByHand, float64(*way.ByHand)
	}
	return j
}

// ofJobs returns how the remakes of jobs are closed that a line does one after the other: as work says, if
// it is nil.
func (m *remakes) ofJobs(s *Shop) model.Job {
	if lines := s.lines(); m == nil && len(lines) > 0 {
		j := lines[0].Job
		j.Sets = 0
		return j
	}
	return m.closing()
}

// idle notes, of remakes of an owner that is right otherwise, that none of the jobs can have any.
func (m *remakes) idle(r *reader, owner *node, s *Shop) {
	if m != nil && !r.spoilt(owner) && len(s.Products) > 0 && !slices.ContainsFunc(s.Products, (*setup.Product).Personalised) {
		r.note(child(owner, "remakes"), "remakes are of personalised sets, and none of the jobs has documents or a stream: nothing is made again")
	}
}

// sets is how many sets a job has.
type sets int64

func (x *sets) read(text string) error { return whole(x, text, 1, maxCount) }
func (*sets) number()                  {}
