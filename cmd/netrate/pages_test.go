package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/internal/browser"
	"netrate/internal/golden"
)

// Nothing in the pages of the verbs keeps anybody from using them, on a phone, on a small screen and on
// a large one. Those of run and compare: TestReportsAreForEverybody of present.
func TestPagesAreForEverybody(t *testing.T) {
	ctx := browser.Start(t)
	page := filepath.Join(t.TempDir(), "r.html")
	t.Chdir("testdata/fitting")
	for name, command := range map[string]string{
		"sweep":       "sweep --example direct-mail --vary line.speed=12000/h:18000/h:4 --reps 8",
		"sweep of 2":  "sweep --example seventh-feeder --vary crew.operators=1:3:3 --vary line.speed=12000/h,16000/h --reps 8",
		"sensitivity": "sensitivity --example statements --reps 8",
		"strategy":    "strategy --example divert-or-stop --reps 12",
		"season":      "season --example flats-season --reps 8",
		"accept":      "accept --example tender --bad unacceptable --clause stops --clause clearing=50s:70s --clause defective --reps 200",
		"design":      "design --example design-budget --reps 60",
		"fit":         "fit stops.csv --counts counts.csv",
		"against":     "run line.yaml --against stops.csv --counts counts.csv --reps 40",
	} {
		if golden.Raced && name != "sweep" { // one shows it what all would
			continue
		}
		t.Run(name, func(t *testing.T) {
			var out strings.Builder
			e := desk.Env{In: strings.NewReader(""), Out: &out, Err: &out, Getenv: func(string) string { return "" }}
			require.NoError(t, run(append(strings.Fields(command), "--report", page), e), out.String())
			html, err := os.ReadFile(page)
			require.NoError(t, err)
			assert.Empty(t, browser.Unusable(ctx, t, string(html), 360, 1024, 1440))
		})
	}
}
