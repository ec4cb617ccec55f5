// Package golden is what tests of all packages share: it compares what they get with files of
// expected texts and drawings, which it rewrites under -update, and says whether the race detector
// watches.
package golden
