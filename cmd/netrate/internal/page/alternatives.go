package page

import (
	"netrate/model/study"
	"netrate/scenarios"
)

// AlternativesOf returns the line of a scenario and those of its variants, the base first.
func AlternativesOf(sc *scenarios.Scenario) []study.Alternative {
	all := []study.Alternative{AlternativeOf(sc, sc.Base)}
	for _, v := range sc.Variants {
		all = append(all, lineOrGroup(study.Alternative{
			Name: v.Name, Note: v.Note, Changes: v.Changes, File: sc.File,
			Line: v.Line, Group: v.LineGroup, Costs: v.Costs, Products: v.Products, Target: v.Target,
		}))
	}
	return all
}

// AlternativeOf returns the line of a scenario, or its lines with one crew, under a name.
func AlternativeOf(sc *scenarios.Scenario, name string) study.Alternative {
	a := study.Alternative{Name: name, File: sc.File, Line: sc.Line, Group: sc.LineGroup, Costs: sc.Costs, Products: sc.Products, Target: sc.Target}
	if name == scenarios.BaseName {
		a.Called = "the base"
	}
	return lineOrGroup(a)
}

// lineOrGroup takes away the line that stands for a group in a scenario.
func lineOrGroup(a study.Alternative) study.Alternative {
	if a.Group != nil {
		a.Line = nil
	}
	return a
}
