package model

func isTrackGate(s Station) bool { _, ok := s.(*TrackGate); return ok }
func isExitGate(s Station) bool  { _, ok := s.(*ExitGate); return ok }
