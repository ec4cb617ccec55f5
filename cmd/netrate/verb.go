package main

import (
	"netrate/cmd/netrate/internal/buy"
	"netrate/cmd/netrate/internal/cluster"
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/drawing"
	"netrate/cmd/netrate/internal/learn"
	"netrate/cmd/netrate/internal/lines"
	"netrate/cmd/netrate/internal/sweeps"
	"netrate/cmd/netrate/internal/tracing"
	"netrate/cmd/netrate/internal/weeks"
	"netrate/cmd/netrate/internal/willrun"
	"netrate/cmd/netrate/internal/workbench"
)

// verbs returns all verbs, in the order of the help.
func verbs() []desk.Verb {
	return []desk.Verb{workbench.OpenVerb(verbNamed), lines.RunVerb(), lines.CompareVerb(), sweeps.SweepVerb(), sweeps.SensitivityVerb(), lines.StrategyVerb(), weeks.SeasonVerb(), weeks.PlanVerb(), tracing.TraceVerb(), tracing.FilmVerb(), drawing.DrawVerb(), buy.AcceptVerb(), buy.DesignVerb(), learn.FitVerb(), willrun.CheckVerb(), desk.MergeVerb(verbNamed), cluster.Verb(verbNamed), exampleVerb(), schemaVerb(), versionVerb(), helpVerb()}
}

func verbNamed(name string) (desk.Verb, error) {
	var names []string
	for _, v := range verbs() {
		if v.Name == name {
			return v, nil
		}
		names = append(names, v.Name)
	}
	if len(name) > 1 && name[0] == '-' {
		return desk.Verb{}, desk.Wrong("flags come after the verb: netrate VERB %s", name)
	}
	return desk.Verb{}, desk.Wrong("%q is not a verb%s; netrate help lists them", name, desk.Meant(name, names, ""))
}

// noArguments returns an error if there are any.
func noArguments(verb string, args []string) error {
	if len(args) > 0 {
		return desk.Wrong("%s takes no arguments, found %q", verb, args[0])
	}
	return nil
}
