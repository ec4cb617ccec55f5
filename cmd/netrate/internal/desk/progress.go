package desk

import (
	"io"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"netrate/cmd/netrate/internal/say"
)

// patience is how long a run lasts before its progress is shown.
const patience = 500 * time.Millisecond

// Progress shows on a terminal how far a run is, if it takes long.
type Progress struct {
	bars  *mpb.Progress
	bar   *mpb.Bar
	delay *time.Timer
}

// NewProgress returns the progress of at most so many shifts or jobs, as word says. Stop
// must be called in the end.
func NewProgress(terminal io.Writer, most int, word string, options ...mpb.ContainerOption) *Progress {
	show := make(chan any)
	options = append(options, mpb.WithOutput(terminal), mpb.WithRenderDelay(show))
	p := &Progress{bars: mpb.New(options...), delay: time.AfterFunc(patience, func() { close(show) })}
	p.bar = p.bars.New(int64(most), mpb.BarStyle().Lbound("[").Filler("=").Tip(">").Padding(" ").Rbound("]"),
		mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Any(func(s decor.Statistics) string {
			return say.Thousands(s.Current) + " " + word + "s of at most " + say.Thousands(s.Total) + " "
		})))
	return p
}

// Done says how many are done.
func (p *Progress) Done(n int) { p.bar.SetCurrent(int64(n)) }

// Stop takes the bar off the terminal. Without Abort, Wait would wait for a bar that a run
// which ends early never fills.
func (p *Progress) Stop() {
	p.delay.Stop()
	p.bar.Abort(true)
	p.bars.Wait()
}
