package desk

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"

	"netrate/cmd/netrate/internal/say"
	"netrate/plots/terminal"
)

// How long a run lasts before its progress is shown, and how often it is shown again.
const (
	patience = 500 * time.Millisecond
	beat     = 200 * time.Millisecond
)

// Progress shows on a terminal how far a run is, if it takes long: on one line that is
// written over, however narrow the terminal is.
type Progress struct {
	to    io.Writer
	width func() int // of the terminal, characters
	word  string
	began time.Time

	done  atomic.Int64
	most  atomic.Int64 // there are at most
	aim   atomic.Int64 // how many are expected in all; 0 if that is not known
	lines atomic.Int64 // of which they are
	ended chan struct{}
	shown sync.WaitGroup

	far func(share float64, text string) // hears it instead of the terminal; nil for nobody
}

// NewProgress returns the progress of at most most shifts or jobs, as word says. Stop
// must be called in the end.
func NewProgress(to io.Writer, most int, word string) *Progress {
	return newProgress(Env{Err: to, Terminal: true}, most, word)
}

// newProgress returns the progress of a verb, for its terminal or whoever hears how far it is.
func newProgress(e Env, most int, word string) *Progress {
	p := &Progress{to: e.Err, width: widthOf(e.Err), word: word, began: time.Now(), ended: make(chan struct{})}
	if !e.Terminal {
		p.far = e.Far
	}
	p.Most(most)
	p.shown.Go(p.show)
	return p
}

// widthOf returns how wide a terminal is now; 80 if nobody knows.
func widthOf(to io.Writer) func() int {
	return func() int {
		if f, ok := to.(*os.File); ok {
			return cmp.Or(WidthOf(f), 80)
		}
		return 80
	}
}

// WidthOf returns how many characters wide a terminal is; 0 of what is none, or does not say.
func WidthOf(f *os.File) int {
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return max(width, 0)
}

// Done says how many are done.
func (p *Progress) Done(n int) { p.done.Store(int64(n)) }

// Most says how many there are at most.
func (p *Progress) Most(n int) { p.most.Store(int64(n)) }

// Lines says of how many lines they are, in each replication.
func (p *Progress) Lines(n int) { p.lines.Store(int64(n)) }

// Aim says how many are expected to be done in the end.
func (p *Progress) Aim(n int) { p.aim.Store(int64(n)) }

// Stop takes the line off the terminal.
func (p *Progress) Stop() {
	close(p.ended)
	p.shown.Wait()
}

// show writes the line again and again, and in the end blanks over it.
func (p *Progress) show() {
	wait, written := time.NewTimer(patience), 0
	defer wait.Stop()
	for {
		select {
		case <-p.ended:
			if written > 0 {
				fmt.Fprintf(p.to, "\r%s\r", strings.Repeat(" ", written))
			}
			return
		case <-wait.C:
			if p.far != nil {
				_, count, around, left := p.words()
				p.far(p.share(), strings.TrimPrefix(count+around+", "+left, ", "))
				wait.Reset(beat)
				continue
			}
			text := p.line(p.width() - 1) // a full line would make a new one
			length := terminal.Width(text)
			fmt.Fprintf(p.to, "\r%s%s", text, strings.Repeat(" ", max(0, min(written, p.width()-1)-length)))
			written = length
			wait.Reset(beat)
		}
	}
}

// end returns how many there are in the end, and whether that is expected or the most.
func (p *Progress) end() (end int, of string) {
	done, most := int(p.done.Load()), int(p.most.Load())
	if aim := int(p.aim.Load()); aim > 0 && aim < most {
		return max(aim, done), "some"
	}
	return most, "at most"
}

// share returns which part is done, from 0 to 1.
func (p *Progress) share() float64 {
	end, _ := p.end()
	return min(1, float64(p.done.Load())/float64(max(end, 1)))
}

// line returns how far the run is on a line of the terminal.
func (p *Progress) line(width int) string {
	done, count, around, left := p.words()
	if done == 0 {
		return shortest(width, left)
	}
	end, _ := p.end()
	return progressLine(done, end, count, around, left, width)
}

// words returns how far the run is: how many are done, with what they are of, and how long it still takes if it goes
// on as it did; before the first of them, since when it runs.
func (p *Progress) words() (done int, count, around, left string) {
	done = int(p.done.Load())
	gone := time.Since(p.began)
	if done == 0 {
		return 0, "", "", "begun " + lasts(gone) + " ago"
	}
	end, of := p.end()
	lines := ""
	if n := int(p.lines.Load()); n > 1 {
		lines = fmt.Sprintf(" (%s lines)", say.Thousands(n))
	}
	count = fmt.Sprintf("%s %ss", say.Grouped(fmt.Sprint(done)), p.word)
	around = fmt.Sprintf(" of %s %s%s", of, say.Grouped(fmt.Sprint(end)), lines)
	return done, count, around, lasts(time.Duration(float64(gone)*float64(end-min(done, end))/float64(done))) + " left"
}

// lasts returns a time in whole seconds or minutes.
func lasts(d time.Duration) string {
	switch {
	case d < 2*time.Minute:
		return fmt.Sprintf("%.0f s", math.Ceil(d.Seconds()))
	case d < 2*time.Hour:
		return fmt.Sprintf("%.0f min", math.Ceil(d.Minutes()))
	}
	return fmt.Sprintf("%.0f h", math.Ceil(d.Hours()))
}

// progressLine returns how far a run is, on at most width characters: with a bar if there
// is room for one that says anything, and the time that is left before the words around it.
func progressLine(done, end int, count, around, left string, width int) string {
	const leastBar = 12
	text := count + around + ", " + left
	if room := min(width-terminal.Width(text)-len(" []"), 40); room >= leastBar {
		full := room * min(done, end) / max(end, 1)
		return text + " [" + strings.Repeat("=", full) + strings.Repeat(" ", room-full) + "]"
	}
	return shortest(width, text, count+", "+left, left)
}

// shortest returns the first of some texts that has room; the last is cut if none has.
func shortest(width int, texts ...string) string {
	for _, text := range texts {
		if terminal.Width(text) <= width {
			return text
		}
	}
	last := texts[len(texts)-1]
	return last[:max(0, min(len(last), width))]
}
