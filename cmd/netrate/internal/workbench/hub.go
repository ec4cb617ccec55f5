package workbench

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"sync"
	"time"
)

// hub tells all tabs what has changed: of the text each change in its order, of the regions of the
// page what each of them is now.
type hub struct {
	mu   sync.Mutex
	now  map[string]string // regions, as HTML
	tabs map[*tab]bool
}

// tab is what a page has not been told yet.
type tab struct {
	wake    chan struct{}
	changes []message
	regions map[string]string
	rev     int
}

// message is a change of the text.
type message struct {
	Rev   int               `json:"rev"` // after it
	Tab   string            `json:"tab"`
	Edits []json.RawMessage `json:"edits"`
}

// change tells of a change of the text.
func (h *hub) change(m message) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for t := range h.tabs {
		t.changes = append(t.changes, m)
		t.ring()
	}
}

// show tells what regions are now, of a revision of the text. What is as it was is not told.
func (h *hub) show(rev int, regions map[string]string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for name, html := range regions {
		if was, known := h.now[name]; known && was == html {
			continue
		}
		h.now[name] = html
		for t := range h.tabs {
			t.regions[name] = html
			t.rev = rev
			t.ring()
		}
	}
}

func (t *tab) ring() {
	select {
	case t.wake <- struct{}{}:
	default:
	}
}

// join adds a tab, which is to be told all regions first; known is what it knows of the text.
func (h *hub) join(rev int) *tab {
	h.mu.Lock()
	defer h.mu.Unlock()
	t := &tab{wake: make(chan struct{}, 1), regions: maps.Clone(h.now), rev: rev}
	t.ring()
	h.tabs[t] = true
	return t
}

func (h *hub) leave(t *tab) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.tabs, t)
}

// take returns what a tab has not been told yet.
func (h *hub) take(t *tab) (changes []message, regions map[string]string, rev int) {
	h.mu.Lock()
	defer h.mu.Unlock()
	changes, regions = t.changes, t.regions
	t.changes, t.regions = nil, map[string]string{}
	return changes, regions, t.rev
}

// heartbeat is how often something is sent, so that a tab that has gone is noticed.
const heartbeat = 15 * time.Second

// serve tells a tab until it goes; first what it needs to begin with.
func (h *hub) serve(w http.ResponseWriter, r *http.Request, t *tab, first any) {
	defer h.leave(t)
	out := &stream{w: w, to: http.NewResponseController(w)}
	w.Header().Set("Content-Type", "text/event-stream")
	out.send("hello", first)
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for out.err == nil {
		select {
		case <-r.Context().Done():
			return
		case <-beat.C:
			out.write([]byte(": here\n\n"))
		case <-t.wake:
			changes, regions, rev := h.take(t)
			for _, m := range changes {
				out.send("change", m)
			}
			if len(regions) > 0 {
				out.send("regions", map[string]any{"rev": rev, "html": regions})
			}
		}
		out.flush()
	}
}

// stream writes events.
type stream struct {
	w   http.ResponseWriter
	to  *http.ResponseController
	err error
}

// patience is how long a tab may take to hear one thing.
const patience = 10 * time.Second

func (s *stream) send(event string, data any) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "event: %s\ndata: ", event)
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(data); err != nil {
		panic("workbench: an event cannot be written: " + err.Error())
	}
	b.WriteByte('\n')
	s.write(b.Bytes())
}

func (s *stream) write(data []byte) {
	if s.err == nil {
		_ = s.to.SetWriteDeadline(time.Now().Add(patience))
		_, s.err = s.w.Write(data)
	}
}

func (s *stream) flush() {
	if s.err == nil {
		s.err = s.to.Flush()
	}
}
