package workbench

import (
	"context"
	"sync"
)

// turns has one text asked at a time: the next ends the last.
type turns struct {
	mu     sync.Mutex
	cancel context.CancelFunc
	ended  chan struct{} // closed when what is being asked has ended
}

// next ends what is being asked, forgets what was known and asks anew; before is closed when what was asked
// has come to its end, nil if nothing was.
func (t *turns) next(forget func(), ask func(ctx context.Context, before <-chan struct{})) {
	t.mu.Lock()
	defer t.mu.Unlock()
	before := t.ended
	if t.cancel != nil {
		t.cancel()
	}
	forget()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan struct{})
	t.cancel, t.ended = cancel, ended
	go func() {
		defer close(ended)
		ask(ctx, before)
	}()
}

// stop ends what is being asked.
func (t *turns) stop() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.cancel != nil {
		t.cancel()
		<-t.ended
	}
}
