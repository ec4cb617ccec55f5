// Package lines is the verbs that simulate lines as they stand: run, one of them, or several
// with one crew (RunVerb); compare, which sets lines against each other, by their net rates
// and by money (CompareVerb); strategy, which sets the answers to faults of one line against
// each other (StrategyVerb).
//
// Each reads what it is asked for, asks a question of [netrate/model/study], and writes the
// answer as [netrate/cmd/netrate/internal/present] says and draws it.
package lines
