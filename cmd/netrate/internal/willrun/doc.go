// Package willrun is what can be said of a scenario before it is run: the verb check
// (CheckVerb), with what the stations can answer to faults, slips of the pen, and which jobs
// run on which lines.
package willrun
