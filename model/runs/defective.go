package runs

import "netrate/model"

// Escapes returns what is let through in the shifts of the study: see [Line.Escapes].
func (s *Study) Escapes() model.Escapes {
	return s.Line.Escapes(&s.Total, max(int64(len(s.Shifts)), s.Total.Job.Passes))
}
