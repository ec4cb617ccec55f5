// Package scenarios reads scenario files in YAML: a line, or several, the crew and the work,
// which may be a shift, a job, or a season of several jobs.
//
//   - [Load] and [Read] read one file strictly: every problem is reported at once, with
//     its line, its column and the excerpt, and a file with a problem is not used.
//   - A file may hold variants, each the line with some changes: [Scenario.Variants].
//     [Scenario.With] and [Scenario.ShopWith] change single values, and [ParseRange] reads
//     what to sweep.
//   - A rate or a time that nobody knows for certain may be written with its uncertainty, such as
//     {seen: 3, of: 4000}, {about: 38 s, se: 2 s} or {low: 1/3000, likely: 1/2400, high:
//     1/2000}. The line has the likeliest value, and what else it may be in its UncertainInputs.
//   - [Edited] writes values into the text of a file and leaves all else as it is.
//   - [Examples] are the scenarios that come with the program, all invented.
//   - [Schema] describes the files for editors; [Presets] lists the usual feeders.
//
// The package reads no other file than the one it is given: nothing is included, and a
// value never stands for another one.
package scenarios
