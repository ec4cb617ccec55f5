// Package learn is what a log of stops and its counts tell: the verb fit, which finds rates
// and clearing times in them (FitVerb), and the part of run that sets a log against what a
// scenario makes of the same work (AgainstFlags).
//
// Files fitting*.go are of the first, against*.go of the second; both read a log with
// fittingread.go, take only some rows of it with narrow.go, and say with cautions.go what of
// it does not fit together.
package learn
