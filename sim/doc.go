// Package sim is a small kernel for discrete-event simulation. It knows nothing
// of mail.
//
//   - An [Agenda] holds timers and runs them in order of machine cycles, [Alarms] in order
//     of time.
//   - [Clocks] couples the two: the cycles move only while the machine runs.
//   - A [Stream] is a named sequence of random numbers; a [Duration] draws times
//     from one.
//   - A [Pool] is a crew: n servers that attend to tasks by urgency.
//   - [Replicate] runs independent replications on all cores and gives the same
//     bits for any number of them; [Sample] and [Estimate] say how sure a mean is, and
//     package output compares alternatives and finds the best.
//
// The package reads no clock on the wall and no global random source: a result
// depends on nothing but its inputs.
package sim
