// Package order finds the order of jobs with least time for the changeovers between them, and which
// of several machines does which.
//
//   - [Best] returns it, and whether it is known to be the best.
//   - [Shop.Assign] gives jobs to machines that differ, and puts them in order, with a bound beside it.
//   - [Time] returns the time of any order, to compare with.
package order
