package sweeps

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// widestLever is how much room the screen has for what is moved.
const widestLever = 36

// Answer returns what was found, on one screen unless all is asked for.
func (s *sensitivity) Answer() string {
	var b strings.Builder
	b.WriteString(page.Headline(s.Name+": what matters", s.Base) + "\n\n")
	b.WriteString(say.Wrapped(present.SensitivityFinding(s.SensitivityAnswer), say.Screen) + "\n")
	b.WriteString(s.rows())
	b.WriteString("\n" + page.Repeated(s.Base, s.command()))
	return b.String()
}

func (s *sensitivity) command() string {
	if s.Factor == study.SensitivityFactor {
		return s.Again
	}
	f := factor(s.Factor)
	return s.Again + " --factor " + f.String()
}

// rows returns a row for each effect: the lever as it is, and what moving it gains.
func (s *sensitivity) rows() string {
	effects := s.Effects
	if !s.all {
		effects = effects[:min(len(effects), present.ShownEffects)]
	}
	width, now := 0, 10
	for _, x := range effects {
		now = max(now, 1+utf8.RuneCountInString(x.Value))
	}
	room := say.Screen - 2*16 - now - 2 // for the name
	for _, x := range effects {
		width = max(width, min(widestLever, room, utf8.RuneCountInString(x.Name)))
	}
	for _, x := range s.Kinds {
		width = max(width, min(room, utf8.RuneCountInString(x.Name)))
	}
	var b strings.Builder
	row := func(name, value, lower, higher string) {
		fmt.Fprintf(&b, "%-*s %s%s%s\n", width, say.Shortened(name, width), say.Right(value, now), say.Right(lower, 16), say.Right(higher, 16))
	}
	lower, higher := present.SensitivityHeadings(s.SensitivityAnswer)
	row("", "now", lower, higher)
	for _, x := range effects {
		row(x.Name, x.Value, present.SensitivityGain(&x.Lower), present.SensitivityGain(&x.Higher))
	}
	text := "Good envelopes an hour, 95 %, all at once; ~ nothing is shown."
	if rest := len(s.Effects) - len(effects); rest > 0 {
		text += fmt.Sprintf(" %d more with --all.", rest)
	}
	if len(s.Kinds) > 0 {
		b.WriteString("\n")
	}
	for _, x := range s.Kinds {
		row(x.Name, "", present.SensitivityGain(&x.Lower), present.SensitivityGain(&x.Higher))
	}
	b.WriteString(say.Wrapped(text, say.Screen))
	return b.String()
}
