// Package cputime tells benchmarks how long the processor worked, on Linux: on a machine that is
// shared it says more than the time on the wall.
package cputime
