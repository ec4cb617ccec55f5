package study

import "netrate/model/runs"

// Sofar is how far a question has come, as its callback hears after each replication or
// draw, in order and on the goroutine that asked.
type Sofar[A any] struct {
	Done, Most int  // replications, or draws of what is uncertain; there may be fewer than Most in the end
	Draws      bool // draws are counted, not replications

	// Answer works out the answer so far, which may be kept. It costs about as much as the
	// answer at the end and can be called only before the callback returns.
	Answer func() *A

	// Replication returns a study of each line or line group that the question runs, in the order
	// of the answer, with the figures of the last replication alone; without any of a line that is
	// run no further. It is nil where draws are counted, and of questions whose answers have no
	// table of replications.
	Replication func() []*runs.Study

	// Season returns the weeks of the last season; nil of other questions.
	Season func() []SeasonsRow
}
