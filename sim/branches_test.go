package sim

import (
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The search of an agenda, looked at eight keys at a time, is of conditional moves, one for
// each key; what jumps is the loop alone. With branches in it a shift takes half as long again.
func TestLeastHasNoBranches(t *testing.T) {
	build := exec.Command("go", "build", "-gcflags=-S", ".")
	build.Env = append(os.Environ(), "GOARCH=amd64", "CGO_ENABLED=0", "GOFLAGS=")
	listing, err := build.CombinedOutput()
	require.NoError(t, err, "%.2000s", listing)
	_, code, found := strings.Cut(string(listing), "netrate/sim.(*Agenda).least STEXT")
	require.True(t, found, "the search has a function of its own")
	called := strings.Contains(string(listing), "CALL\tnetrate/sim.(*Agenda).least(SB)")
	assert.True(t, called, "it is called, not copied to where it is needed")
	code, _, found = strings.Cut(code, " STEXT")
	require.True(t, found, "and others come after it")
	moves := regexp.MustCompile(`\tCMOVQ\w+\t`).FindAllString(code, -1)
	assert.GreaterOrEqual(t, len(moves), 8, "conditional moves")
	jumps := regexp.MustCompile(`\tJ[A-Z]+\t`).FindAllString(code, -1)
	assert.LessOrEqual(t, len(jumps), 4, "jumps: %q", jumps)
}
