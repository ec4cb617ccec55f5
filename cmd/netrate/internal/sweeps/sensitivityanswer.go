package sweeps

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// Answer returns what was found, on one screen unless all is asked for.
func (s *sensitivity) Answer() string {
	shown := len(s.Effects)
	if !s.all {
		shown = min(shown, present.ShownEffects)
	}
	title := page.Headline(s.Name+": what matters", s.Base)
	return present.Screen(title, present.SensitivityFinding(s.SensitivityAnswer), present.SensitivityTable(s.SensitivityAnswer, shown)) +
		"\n" + page.Repeated(s.Base, s.Basis, s.command())
}

func (s *sensitivity) command() string {
	if s.Factor == study.SensitivityFactor {
		return s.Again
	}
	f := factor(s.Factor)
	return s.Again + " --factor " + f.String()
}
