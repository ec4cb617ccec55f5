// Package setup says which job runs on which line, how the line is set up for it, and what is
// to be done between two jobs.
//
//   - [Fitted] sets a line up for a [Product], or says everything that does not fit;
//     [Cover] does so for many lines and jobs.
//   - A [Changeover] has the work between two set-ups, [Changeover.Items]; [Total] and
//     [Totals] say how long a crew takes for it.
package setup
