package workbench

import (
	"os"
	"path/filepath"
	"sync"
	"time"

	"netrate/cmd/netrate/internal/desk"
	"netrate/plots"
)

// bench is the work in hand with all that looks at it.
type bench struct {
	hub     hub
	asker   asker
	planner planner
	mu      sync.Mutex
	work    *work
	inquiry inquiry
	rev     int       // of the text: how many changes of it there were
	log     []message // all of them, so that a tab that was away can be told
	from    int       // the revision before the first of these
	closed  bool
}

func newBench(w *work, verbs Verbs) *bench {
	b := &bench{work: w, inquiry: inquiry{verbs: verbs}, hub: hub{now: map[string]string{}, tabs: map[*tab]bool{}}}
	b.asker.show, b.planner.show = b.hub.show, b.hub.show
	b.mu.Lock()
	defer b.mu.Unlock()
	b.showBar()
	b.hub.show(0, join(comparisonRegions(nil, w.pins, "", nil), map[string]string{"cautions": region("cautions", plots.Cautions())}))
	b.ask()
	return b
}

// reply is what whoever asked for an operation hears.
type reply struct {
	Rev   int    `json:"rev"`
	Said  string `json:"said,omitempty"`
	Note  string `json:"note,omitempty"`
	Wrong string `json:"wrong,omitempty"`
	Stale bool   `json:"stale,omitempty"` // the text was changed meanwhile: try again when that is known
}

// do does an operation, and tells all tabs.
func (b *bench) do(op Op) reply {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return reply{Rev: b.rev, Wrong: "the workbench has ended"}
	}
	if op.Kind == "type" && op.Rev != b.rev {
		return reply{Rev: b.rev, Stale: true, Wrong: errStale.Error()}
	}
	if op.Kind == "plan" {
		op.found = b.planner.found(b.work.text, b.work.chosen)
	}
	d, err := b.work.do(op)
	if len(d.edits) > 0 {
		b.rev += len(d.edits)
		m := message{b.rev, "", d.edits}
		if op.Kind == "type" { // what the editor of a tab wrote itself, it has already
			m.Tab = op.Tab
		}
		b.log = append(b.log, m)
		b.hub.change(m)
	}
	if err != nil {
		if d.shown {
			b.showBar()
		}
		return reply{Rev: b.rev, Wrong: err.Error()}
	}
	if d.text || d.shown {
		b.showBar()
		b.ask()
	}
	return reply{Rev: b.rev, Said: d.said, Note: d.note}
}

// barShown is the head of the page.
type barShown struct {
	Title, File, Lost   string
	Folder              string // into which it is saved under another name
	Dirty, Theirs, Back bool
	Undo, Redo          bool
}

func (b *bench) showBar() {
	w := b.work
	x := barShown{Title: w.Title, File: w.File, Dirty: w.dirty(), Theirs: w.hasTheirs, Back: w.restored && w.dirty(), Undo: len(w.done) > 0, Redo: len(w.back) > 0}
	if x.Folder = filepath.Dir(w.File); w.File == "" {
		x.Folder, _ = os.Getwd() // saving will say what is wrong with it
	}
	if w.lost != nil {
		x.Lost = w.lost.Error()
	}
	b.hub.show(b.rev, map[string]string{"bar": region("bar", x), "films": region("films", w.pins)})
}

// ask asks what the text asks now.
func (b *bench) ask() {
	b.asker.start(b.task())
	b.planner.start(b.task())
}

func (b *bench) task() task {
	w := b.work
	return task{b.rev, w.text, w.place, w.job, w.chosen, w.pins, len(w.done) > 0 && w.done[len(w.done)-1].Other.Place == nil}
}

// hello is what a tab needs to begin with: the text or, if it knows an earlier one, what happened since.
type hello struct {
	Rev     int       `json:"rev"`
	Text    string    `json:"text"`
	Changes []message `json:"changes"` // since the revision that the tab knows; nil if it is to take the text
}

// join adds a tab that knows a revision; -1 for none.
func (b *bench) join(known int) (*tab, hello) {
	b.mu.Lock()
	defer b.mu.Unlock()
	h := hello{Rev: b.rev, Text: b.work.text}
	if known >= b.from && known <= b.rev {
		h.Changes = []message{}
		for _, m := range b.log {
			if m.Rev > known {
				h.Changes = append(h.Changes, m)
			}
		}
	}
	return b.hub.join(b.rev), h
}

// watch looks at the file on disk now and then, until done is closed.
func (b *bench) watch(done <-chan struct{}) {
	tick := time.NewTicker(looking)
	defer tick.Stop()
	for {
		select {
		case <-done:
			return
		case <-tick.C:
			b.mu.Lock()
			if b.work.look() {
				b.showBar()
			}
			b.mu.Unlock()
		}
	}
}

// looking is how often the file on disk is looked at.
const looking = time.Second

// form returns the form of a path.
func (b *bench) form(path string) string {
	b.mu.Lock()
	text := b.work.text
	b.mu.Unlock()
	return region("form", formOf(text, path))
}

// close ends the work and returns what is to be said of it: where what is not saved is kept.
func (b *bench) close() string {
	b.asker.stop()
	b.planner.stop()
	b.stopInquiry()
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	w := b.work
	w.journal.close()
	switch {
	case !w.dirty() && w.File != "":
		return "All changes of " + desk.Shown(w.File) + " are saved."
	case !w.dirty():
		return "Nothing was changed."
	case w.journal == nil || w.lost != nil:
		return "CHANGES WERE NOT SAVED, and could not be kept."
	case w.File != "":
		return "Changes of " + desk.Shown(w.File) + " are not saved. They are kept: netrate open " + desk.Quoted(w.File) + " brings them back."
	}
	return "Changes of " + w.Title + " are not saved. They are kept: the same command brings them back."
}
