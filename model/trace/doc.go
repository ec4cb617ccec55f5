// Package trace is one shift of a line, whole: what an observer of the engine heard, put in
// order as plain data. [Of] runs the shift, [OfJob] the passes of a job, [OfGroup] a shift of
// several lines that share a crew; in each [Shift] are the stops, the faults, every set that did
// not pass as it should, what the crew did, and the levels of the stocks.
//
// All moments are seconds from the start of the shift or the pass, all cycles those of the track,
// all stations numbers in Line.Stations. Of good sets with which nothing happened nothing is kept:
// they are those between the others.
package trace
