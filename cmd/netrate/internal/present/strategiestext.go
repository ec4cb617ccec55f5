package present

import (
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
	title := page.Headline(scenario+": "+strategies(len(a.Strategies)), own)
	below := "\n" + say.Wrapped(strategiesOtherwise(a)+strategiesSources(a), say.Prose()) + pricesOnScreen(a) + say.Wrapped(strategiesDropped(a), say.Prose()) +
		"\n" + page.Repeated(own, a.Basis, command)
	for room := len(a.Strategies); ; room-- {
		text := Screen(title, StrategiesFinding(a), strategiesTable(a, strategiesShown(a, room), !a.Personalised())) + below
		if room <= leastStrategies || strings.Count(text, "\n") <= say.ScreenLines {
			return text
		}
	}
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
		if (x.Frontier || x.Saving && a.Personalised()) && !slices.Contains(some, i) {
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
