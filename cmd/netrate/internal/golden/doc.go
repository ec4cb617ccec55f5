// Package golden is what tests of several rooms share: it compares what they get with files of
// expected texts, which it rewrites when it is asked to, and runs the small scenario.
package golden
