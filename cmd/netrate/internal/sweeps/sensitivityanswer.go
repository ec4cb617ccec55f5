package sweeps

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// shownEffects is how many effects the screen shows.
const (
	shownEffects = 15
	widestLever  = 36
)

// Answer returns what was found, on one screen unless all is asked for.
func (s *sensitivity) Answer() string {
	var b strings.Builder
	b.WriteString(page.Headline(s.Name+": what matters", s.Base) + "\n\n")
	b.WriteString(say.Wrapped(s.finding(), say.Screen) + "\n")
	b.WriteString(s.rows())
	b.WriteString("\n" + page.Repeated(s.Base, s.command()))
	return b.String()
}

func (s *sensitivity) command() string {
	if s.Factor == 2 {
		return s.Again
	}
	f := factor(s.Factor)
	return s.Again + " --factor " + f.String()
}

// finding returns which lever is worth most, in a sentence or two.
func (s *sensitivity) finding() string {
	if len(s.Effects) == 0 {
		return "This scenario has no rate and no time that is not zero."
	}
	if len(s.Base.Shifts) < 2 {
		return "One " + page.Period(s.Base.Line) + " alone does not say how far these effects may be off."
	}
	e := s.Base.NetRates().Interval(say.Level)
	rate := say.PlusMinus(say.Measured(e.Mean, e.Half))
	best := s.Effects[0]
	if d := best.Lower.NetRate.Difference; best.Lower.Impossible == nil && d.Low() > 0 {
		rank, rivals := "is worth most", s.rivals()
		if rivals != "" {
			rank = "leads"
		}
		return fmt.Sprintf("%s %s %s: %s good envelopes an hour, on %s.%s %s",
			s.dividing(), owned(best.Levers[0]), rank, gain(d), rate, rivals, s.mattering())
	}
	return fmt.Sprintf("%s any single rate or time is not shown to gain anything, on %s good envelopes an hour.", s.dividing(), rate)
}

// dividing returns the word for dividing by the factor.
func (s *sensitivity) dividing() string {
	if s.Factor == 2 {
		return "Halving"
	}
	return "Dividing by " + say.Exact(s.Factor)
}

// rivals returns how many others may be worth as much as the first.
func (s *sensitivity) rivals() string {
	var names []string
	for _, x := range s.Effects {
		if x.Rival {
			names = append(names, owned(x.Levers[0]))
		}
	}
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return " Not shown to be worth less: " + names[0] + "."
	default:
		return fmt.Sprintf(" %d others are not shown to be worth less.", n)
	}
}

// mattering returns how many levers are shown to change anything.
func (s *sensitivity) mattering() string {
	n := 0
	for _, x := range s.Effects {
		if say.Differs(x.Lower.NetRate.Difference) || say.Differs(x.Higher.NetRate.Difference) {
			n++
		}
	}
	return fmt.Sprintf("%d of %d rates and times are shown to matter.", n, len(s.Effects))
}

// rows returns a row for each effect: the lever as it is, and what moving it gains.
func (s *sensitivity) rows() string {
	effects := s.Effects
	if !s.all {
		effects = effects[:min(len(effects), shownEffects)]
	}
	width, now := 0, 10
	for _, x := range effects {
		now = max(now, 1+utf8.RuneCountInString(x.Levers[0].Value))
	}
	room := say.Screen - 2*16 - now - 2 // for the name
	for _, x := range effects {
		width = max(width, min(widestLever, room, utf8.RuneCountInString(effectName(x))))
	}
	for _, x := range s.Kinds {
		width = max(width, min(room, utf8.RuneCountInString(effectName(x))))
	}
	var b strings.Builder
	row := func(name, value, lower, higher string) {
		fmt.Fprintf(&b, "%-*s %s%s%s\n", width, say.Shortened(name, width), say.Right(value, now), say.Right(lower, 16), say.Right(higher, 16))
	}
	lower, higher := s.headings()
	row("", "now", lower, higher)
	for _, x := range effects {
		row(effectName(x), x.Levers[0].Value, moveWords(x.Lower), moveWords(x.Higher))
	}
	text := "Good envelopes an hour, 95 %, all at once; ~ nothing is shown."
	if rest := len(s.Effects) - len(effects); rest > 0 {
		text += fmt.Sprintf(" %d more with --all.", rest)
	}
	if len(s.Kinds) > 0 {
		b.WriteString("\n")
	}
	for _, x := range s.Kinds {
		row(effectName(x), "", moveWords(x.Lower), moveWords(x.Higher))
	}
	b.WriteString(say.Wrapped(text, say.Screen))
	return b.String()
}

// headings returns the words for being divided and multiplied by the factor.
func (s *sensitivity) headings() (lower, higher string) {
	if s.Factor == 2 {
		return "halved", "doubled"
	}
	return "÷ " + say.Exact(s.Factor), "× " + say.Exact(s.Factor)
}

// moveWords returns what a move gains.
func moveWords(m model.Move) string {
	if m.Impossible != nil {
		return "cannot be"
	}
	return shownGain(m.NetRate.Difference)
}

// leverWords are the levers in the words of the trade, by their names in scenario files.
var leverWords = map[string]string{
	"line.restart": "restart delay", "crew.walk": "walking time",
	"misfeed": "misfeeds", "double": "doubles", "jam": "jams", "false_calls": "false calls",
	"streak.again": "misfeeds after a misfeed", "clear": "clearing time",
	"envelope_misfeed": "envelope misfeeds", "flap": "shut flaps",
	"no_read": "no-reads", "false_alarm": "false alarms", "stream.realign": "realigning time",
	"hopper.refill": "refilling time", "bin.empty": "emptying time", "belt.sweep": "sweeping time",
}

func leverWord(v model.Lever) string {
	if word := leverWords[v.Name]; word != "" {
		return word
	}
	return v.Name
}

// effectName returns what is moved: "inserter, jams", "restart delay" or "all 7 jams".
func effectName(x model.Effect) string {
	switch v := x.Levers[0]; {
	case x.Kind != "":
		return "all " + say.Thousands(len(x.Levers)) + " " + x.Kind
	case v.Station == "":
		return leverWord(v)
	default:
		return v.Station + ", " + leverWord(v)
	}
}

// owned returns a lever as part of a sentence: "the inserter's jams".
func owned(v model.Lever) string {
	switch v.Station {
	case "":
		return "the " + leverWord(v)
	default:
		return "the " + v.Station + "'s " + leverWord(v)
	}
}
