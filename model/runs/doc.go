// Package runs makes many replications: of one line, of several on common random numbers, of
// jobs mixed, of a line group, of draws of what is uncertain; and says what they add up to.
package runs
