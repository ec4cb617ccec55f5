//go:build !race

package golden

// Raced says that the race detector watches, which makes a test ten times slower.
const Raced = false
