package browser

import (
	_ "embed"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// axe-core finds what keeps people from using a page. It is the file axe.min.js of the npm package
// axe-core 4.14.1, unchanged, under the Mozilla Public License 2.0, which stands beside it; its
// source is the repository of that package. Tests alone use it.
//
//go:embed axe/axe.min.js
var axe string

// Violations returns what axe-core finds wrong with the page that a tab shows, by all its rules for
// WCAG 2.2 A and AA and its best practices: a line each, with the rule, what it asks for, and the
// first of the elements; none where nothing is wrong.
func (tab *Tab) Violations(t *testing.T) []string {
	t.Helper()
	_, err := chromedp.Run(tab.Context, chromedp.Evaluate[bool](axe+"\n;true"))
	require.NoError(t, err)
	const look = `axe.run(document, {resultTypes: ['violations']}).then(found => found.violations.map(v =>
		v.id + ': ' + v.help + ': ' + v.nodes.length + ' such as ' + v.nodes[0].html.slice(0, 200) + ' ' +
		(v.nodes[0].failureSummary ?? '').replaceAll('\n', ' ')).join('\n'))`
	found, err := chromedp.Run(tab.Context, chromedp.Evaluate[string](look, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	if found == "" {
		return nil
	}
	return strings.Split(found, "\n")
}
