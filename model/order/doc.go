// Package order finds the order of jobs with least time for the changeovers between them.
//
//   - [Best] returns it, and whether it is known to be the best.
//   - [Time] returns the time of any order, to compare with.
package order
