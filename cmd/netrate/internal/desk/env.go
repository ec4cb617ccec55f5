package desk

import (
	"context"
	"io"
	"os"

	"netrate/sim/tape"
)

// Env is what a verb knows of the world around it.
type Env struct {
	In       io.Reader
	Out      io.Writer // the answer, and nothing else
	Err      io.Writer // all else
	Terminal bool      // whether Err is one
	Getenv   func(name string) string

	Stdout *os.File // where Out ends up, if that is a file of this machine; else nil
	Disk   Disk     // where outputs are written to; nil for that of this machine

	// What ends a verb early, with an Interrupted error as its cause; nil for signals.
	Until context.Context

	caught *caught // signals, while a verb is done

	Far      func(share float64, text string) // hears how far a verb is, from 0 to 1 and in words, where Err is no terminal; nil for nobody
	Answered func(answer any)                 // hears the answer that is told, as it is said and drawn; nil for nobody

	tape    *tape.Tape // of a shard or a merge; nil of a verb that simulates all
	records *Question  // takes what the question depends on; nil if nobody wants it
	plays   *Question  // has it, in the place of files and variables; nil for these
}

// disk returns where outputs are written to.
func (e Env) disk() Disk {
	if e.Disk == nil {
		return machine{}
	}
	return e.Disk
}
