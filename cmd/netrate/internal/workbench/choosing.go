package workbench

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
)

// optionalShown is what is optional in a plan, as switches.
type optionalShown struct {
	Items []optionalItem
	Sum   string // what those that are chosen cost together
}

type optionalItem struct {
	Name, Price string
	Chosen      bool
}

// optionalOf returns the switches of a plan; none where nothing is optional.
func optionalOf(sc *scenarios.Scenario, chosen []string) string {
	var x optionalShown
	sum := 0.0
	for _, s := range sc.Plan.Staffed {
		if !s.Optional {
			continue
		}
		_, prices, err := sc.Plan.ChosenNamed([]string{s.Name})
		if err != nil || len(prices) != 1 {
			continue
		}
		item := optionalItem{s.Name, priceOf(prices[0]), slices.Contains(chosen, s.Name)}
		if item.Chosen {
			sum += prices[0].All()
		}
		x.Items = append(x.Items, item)
	}
	if x.Items == nil {
		return ""
	}
	x.Sum = "Nothing is chosen"
	if len(chosen) > 0 {
		x.Sum = "Together " + say.Rounded(sum, 0)
	}
	return region("optional", x)
}

// serviceAskOf returns where it is asked what is worth choosing; nothing where nothing is optional.
func serviceAskOf(sc *scenarios.Scenario) string {
	if !asksOf(sc).Optional {
		return ""
	}
	return region("serviceask", nil)
}

// priceOf says what an item costs that is chosen.
func priceOf(p seasons.Price) string {
	switch {
	case p.Each == 0:
		return "by its hours"
	case p.Per == "":
		return say.Rounded(p.Each, 0)
	}
	return fmt.Sprintf("%s: %s at %s", say.Rounded(p.All(), 0), say.Plural(p.Times, string(p.Per)), say.Exact(p.Each))
}

// stillOptional returns those of some names that are of something optional in a plan, in the order of the plan.
func stillOptional(sc *scenarios.Scenario, names []string) (still []string) {
	for _, s := range sc.Plan.Staffed {
		if s.Optional && slices.Contains(names, s.Name) {
			still = append(still, s.Name)
		}
	}
	return still
}

// choose says what of the optional in the plan is in force, by names.
func (w *work) choose(op Op) (done, error) {
	sc, err := w.load()
	switch {
	case err != nil:
		return done{}, errors.New("the text is no scenario yet: mend it first")
	case sc.Plan == nil:
		return done{}, errors.New("the text has no plan")
	}
	if _, _, err := sc.Plan.ChosenNamed(op.Choices); err != nil {
		return done{}, err
	}
	chosen := stillOptional(sc, op.Choices)
	d, err := w.stepWith(w.text, "", beside{Chosen: &chosen})
	if d.said = "Nothing that is optional is chosen."; len(chosen) > 0 {
		d.said = say.Capital(say.List(chosen)) + map[bool]string{true: " is", false: " are"}[len(chosen) == 1] + " chosen. The plan is made with that."
	}
	return d, err
}

// without says what a plan with something chosen is like without; "" where nothing is, or that is not known yet.
func without(s present.Plans) string {
	x := &s.Plans[0]
	i := slices.IndexFunc(s.Plans, func(y study.PlansPlan) bool { return y.Name == scenarios.BaseName })
	if len(x.Chosen) == 0 || i < 0 {
		return ""
	}
	return s.Without(x, &s.Plans[i])
}

// optionalNames returns the choice of a plan that was found for a service, as the switches take it, and whether it is of
// whole items: its name says of which days it is otherwise.
func optionalNames(x *study.PlansPlan) (names []string, whole bool) {
	return x.Chosen, len(x.Chosen) == 0 || x.Name == "with "+strings.Join(x.Chosen, ", ")
}
