//go:build race

package order

// raced says that the race detector watches, which makes a test ten times slower.
const raced = true
