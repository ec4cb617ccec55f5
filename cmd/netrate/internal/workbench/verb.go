package workbench

import (
	"cmp"
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// usualExample is what the workbench begins with if nothing is named.
const usualExample = "direct-mail"

// OpenVerb returns the verb open, whose page asks other verbs.
func OpenVerb(verbs Verbs) desk.Verb {
	return desk.Verb{
		Name: "open", Takes: "[FILE]", About: "change a line in the browser, and see the answer move",
		More: `It starts a workbench on this machine and opens it in the browser: the line, forms for its
stations, the file itself, and what it delivers. Alternatives are pinned and stand side by
side, in the same random events. Without FILE it begins with an example.

Nothing is written to FILE unless you save. What is not saved is kept in the user's state
directory, and comes back when the same is opened again. Ctrl-C ends it.

The page is for this machine alone, at an address that nobody can guess. With --listen it is
for the network, too: whoever is given the address reads and changes the line, and saves it on
this machine. What is sent is not encrypted then: do so only in a network that you trust.
Only one workbench is open on a file at a time: a second one shows the first.

Not built: editing on a phone (it can be read there). It is built for Windows and macOS,
and was not tried there.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &openFlags{verbs: verbs}
			flags.StringVar(&o.example, "example", "", "begin with the example called `NAME`")
			flags.StringVar(&o.listen, "listen", "", "serve at `ADDRESS` and port of this machine, such as 192.0.2.7:8080")
			flags.BoolVar(&o.quiet, "no-browser", false, "print the address, and open no browser")
			return o.run
		},
	}
}

type openFlags struct {
	verbs   Verbs
	example string
	listen  string // an address of this machine; "" for the loopback address and any port
	quiet   bool
}

func (o *openFlags) run(e desk.Env, args []string) error {
	if err := checkListen(o.listen); err != nil {
		return err
	}
	from, text, err := o.begin(e, args)
	if err != nil {
		return err
	}
	dir := desk.StateDir(e.Getenv)
	if dir != "" {
		dir = filepath.Join(dir, "workbench")
	}
	at := &address{path: strings.TrimSuffix(journalName(dir, from.File, from.Title), ".journal") + ".address"}
	if dir == "" {
		at.path = ""
		fmt.Fprintln(e.Err, "netrate: no home directory is known, so that unsaved work cannot be kept: save often")
	} else if at.read(); at.alive() {
		if !at.isAt(o.listen) {
			return fmt.Errorf("it is open already, at %s: end that first, or go to %s", at.Host, at.URL)
		}
		return o.show(e, at.URL, "It is open already")
	}
	w, err := openWork(e, dir, from, text)
	if err != nil {
		return err
	}
	return o.serve(e, w, at)
}

// begin reads what the work begins with.
func (o *openFlags) begin(e desk.Env, args []string) (from place, text string, err error) {
	switch {
	case len(args) > 1:
		return from, "", desk.Wrong("open takes one file, found %d", len(args))
	case len(args) == 1 && o.example != "":
		return from, "", desk.Wrong("open takes --example or a file, not both: found %q", args[0])
	case len(args) == 0:
		if o.example == "" {
			o.example = usualExample
		}
		x, err := scenarios.ExampleNamed(o.example)
		if err != nil {
			return from, "", desk.Wrong("%v", err)
		}
		from.Title = x.Name
		text, err = from.read(string(x.Data))
		from.Saved = ""
		return from, text, err
	case args[0] == "-":
		return from, "", desk.Wrong("open takes a file, and not the standard input")
	}
	from.File, from.Title = args[0], filepath.Base(args[0])
	if whole, err := filepath.Abs(args[0]); err == nil {
		from.File = whole
	}
	in, err := e.Open(args[0])
	if err != nil {
		return from, "", err
	}
	data, err := io.ReadAll(io.LimitReader(in, largest+1))
	if err = errors.Join(err, in.Close()); err != nil {
		return from, "", err
	}
	if text, err = from.read(string(data)); err != nil {
		return from, "", desk.Wrong("%s: %v", desk.Shown(args[0]), err)
	}
	return from, text, nil
}

// address is where a workbench is reached, as its file in the state directory has it: so a second one
// finds the first, and after a crash pages that are still open find the next.
type address struct {
	path  string // of the file; "" for none
	URL   string `json:"url"`
	Host  string `json:"host"`
	Token string `json:"token"`
}

func (a *address) read() {
	if data, err := os.ReadFile(a.path); err == nil {
		_ = json.Unmarshal(data, a) // what is torn is none
	}
}

// alive reports whether a workbench answers there.
func (a *address) alive() bool {
	if a.URL == "" {
		return false
	}
	c := http.Client{Timeout: time.Second}
	r, err := c.Get(a.URL + "alive")
	if err != nil {
		return false
	}
	return r.StatusCode == http.StatusOK && r.Body.Close() == nil
}

// write keeps the address for this user alone.
func (a *address) write() error {
	if a.path == "" {
		return nil
	}
	data, err := json.Marshal(a)
	if err != nil {
		return err
	}
	return os.WriteFile(a.path, data, 0o600)
}

// anyLoopback is where a workbench is served unless an address is named.
const anyLoopback = "127.0.0.1:0"

// checkListen refuses what is no address of its own: a page is answered at the very address that it was
// asked from, so that no other name leads to it.
func checkListen(at string) error {
	if at == "" {
		return nil
	}
	if a, err := netip.ParseAddrPort(at); err == nil && !a.Addr().IsUnspecified() && a.Addr().Zone() == "" {
		return nil
	}
	return desk.Wrong("--listen is %q, want one address of this machine and a port, such as 192.0.2.7:8080 (port 0: any that is free)", at)
}

// isAt reports whether an address is one that --listen asks for.
func (a *address) isAt(listen string) bool {
	is, err := netip.ParseAddrPort(a.Host)
	want, wrong := netip.ParseAddrPort(cmp.Or(listen, anyLoopback))
	return err == nil && wrong == nil && is.Addr().Unmap() == want.Addr().Unmap() && (want.Port() == 0 || is.Port() == want.Port())
}

// listen listens on an address, "" for the loopback address: on the port of before, if it is free, with
// the token of before.
func (a *address) listen(at string) (net.Listener, error) {
	if a.isAt(at) && len(a.Token) >= 20 {
		if l, err := net.Listen("tcp", a.Host); err == nil {
			return l, nil
		}
	}
	l, err := net.Listen("tcp", cmp.Or(at, anyLoopback))
	if err != nil {
		return nil, err
	}
	a.Host, a.Token = l.Addr().String(), rand.Text()
	a.URL = "http://" + a.Host + "/" + a.Token + "/"
	return l, nil
}

// garbage is how much of it may stand beside what is used, in percent: a tenth of the processor's time
// is saved that way, for some ten megabytes.
const garbage = 400

// serve serves the work until a signal ends it.
func (o *openFlags) serve(e desk.Env, w *work, at *address) error {
	l, err := at.listen(o.listen)
	if err != nil {
		return err
	}
	if err := at.write(); err != nil {
		return errors.Join(err, l.Close())
	}
	ctx, done := e.UntilInterrupted()
	defer done()
	debug.SetGCPercent(garbage)
	b := newBench(w, o.verbs)
	go b.watch(ctx.Done())
	s := newServer(guarded(at.Token, at.Host, b.routes()))
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(&bounded{Listener: l}) }()
	if err := o.show(e, at.URL, "The workbench is open"); err != nil {
		return err
	}
	if o.listen != "" {
		fmt.Fprintln(e.Err, "Whoever has this address can read and change the line, and save it on this machine. What is sent is not encrypted.")
	}
	if w.restored {
		fmt.Fprintln(e.Err, "Work that was not saved has been brought back.")
	}
	select {
	case err = <-ended:
	case <-ctx.Done():
		err = nil
	}
	said := b.close()
	closing, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	if s.Shutdown(closing) != nil {
		_ = s.Close() // streams of events do not end by themselves
	}
	if at.path != "" {
		_ = os.Remove(at.path) // nobody answers there any more
	}
	fmt.Fprintln(e.Err, said)
	return err
}

// show prints the address and opens the browser.
func (o *openFlags) show(e desk.Env, url, says string) error {
	fmt.Fprintf(e.Out, "%s: %s\n", says, url)
	if f, is := e.Out.(interface{ Flush() error }); is {
		if err := f.Flush(); err != nil {
			return err
		}
	}
	if o.quiet {
		return nil
	}
	if err := openBrowser(url); err != nil {
		fmt.Fprintf(e.Err, "No browser could be opened (%v): open the address yourself.\n", err)
	}
	return nil
}
