package scenarios

// Place returns where in its file, from 1 on, a part of the scenario stands: the value of a key,
// or the entry of a list that goes by the last of some keys. Of what is not there it is the place
// of what it would be part of.
func (s *Scenario) Place(keys ...string) (line, column int) {
	at := s.tree
	for _, key := range keys {
		next := step(at, key)
		if next == nil {
			break
		}
		at = next
	}
	if at == nil { // made by a program
		return 1, 1
	}
	return at.Line, at.Column
}
