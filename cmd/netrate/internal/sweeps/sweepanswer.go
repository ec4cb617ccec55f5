package sweeps

import (
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
)

// Answer returns what the sweep came to, on one screen.
func (s *sweep) Answer() string {
	first := s.Points[0].Study
	title := page.Headline(s.Name+": "+present.SweepPaths(s.SweepAnswer), first)
	return present.Screen(title, present.SweepFinding(s.SweepAnswer), present.SweepScreen(s.SweepAnswer)) +
		"\n" + page.Repeated(first, s.Basis, s.Again+s.flags())
}

// flags returns what must follow the command to vary the same.
func (s *sweep) flags() string { return asAsked(s.asked) }

// asAsked returns ranges as the command line has them.
func asAsked(ranges []string) string {
	var text strings.Builder
	for _, asked := range ranges {
		text.WriteString(" --vary " + desk.Quoted(asked))
	}
	return text.String()
}
