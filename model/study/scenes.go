package study

import "netrate/model/runs"

// Scenes is a line at its work as somebody beside it would see it, which no mean shows. Pictures
// are drawn of it.
type Scenes struct {
	Product     string             `json:"job,omitempty"`          // for which the line is set up, if it has yearly volumes of several
	Settling    []SettlingMean     `json:"settling,omitempty"`     // nil of draws of what is uncertain
	Course      *CourseAnswer      `json:"course,omitempty"`       // nil if the work is a number of sets
	MedianShift *MedianShiftAnswer `json:"median_shift,omitempty"` // nil if the work is a number of sets
	Incident    *IncidentAnswer    `json:"incident,omitempty"`     // nil if no stream of the line can come out of step
}

// ScenesOf returns a line at its work: once, or at each job that has a yearly volume, in their
// order.
func ScenesOf(s *runs.Study) ([]Scenes, error) {
	if s.Jobs() == nil {
		x, err := scenes(s)
		return []Scenes{x}, err
	}
	var all []Scenes
	for _, j := range s.Jobs() {
		x, err := scenes(j.Study)
		if err != nil {
			return nil, err
		}
		x.Product = j.Study.Line.Name
		all = append(all, x)
	}
	return all, nil
}

func scenes(s *runs.Study) (x Scenes, err error) {
	x.Settling = settling(s)
	if IncidentLane(s.Line) >= 0 {
		if x.Incident, err = (Incident{Line: s.Line}).Ask(); err != nil {
			return x, err
		}
	}
	if s.Line.Job.Sets > 0 {
		return x, nil
	}
	if x.Course, err = (Course{Study: s}).Ask(); err != nil {
		return x, err
	}
	x.MedianShift, err = MedianShift{Study: s}.Ask()
	return x, err
}
