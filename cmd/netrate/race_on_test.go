//go:build race

package main

// raced says that the race detector watches, which makes a test ten times slower.
const raced = true
