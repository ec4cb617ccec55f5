package main

import (
	"io"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// patience is how long a run lasts before its progress is shown.
const patience = 500 * time.Millisecond

// progress shows on a terminal how far a run is, if it takes long.
type progress struct {
	bars  *mpb.Progress
	bar   *mpb.Bar
	delay *time.Timer
}

// newProgress returns the progress of at most so many shifts or jobs, as word says. stop
// must be called in the end.
func newProgress(terminal io.Writer, most int, word string, options ...mpb.ContainerOption) *progress {
	show := make(chan any)
	options = append(options, mpb.WithOutput(terminal), mpb.WithRenderDelay(show))
	p := &progress{bars: mpb.New(options...), delay: time.AfterFunc(patience, func() { close(show) })}
	p.bar = p.bars.New(int64(most), mpb.BarStyle().Lbound("[").Filler("=").Tip(">").Padding(" ").Rbound("]"),
		mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Any(func(s decor.Statistics) string {
			return thousands(s.Current) + " " + word + "s of at most " + thousands(s.Total) + " "
		})))
	return p
}

// done says how many are done.
func (p *progress) done(n int) { p.bar.SetCurrent(int64(n)) }

// stop takes the bar off the terminal. Without Abort, Wait would wait for a bar that a run
// which ends early never fills.
func (p *progress) stop() {
	p.delay.Stop()
	p.bar.Abort(true)
	p.bars.Wait()
}
