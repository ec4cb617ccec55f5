// Package learn has the verbs about a log of stops and its counts: fit, which finds rates and
// clearing times in them (FitVerb), and the part of run that sets a log against what a
// scenario makes of the same work (AgainstFlags).
//
// Both read their log with fittingread.go, ask netrate/model/study and have the answer said by
// package present. What is written into a scenario is of netrate/scenarios/stoplog.
package learn
