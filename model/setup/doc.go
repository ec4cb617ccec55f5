// Package setup says which job runs on which line, how the line is set up for it, and what is
// to be done between two jobs.
package setup
