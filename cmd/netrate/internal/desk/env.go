package desk

import "io"

// Env is what a verb has to do with the world around it.
type Env struct {
	In       io.Reader
	Out      io.Writer // the answer, and nothing else
	Err      io.Writer // all else
	Terminal bool      // whether Err is one
	Getenv   func(name string) string
}
