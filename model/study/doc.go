// Package study answers questions about lines: a question is plain data in, its answer plain
// data out.
//
// A question names its alternatives ([Alternative]) and a plan ([sim.Plan]), and is asked by
// its method Ask, which may be given a callback that hears how far it has come. The
// callback can have the answer so far; a context ends the work early, with the answer up to
// there. [Run], [GroupRun] and [Comparison] may be given an earlier answer, whose replications
// are kept. An answer holds everything that was found, in exported fields with their units; its
// JSON encoding is what the command prints below its heading, field by field.
//
// Each question has files of its own, named by what it asks, and its exported names begin
// with that word. What several answers share stands in encoding.go: figures ([Number]), means
// with their intervals ([Mean], [NetRate], [Difference]) and what was run ([Settings]).
//
//   - [Run] is of one line, [GroupRun] of several with one crew: what do they deliver?
//   - [Comparison] sets lines side by side: which delivers most, by how much, and why? With a
//     [ComparisonSelection] it finds the best of many.
//   - [Sweep] moves one value or two, [SensitivityAnalysis] each by a little.
//   - [Strategies] tries the responses to faults, [StrategiesTogether] those of lines with one crew.
//   - [Seasons] is of weeks of work, job after job; [Coverage] of which job runs where.
//   - [Acceptance] plans the test of a contract: how long, what to demand, with which risks.
//   - [Fit] finds rates and times from a log, [Replay] tests whether a log is consistent with a
//     line, and [Incident] shows one fault, cycle by cycle.
//   - [Worth] says what the lines of a comparison are worth in money, and [Assumptions] what
//     any answer rests on.
//
// The package knows nothing of scenario files, charts or the command, and writes no sentences:
// how an answer is said or drawn is up to whoever shows it.
package study
