package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// leastStrategies is how many strategies are shown at least.
const leastStrategies = 5

// StrategiesText returns what was found of the strategies of a scenario, on one screen unless they
// take many words; command does it again, up to the seed.
func StrategiesText(a *study.StrategiesAnswer, scenario, command string) string {
	own := a.Own().Study
	above := page.Headline(scenario+": "+strategies(len(a.Strategies)), own) + "\n\n" + say.Wrapped(StrategiesFinding(a), say.Screen) + "\n"
	below := "\n" + say.Wrapped(strategiesOtherwise(a)+strategiesSources(a), say.Screen) + say.Wrapped(strategiesDropped(a), say.Screen) + "\n" + page.Repeated(own, command)
	room := say.ScreenLines - strings.Count(above+below, "\n") - 2 // the heading and the legend
	return above + strategiesRows(a, max(leastStrategies, room)) + below
}

// strategiesRows returns a row for each strategy that is shown, at most so many.
func strategiesRows(a *study.StrategiesAnswer, most int) string {
	var b strings.Builder
	remakes := a.Line.Personalised()
	row := func(mark, name, rate, gain, ppm, remade, words string) {
		line := mark + name
		line += strings.Repeat(" ", max(0, 6-len([]rune(line)))) + say.Right(rate, 15) + say.Right(gain, 15) + say.Right(ppm, 9)
		if remakes {
			line += say.Right(remade, 9)
		}
		line += "  "
		b.WriteString(strings.TrimRight(line+say.Shortened(words, say.Screen-len([]rune(line))), " ") + "\n")
	}
	row("", "", "net rate", "to own", "ppm bad", "‰ remade", "answers otherwise")
	for _, i := range strategiesShown(a, most) {
		x := &a.Strategies[i]
		e, gain, words := x.Study.NetRates().Interval(say.Level), "", x.Otherwise
		if i == 0 {
			words = "as the file has it"
		} else {
			gain = say.Gap(a.Pairs[0][i].Difference)
		}
		row(strategiesMark(a, i), x.Name, say.PlusMinus(say.Measured(e.Mean, e.Half)), gain, riskText(&x.Defective), say.FewDigits(x.Remade()), words)
	}
	return b.String() + strategiesLegend(len(a.Strategies)-most)
}

// strategiesLegend says what the marks are, and how many strategies are not shown.
func strategiesLegend(more int) string {
	text := "> best  = may be as good  ^ not within the limit"
	if more > 0 {
		text += fmt.Sprintf("; %s more: --csv, --report", say.Thousands(more))
	}
	return text + "\n"
}

// strategiesMark returns what a strategy is.
func strategiesMark(a *study.StrategiesAnswer, i int) string {
	switch {
	case !a.Strategies[i].Within:
		return "^ "
	case i == a.Leader:
		return "> "
	case slices.Contains(a.AsGood, i):
		return "= "
	}
	return "  "
}

// strategiesShown returns the strategies for which there is room: the line's own, the best and its
// rivals, then those on a frontier, and of more an even choice, from the least risk to the
// most.
func strategiesShown(a *study.StrategiesAnswer, most int) []int {
	some := []int{0}
	add := func(i int) {
		if !slices.Contains(some, i) && len(some) < most {
			some = append(some, i)
		}
	}
	add(a.Leader)
	for _, i := range a.AsGood[:min(len(a.AsGood), 2)] {
		add(i)
	}
	var leading []int
	for i, x := range a.Strategies {
		if (x.Frontier || x.Saving && a.Line.Personalised()) && !slices.Contains(some, i) {
			leading = append(leading, i)
		}
	}
	if room := most - len(some); len(leading) > room && room > 1 {
		for _, k := range page.Thinned(len(leading), room, 0) {
			add(leading[k])
		}
	}
	for _, i := range leading {
		add(i)
	}
	for i := range a.Strategies {
		add(i)
	}
	slices.Sort(some)
	return some
}

func strategies(n int) string {
	if n == 1 {
		return "1 strategy"
	}
	return say.Thousands(n) + " strategies"
}
