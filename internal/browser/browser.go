// Package browser opens pages in a real browser, for the tests of several packages.
package browser

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// Start starts a Chromium that ends with the test. Where there is none the test is left out, but
// in CI it fails.
func Start(t *testing.T) context.Context {
	t.Helper()
	alloc, end := chromedp.NewExecAllocator(context.WithoutCancel(t.Context()),
		append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path(t)))...)
	t.Cleanup(end)
	ctx, end := chromedp.NewContext(alloc)
	t.Cleanup(end)
	require.NoError(t, chromedp.Do(ctx))               // starts it; a deadline here would end it
	ctx, end = context.WithTimeout(ctx, 6*time.Minute) // a slow machine at work takes two
	t.Cleanup(end)
	return ctx
}

// path returns the path of a Chromium.
func path(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	const missing = "no Chromium found: the page was not opened in a browser"
	if os.Getenv("CI") != "" {
		t.Fatal(missing)
	}
	t.Skip(missing)
	return ""
}

// Tab is a tab of a browser. It hears what its page asks for and what the browser complains of.
type Tab struct {
	context.Context
	Close func()

	mu                  sync.Mutex
	fetched, complaints []string
}

// NewTab opens a tab.
func NewTab(ctx context.Context, t *testing.T) *Tab {
	t.Helper()
	tab := &Tab{}
	tab.Context, tab.Close = chromedp.NewContext(ctx)
	require.NoError(t, chromedp.Listen(tab.Context, tab.note))
	return tab
}

// note is called by the browser for each event.
func (tab *Tab) note(event any) {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if at := e.Request.URL; !strings.HasPrefix(at, "data:") { // what the page carries in itself
			tab.fetched = append(tab.fetched, at)
		}
	case *log.EventEntryAdded:
		tab.complaints = append(tab.complaints, e.Entry.Text)
	case *runtime.EventConsoleAPICalled:
		tab.complaints = append(tab.complaints, "console: "+string(e.Type))
	case *runtime.EventExceptionThrown:
		says := "exception: " + e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			says += ": " + x.Description
		}
		tab.complaints = append(tab.complaints, says)
	}
}

// Show shows a page and returns its address.
func (tab *Tab) Show(t *testing.T, html string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, []byte(html), 0o600))
	at := (&url.URL{Scheme: "file", Path: filepath.ToSlash(file)}).String()
	require.NoError(t, chromedp.Do(tab.Context, chromedp.Navigate(at)))
	return at
}

// Heard returns the addresses that were asked for, the page's own too, and the complaints.
func (tab *Tab) Heard() (fetched, complaints []string) {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	return slices.Clone(tab.fetched), slices.Clone(tab.complaints)
}

// Prefers has the tab say that whoever reads it prefers something, by the name and the value of a
// media feature.
func (tab *Tab) Prefers(t *testing.T, feature, value string) {
	t.Helper()
	_, err := chromedp.Call(tab.Context, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: feature, Value: value}},
	})
	require.NoError(t, err)
}
