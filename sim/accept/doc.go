// Package accept plans acceptance tests: how long to test, what to allow, and how often the
// decision is wrong.
//
// A test tells a good line, which is as promised, from a bad one, which is just unacceptable.
// The seller's risk is that a good line fails, the buyer's that a bad one passes ([Risks]).
//
//   - [Events] is of events that come at a constant rate, such as stops: a fixed length and an
//     allowed number. [Share] is of a share that is counted, [Times] of a mean time.
//   - [SequentialEvents], [SequentialShare] and [SequentialTimes] decide as soon as what was seen
//     allows; [Truncated] is such a test of events with an end, and its risks are exact.
//   - [Stages] is a test that may end after each of some stages, and [InStages] plans one.
//   - [Separate] finds the limit between two simulated distributions, whatever their shape, and
//     [Lengthen] how long a test must be for them.
//
// The package tests nothing but what it is given: a rate that changes from day to day is not a
// constant rate, and no plan made for one holds the risks for the other.
package accept
