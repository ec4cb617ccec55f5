// Package runs makes many replications, and says what they add up to.
//
//   - [Run] is of one line, [Together] of several on common random numbers, which may drop
//     those that cannot be the best, and [FurtherWork] goes on with studies that were begun.
//   - [RunLineGroup] is of lines that share a crew; [NewMix] and [TogetherMixed] are of jobs, each
//     with its part of the work.
//   - [RunUncertain] draws what is uncertain, a few replications a draw, and tells chance from
//     uncertainty of the inputs.
//   - A [Trial] is an acceptance run of some hours, shift by shift.
//   - A [Study] is what was run: [Study.NetRates] and [Study.Sample] are its samples,
//     [Study.Losses] is where the rated speed goes, [Study.StopCosts] what each kind of stop
//     costs, [Sensitivities] what each number of the line does to its net rate.
//   - [Replay] runs what a log was written of, and [CompareRecords] sets the two side by side.
//
// Whoever has a question about lines asks package study, which calls these.
package runs
