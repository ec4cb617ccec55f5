package desk

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"
	"unicode/utf8"

	"golang.org/x/term"

	"netrate/cmd/netrate/internal/say"
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
	most  int
	word  string

	done  atomic.Int64
	ended chan struct{}
	shown sync.WaitGroup
}

// NewProgress returns the progress of at most most shifts or jobs, as word says. Stop
// must be called in the end.
func NewProgress(terminal io.Writer, most int, word string) *Progress {
	p := &Progress{to: terminal, width: widthOf(terminal), most: most, word: word, ended: make(chan struct{})}
	p.shown.Go(p.show)
	return p
}

// widthOf returns how wide a terminal is now; 80 if nobody knows.
func widthOf(terminal io.Writer) func() int {
	return func() int {
		if f, ok := terminal.(*os.File); ok {
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
			text := progressLine(int(p.done.Load()), p.most, p.word, p.width()-1) // a full line would make a new one
			length := utf8.RuneCountInString(text)
			fmt.Fprintf(p.to, "\r%s%s", text, strings.Repeat(" ", max(0, min(written, p.width()-1)-length)))
			written = length
			wait.Reset(beat)
		}
	}
}

// progressLine returns how far a run is, on at most width characters: with a bar if there
// is room for one that says anything.
func progressLine(done, most int, word string, width int) string {
	const leastBar = 12
	text := say.Grouped(fmt.Sprint(done)) + " " + word + "s of at most " + say.Grouped(fmt.Sprint(most))
	if room := min(width-len(text)-len(" []"), 40); room >= leastBar {
		full := room * min(done, most) / max(most, 1)
		return text + " [" + strings.Repeat("=", full) + strings.Repeat(" ", room-full) + "]"
	}
	return text[:max(0, min(len(text), width))]
}
