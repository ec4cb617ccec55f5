//go:build race

package modeltest

// Raced says that the race detector watches, which makes a test ten times slower.
const Raced = true
