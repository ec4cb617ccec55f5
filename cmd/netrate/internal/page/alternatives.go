package page

import (
	"netrate/model/study"
	"netrate/scenarios"
)

// AlternativesOf returns the line of a scenario and those of its variants, the base first.
func AlternativesOf(sc *scenarios.Scenario) []study.Alternative {
	all := []study.Alternative{{
		Name: scenarios.BaseName, File: sc.File, Line: sc.Line, Group: sc.Hall, Costs: sc.Costs, Products: sc.Products,
	}}
	for _, v := range sc.Variants {
		all = append(all, study.Alternative{
			Name: v.Name, Note: v.Note, Changes: v.Changes, File: sc.File,
			Line: v.Line, Group: v.Hall, Costs: v.Costs, Products: v.Products,
		})
	}
	return all
}
