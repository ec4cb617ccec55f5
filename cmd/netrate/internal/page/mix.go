package page

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/model/study"
)

// MixStatements returns what the work of a line rests on that runs several of its jobs; nil if it
// has one kind of work.
func MixStatements(mix *runs.Mix, products []*setup.Product) []study.AssumptionStatement {
	if mix == nil {
		return nil
	}
	var all []study.AssumptionStatement
	state := func(key, value string) {
		all = append(all, study.AssumptionStatement{Key: key, Value: value, Source: "worked out"})
	}
	made := map[string]bool{}
	for i, s := range mix.Setups {
		made[s.Product.Name] = true
		job := "job " + s.Product.Name + ": "
		state(job+"share of the good envelopes", say.Probability(mix.Shares[i]))
		state(job+"speed, as it runs", say.Exact(s.Line.RunSpeed())+"/h, set by "+strings.Join(s.Fit.LimitedBy, ", "))
		var loaded []string
		for _, l := range s.Fit.Feeders {
			loaded = append(loaded, l.Insert+" in "+l.Feeder)
		}
		if loaded != nil {
			state(job+"feeders", strings.Join(loaded, ", "))
		}
		for _, note := range s.Fit.Notes {
			state(job+"set up", note)
		}
	}
	var not []string
	for _, p := range products {
		if !made[p.Name] {
			not = append(not, p.Name)
		}
	}
	if not != nil {
		state("jobs that are not made", say.List(not)+": no volume is given")
	}
	return all
}
