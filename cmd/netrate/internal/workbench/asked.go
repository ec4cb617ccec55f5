package workbench

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/scenarios"
)

// Verbs finds a verb of the command by its name. The questions of the page are asked as in a
// terminal: the verb reads the text that stands in the editor, and its report is shown.
type Verbs func(name string) (desk.Verb, error)

// inquiry is the questions that take longer, one at a time.
type inquiry struct {
	verbs Verbs
	mu    sync.Mutex
	stop  context.CancelCauseFunc // of the one that is being answered; nil for none
	page  []byte                  // the report of the last
	n     int                     // how many there were
	fit   string                  // the text that the last log led to; "" for none
}

// askedShown is a question and what came of it.
type askedShown struct {
	Title, Command string
	Busy           bool
	Wrong, Text    string
	Page           bool
	Fitted         bool
	Designs        *frontierShown // of the question what to buy
	Notes          []string       // of it: what is certain, what the last steps buy, what other volumes would
	Table          template.HTML  // of it: the designs
	Choice         *choiceFound   // of the question what is worth choosing
	N              int
	Rev            int // of the text that was asked
}

// questions are those of the page: what is asked, and the command for it; %s is the scenario.
var questions = map[string]struct{ title, verb string }{
	"sensitivity": {"What matters most?", "sensitivity"},
	"speed":       {"How fast should it run?", "sweep"},
	"strategy":    {"Which answers to which faults?", "strategy"},
	"season":      {"By when?", "season"},
	"design":      {"What is to be bought?", "design"},
	"plan":        {"What is worth choosing?", "plan"},
}

// choiceFound is what of the optional is worth choosing, as the switches take it.
type choiceFound struct {
	Names []string
	List  string // of them, as the page sends it back
	Whole bool   // no item is chosen for some of its days only
	Kept  bool   // it has the service that was asked for
}

func choiceOf(s present.Plans) *choiceFound {
	names, whole := optionalNames(&s.Plans[s.Shown()])
	return &choiceFound{Names: names, List: listOf(names), Whole: whole, Kept: s.Chosen >= 0}
}

// serviceOf reads with what probability each date shall be kept, in percent.
func serviceOf(text string) (string, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(x >= 50 && x <= 99.9) {
		return "", fmt.Errorf("how often each date shall be kept is %q, want 50 to 99.9 %%", text)
	}
	return say.Exact(x) + "%", nil
}

// asksShown are the questions that a text can be asked; a season, a design, and a plan with something optional have to
// be in it.
type asksShown struct{ Season, Design, Plan, Optional bool }

func asksOf(sc *scenarios.Scenario) asksShown {
	x := asksShown{Season: sc.Season != nil, Design: sc.Design != nil, Plan: sc.Plan != nil}
	if x.Plan {
		x.Optional = slices.ContainsFunc(sc.Plan.Staffed, func(s seasons.Staffed) bool { return s.Optional })
	}
	return x
}

// askVerb starts a question about the text, or says why not; service is in percent, and of the question what is worth
// choosing alone.
func (b *bench) askVerb(what, service string) error {
	q, known := questions[what]
	if !known {
		return fmt.Errorf("no question is called %q", what)
	}
	b.mu.Lock()
	text, plain, from, job, rev := b.work.bytes(), b.work.text, b.work.place, b.work.job, b.rev
	sc, err := b.work.load()
	b.mu.Unlock()
	if err != nil {
		return fmt.Errorf("the text cannot be run yet: mend it first")
	}
	args := []string{"-"}
	if what == "speed" {
		args = append(args, "--vary", speedRange(sc))
	}
	if what == "plan" {
		share, err := serviceOf(service)
		if err != nil {
			return err
		}
		args = append(args, "--service", share)
	}
	if job != "" && q.verb != "season" && q.verb != "plan" {
		args = append(args, "--job", job)
	}
	shown := withFirst(command(q.verb, from, plain, args[1:]...))
	var done func(string, *askedShown)
	if what == "design" { // whose answer is a picture, too
		args = append(args, "--json")
		done = func(_ string, x *askedShown) {
			if designs, found := frontierOf(x.Text); designs != nil {
				x.Designs, x.Text = designs, found
			}
		}
	}
	return b.inquire(askedShown{Title: q.title, Command: shown, Rev: rev}, q.verb, args, text, done)
}

