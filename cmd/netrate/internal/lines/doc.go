// Package lines is the verbs that simulate lines as they stand: run, one of them, or several
// with one crew (RunVerb); compare, which sets lines against each other, by their net rates
// and by money (CompareVerb); strategy, which sets the answers to faults of one line against
// each other (StrategyVerb).
//
// An entrant is a line with its study; a field, all entrants of a run or a comparison; a
// contest, a field in which it is decided who is best; a choice, a field of strategies. What
// each of them says stands in files that begin alike: of a run in answer, tables, json,
// report; of a comparison in compare…, of its money in cost…, of numbers in doubt in doubt…,
// of a hall in hall…, of a strategy in choice….
package lines
