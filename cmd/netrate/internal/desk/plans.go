package desk

import (
	"errors"

	"netrate/model/seasons"
	"netrate/scenarios"
)

// WrongPlan returns what is wrong with a plan of a scenario, with the place of the first job that cannot be.
func WrongPlan(s *scenarios.Scenario, err error) error {
	at := []string{"plan"}
	if unfit, is := errors.AsType[*seasons.Unfit](err); is {
		at = []string{"jobs", unfit.Product}
	} else if _, is := errors.AsType[*seasons.Misplaced](err); is {
		at = []string{"plan", "order"}
	}
	return WrongAt(s, at, "%v", err)
}