// speedRange returns nine speeds from three fifths of the speed asked for to a tenth beyond it.
func speedRange(sc *scenarios.Scenario) string {
	lines, path := sc.Line, "line.speed"
	if sc.LineGroup != nil {
		lines = sc.LineGroup.Lines[0]
		path = "lines." + lines.Name + ".speed"
	}
	const step = 100
	round := func(x float64) int { return max(1, int(x/step)) * step }
	v := lines.RunSpeed()
	return fmt.Sprintf("%s=%d/h:%d/h:9", path, round(0.6*v), round(1.1*v))
}

// inquire runs a verb beside the answer and shows what came of it. done, if there is one, hears the
// directory in which the verb wrote its files before it is removed.
func (b *bench) inquire(x askedShown, verb string, args []string, text string, done func(dir string, x *askedShown)) error {
	v, err := b.inquiry.verbs(verb)
	if err != nil {
		return err
	}
	b.inquiry.mu.Lock()
	defer b.inquiry.mu.Unlock()
	if b.inquiry.stop != nil {
		return fmt.Errorf("one question at a time: the last one is still being answered")
	}
	ctx, stop := context.WithCancelCause(context.Background())
	b.inquiry.stop = stop
	x.Busy = true
	b.showAsked(x)
	go func() {
		x := b.inquired(ctx, x, v, args, text, done)
		b.inquiry.mu.Lock()
		defer b.inquiry.mu.Unlock()
		stop(nil)
		b.inquiry.stop = nil
		b.showAsked(x)
	}()
	return nil
}

// showAsked shows how a question stands.
func (b *bench) showAsked(x askedShown) {
	b.mu.Lock()
	rev := b.rev
	b.mu.Unlock()
	b.hub.show(rev, map[string]string{"asked": region("asked", x), "far": ""})
}

// showFar shows how far a question is.
func (b *bench) showFar(share float64, text string) {
	b.mu.Lock()
	rev := b.rev
	b.mu.Unlock()
	b.hub.show(rev, map[string]string{"far": region("far", struct {
		Share float64
		Text  string
	}{share, text})})
}

// answered takes of an answer what is shown beside its report.
func (x *askedShown) answered(answer any) {
	switch a := answer.(type) {
	case present.Design:
		var table strings.Builder
		designs := present.Designs(a)
		_ = designs.WriteHTML(&table)                                            // a builder takes all
		x.Notes, x.Table = present.DesignNotes(a), template.HTML(table.String()) // from a template that escapes
	case present.Plans:
		if a.Service > 0 {
			x.Choice = choiceOf(a)
		}
	}
}

// stopInquiry ends the question that is being answered, if there is one: its verb then says what it
// has found by then.
func (b *bench) stopInquiry() {
	b.inquiry.mu.Lock()
	defer b.inquiry.mu.Unlock()
	if b.inquiry.stop != nil {
		b.inquiry.stop(desk.Interrupted{})
	}
}

// inquired runs a verb to its end, or until ctx ends it.
func (b *bench) inquired(ctx context.Context, x askedShown, v desk.Verb, args []string, text string, done func(string, *askedShown)) askedShown {
	x.Busy = false
	dir, err := os.MkdirTemp("", "netrate-asked-")
	if err != nil {
		x.Wrong = err.Error()
		return x
	}
	defer func() { _ = os.RemoveAll(dir) }() // the system removes what is left
	report := filepath.Join(dir, "report.html")
	var out, wrong bytes.Buffer
	var answer any
	err = v.Run(append(args, "--report", report), desk.Env{
		In: strings.NewReader(text), Out: &out, Err: &wrong, Getenv: b.work.env.Getenv, Until: ctx, Far: b.showFar, Answered: func(a any) { answer = a },
	})
	x.answered(answer)
	page, _ := os.ReadFile(report) // of what failed there is none
	x.Text = withoutPath(out.String(), dir)
	if err != nil {
		x.Wrong = withoutPath(strings.TrimSpace(wrong.String()+"\n"+err.Error()), dir)
	}
	b.inquiry.mu.Lock()
	b.inquiry.page = page
	b.inquiry.n++
	x.Page, x.N = len(page) > 0, b.inquiry.n
	b.inquiry.mu.Unlock()
	if done != nil {
		done(dir, &x)
	}
	return x
}

