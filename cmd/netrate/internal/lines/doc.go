// Package lines is the verbs that simulate lines as they stand: run, one of them, or several
// with one crew (RunVerb); compare, which sets lines against each other, by their net rates
// and by money (CompareVerb); strategy, which sets the answers to faults of one line against
// each other (StrategyVerb).
//
// An entrant is a line with its study; a field, all entrants of a run or a comparison; a
// contest, a comparison as it is told. What each of them says stands in files that begin alike:
// of a run in answer, tables, json, report; of a comparison in compare…, of numbers in doubt in
// doubt…, of a hall in hall…. What is said of strategies, of an incident and of what lines are
// worth stands in the room present.
package lines
