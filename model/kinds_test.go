package model

func isTrackGate(s Station) bool { _, ok := s.(*TrackGate); return ok }
func isExitGate(s Station) bool  { _, ok := s.(*ExitGate); return ok }
func isChannel(s Station) bool   { _, ok := s.(*Channel); return ok }

// kindIn returns the first station of one kind.
func kindIn[T Station](l *Line) (none T) {
	for _, s := range l.Stations {
		if s, ok := s.(T); ok {
			return s
		}
	}
	return none
}