// withoutPath leaves out of a text where files stood for a moment, and how a verb was given its scenario.
func withoutPath(text, dir string) string {
	var kept []string
	for line := range strings.Lines(text) {
		if !strings.Contains(line, dir) || !strings.HasPrefix(line, "Report") {
			kept = append(kept, strings.ReplaceAll(line, dir+string(filepath.Separator), ""))
		}
	}
	return strings.ReplaceAll(strings.Join(kept, ""), "standard input", "the text")
}

// inquiries adds the addresses of the questions.
func (b *bench) inquiries(mux *http.ServeMux) {
	mux.HandleFunc("POST /ask", func(w http.ResponseWriter, r *http.Request) {
		if err := b.askVerb(r.FormValue("what"), r.FormValue("service")); err != nil {
			http.Error(w, err.Error(), http.StatusConflict)
		}
	})
	mux.HandleFunc("POST /stop", func(http.ResponseWriter, *http.Request) { b.stopInquiry() })
	mux.HandleFunc("GET /asked.html", func(w http.ResponseWriter, _ *http.Request) {
		b.inquiry.mu.Lock()
		page := b.inquiry.page
		b.inquiry.mu.Unlock()
		// A report forbids itself everything but its own style, and may be shown within the page.
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'")
		b.html(w, string(page))
	})
	mux.HandleFunc("POST /log", func(w http.ResponseWriter, r *http.Request) {
		var x logFiles
		err := json.NewDecoder(r.Body).Decode(&x)
		if err == nil {
			err = b.fitLog(x)
		}
		if err != nil {
			http.Error(w, err.Error(), http.StatusConflict)
		}
	})
	mux.HandleFunc("POST /fitted", func(w http.ResponseWriter, _ *http.Request) {
		b.inquiry.mu.Lock()
		text := b.inquiry.fit
		b.inquiry.mu.Unlock()
		if text == "" {
			http.Error(w, "no log was fitted", http.StatusConflict)
			return
		}
		writeJSON(w, b.do(Op{Kind: "fitted", Text: text}))
	})
}

// logFiles is a stop log and the counts that go with it, as the page has read them.
type logFiles struct {
	Name, Log   string
	Counts      string // text; "" for none
	CountsNamed string
}

// fitLog learns rates from a stop log and its counts. Without counts it only says what the log holds.
func (b *bench) fitLog(x logFiles) error {
	dir, err := os.MkdirTemp("", "netrate-log-")
	if err != nil {
		return err
	}
	file := func(name, usual string) string { return filepath.Join(dir, usual+"-"+say.Slug(name)+".csv") }
	log, counts := file(x.Name, "log"), file(x.CountsNamed, "counts")
	args := []string{log}
	err = os.WriteFile(log, []byte(x.Log), 0o600)
	if x.Counts != "" {
		err = errors.Join(err, os.WriteFile(counts, []byte(x.Counts), 0o600))
		args = append(args, "--counts", counts, "--into", "-", "--out", filepath.Join(dir, "fitted.yaml"))
	}
	if err != nil {
		return err
	}
	b.mu.Lock()
	text, title, rev := b.work.bytes(), b.work.Title, b.rev
	b.mu.Unlock()
	shown := askedShown{Rev: rev, Title: "What does " + x.Name + " say?", Command: "netrate fit " + desk.Quoted(x.Name)}
	if x.Counts != "" {
		shown.Command += " --counts " + desk.Quoted(x.CountsNamed) + " --into " + desk.Quoted(title) + " --out fitted.yaml"
	}
	return b.inquire(shown, "fit", args, text, func(_ string, x *askedShown) {
		if fitted, err := os.ReadFile(filepath.Join(dir, "fitted.yaml")); err == nil {
			b.inquiry.mu.Lock()
			b.inquiry.fit = string(fitted)
			b.inquiry.mu.Unlock()
			x.Fitted = true
		}
		x.Text, x.Wrong = withoutPath(x.Text, dir), withoutPath(x.Wrong, dir)
		_ = os.RemoveAll(dir) // the system removes what is left
	})
}

// fitted makes the text what a log has led to.
func (w *work) fitted(op Op) (done, error) {
	var as place
	text, err := as.read(op.Text)
	if err != nil {
		return done{}, err
	}
	return w.step(text, "")
}

// Frame returns where the report is, a new address for each.
func (x askedShown) Frame() template.URL { return template.URL(fmt.Sprint("asked.html?", x.N)) }
