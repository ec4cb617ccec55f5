// Package fit finds from records what a simulation needs to know: distributions from
// durations, some of them cut short, probabilities from counts, and whether the stops
// came independently, as the simulation takes for granted.
//
//   - [Fit] fits one kind of distribution to durations; [Compare] fits them all and says
//     which describe the records best, and whether they do so at all.
//   - [NewRate] is a probability from faults in feeds, with its interval.
//   - [Differ] tests whether groups of feeds, such as jobs, have different probabilities;
//     [Grow] fits how the probability rises with the speed.
//   - [Pattern] tests whether stops come in bursts.
//
// What is wrong in the records is an error that names the record. A test that cannot be
// made is not made, and the result says so; no figure here is NaN. Tests by simulation
// take a seed and give the same figures each time.
//
// The package does not model records cut short on the left, and knows of no explanation but the speed.
package fit
