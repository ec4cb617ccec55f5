package desk

import (
	"errors"

	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
)

// SeasonsOf returns the seasons of one line of a scenario, each a copy: of the base and of its variants; none if it
// has none.
func SeasonsOf(s *scenarios.Scenario) (all []study.SeasonsConfiguration) {
	add := func(name string, changes []string, shop *scenarios.Shop) {
		if shop.Season == nil {
			return
		}
		own := *shop.Season
		all = append(all, study.SeasonsConfiguration{Name: name, Changes: changes, Season: &own, Costs: shop.Prices})
	}
	add(scenarios.BaseName, nil, &s.Shop)
	for i := range s.Variants {
		v := &s.Variants[i]
		add(v.Name, v.Changes, &v.Shop)
	}
	return all
}

// WrongSeason returns what is wrong with a season of a scenario, with the place of the first job that cannot be.
func WrongSeason(s *scenarios.Scenario, err error) error {
	at := []string{"season"}
	if unfit, is := errors.AsType[*seasons.Unfit](err); is {
		at = []string{"jobs", unfit.Product}
	}
	return WrongAt(s, at, "%v", err)
}
