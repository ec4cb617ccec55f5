package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// fused are the instructions of arm64 that multiply and add in one step, rounding once.
var fused = regexp.MustCompile(`\(([^()]*\.go:\d+)\)\t(FN?MADD|FN?MSUB)[DS]\b`)

// No result depends on the processor: nowhere does the compiler make one instruction of a
// product and a sum, as it does on arm64 and from GOAMD64=v3 on wherever a product that is
// added is not converted: write float64(x*y) + z. Figures are left out: in them the last of
// the digits may differ.
func TestNothingIsFused(t *testing.T) {
	if golden.Raced {
		t.Skip("nothing here runs at once")
	}
	listing := compiled(t, "netrate/sim/...", "netrate/model/...", "netrate/scenarios/...", "netrate/cmd/...")
	assert.Contains(t, listing, "FADDD", "the listing has sums, so it would have those fused too")
	assert.Empty(t, fusedIn(listing), "write float64(x*y) + z here")
}

// What the test looks for is what the compiler writes.
func TestFusedIsSeen(t *testing.T) {
	dir := t.TempDir()
	source := "package p\n\nfunc Plain(x, y, z float64) float64 { return x*y + z }\n\n" +
		"func Less(x, y, z float64) float64 { t := x * y; return z - t }\n\n" +
		"func Converted(x, y, z float64) float64 { return float64(x*y) + z }\n"
	file := filepath.Join(dir, "p.go")
	require.NoError(t, os.WriteFile(file, []byte(source), 0o600))
	seen := fusedIn(compiled(t, file))
	for i := range seen {
		seen[i] = filepath.Base(seen[i])
	}
	assert.Equal(t, []string{"p.go:3", "p.go:5"}, seen)
}

// compiled returns the listing of the packages for arm64.
func compiled(t *testing.T, packages ...string) string {
	t.Helper()
	build := exec.Command("go", append([]string{"build", "-gcflags=-S"}, packages...)...)
	build.Env = append(os.Environ(), "GOARCH=arm64", "CGO_ENABLED=0", "GOFLAGS=")
	listing, err := build.CombinedOutput()
	require.NoError(t, err, "%.2000s", listing)
	return string(listing)
}

// fusedIn returns the lines of source that become such an instruction, each once.
func fusedIn(listing string) []string {
	var lines []string
	for line := range strings.Lines(listing) { // 200 MB of them: few are for the slow eye of the expression
		if !strings.Contains(line, "\tFM") && !strings.Contains(line, "\tFNM") {
			continue
		}
		if found := fused.FindStringSubmatch(line); found != nil {
			lines = append(lines, strings.TrimSpace(found[1]))
		}
	}
	slices.Sort(lines)
	return slices.Compact(lines)
}
