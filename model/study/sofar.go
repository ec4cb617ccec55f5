package study

// Sofar is how far a question has come, as its callback is told after each replication or
// draw, in order and on the goroutine that asked.
type Sofar[A any] struct {
	Done, Most int  // replications, or draws of what is uncertain; there may be fewer than Most in the end
	Draws      bool // draws are counted, not replications

	// Answer works out the answer so far, which may be kept. It costs about as much as the
	// answer at the end and can be called only before the callback returns.
	Answer func() *A
}
