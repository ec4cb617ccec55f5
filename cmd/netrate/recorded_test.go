package main

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/internal/golden"
)

// record is the flag that keeps what TestRecorded sees, to compare two states of the code with
// diff -r.
var record = flag.String("record", "", "write the outputs of TestRecorded below this directory")

// On another processor figures may differ in the last digit of a coordinate; the answers may
// not. Where it is emulated there is time for some commands only.
var (
	answers = flag.Bool("answers", false, "TestRecorded looks at no figures")
	every   = flag.Int("every", 1, "TestRecorded runs one command in this number")
)

// figure reports whether an output has figures in it.
func figure(name string) bool {
	return slices.Contains([]string{".svg", ".png", ".html"}, filepath.Ext(name))
}

// recorded returns those sums of the file that are of outputs looked at.
func recorded(t *testing.T, looked func(command, output string) bool) string {
	t.Helper()
	text, err := os.ReadFile("testdata/recorded/sums.txt")
	require.NoError(t, err)
	var sums strings.Builder
	for line := range strings.Lines(string(text)) {
		_, rest, _ := strings.Cut(line, "  ")
		colon := strings.LastIndex(rest, ": ")
		if looked(rest[:colon], strings.TrimSpace(rest[colon+2:])) {
			sums.WriteString(line)
		}
	}
	return sums.String()
}

// Every output of every verb, as a sum of its bytes: a move of code changes none of them, and a
// change of one is seen. The list of commands is testdata/recorded/commands.txt.
func TestRecorded(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	commands, err := os.ReadFile("testdata/recorded/commands.txt")
	require.NoError(t, err)
	var sums strings.Builder
	ran := map[string]bool{}
	looked := func(command, output string) bool { return ran[command] && !(*answers && figure(output)) }
	for n, command := range strings.Split(strings.TrimSpace(string(commands)), "\n") {
		if n%*every != 0 {
			continue
		}
		ran[command] = true
		for _, f := range outputsOf(t, command) {
			if !looked(command, f.name) {
				continue
			}
			fmt.Fprintf(&sums, "%x  %s: %s\n", sha256.Sum256(f.data), command, f.name)
			if *record != "" {
				to := filepath.Join(*record, fmt.Sprintf("%03d", n+1), f.name)
				require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o755))
				require.NoError(t, os.WriteFile(to, f.data, 0o600))
			}
		}
	}
	if *answers || *every > 1 {
		require.Equal(t, recorded(t, looked), sums.String())
		return
	}
	golden.Check(t, "testdata/recorded/sums.txt", sums.String())
}

// output is a file that a command made, or what it printed.
type output struct {
	name string
	data []byte
}

// recordedEnv is an environment in which files are made at one time, and nothing else is said.
func recordedEnv(name string) string {
	if name == "SOURCE_DATE_EPOCH" {
		return "1774000000"
	}
	return ""
}

// outputsOf runs a command in a directory of its own that holds the scenarios and logs of the
// tests, and returns all that it printed or wrote there.
func outputsOf(t *testing.T, command string) []output {
	t.Helper()
	home, err := os.Getwd()
	require.NoError(t, err)
	dir := t.TempDir()
	inputs := copyInputs(t, dir)
	require.NoError(t, os.Chdir(dir))                     //nolint:usetesting // back before the next command
	defer func() { require.NoError(t, os.Chdir(home)) }() //nolint:usetesting // as above
	var answer, rest strings.Builder
	if err := run(strings.Fields(command), desk.Env{Out: &answer, Err: &rest, Getenv: recordedEnv}); err != nil {
		fmt.Fprintln(&rest, err)
	}
	out := []output{{"stdout", []byte(answer.String())}, {"stderr", []byte(rest.String())}}
	require.NoError(t, filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || inputs[path] {
			return err
		}
		data, err := os.ReadFile(path)
		out = append(out, output{filepath.ToSlash(path), data})
		return err
	}))
	return out
}
