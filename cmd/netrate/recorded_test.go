package main

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
)

// record is the flag that keeps what TestRecorded sees, to compare two states of the code with
// diff -r.
var record = flag.String("record", "", "write the outputs of TestRecorded below this directory")

// Every output of every verb, as a sum of its bytes: a move of code changes none of them, and a
// change of one is seen. The list of commands is testdata/recorded/commands.txt.
func TestRecorded(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	commands, err := os.ReadFile("testdata/recorded/commands.txt")
	require.NoError(t, err)
	var sums strings.Builder
	for n, command := range strings.Split(strings.TrimSpace(string(commands)), "\n") {
		for _, f := range outputsOf(t, command) {
			fmt.Fprintf(&sums, "%x  %s: %s\n", sha256.Sum256(f.data), command, f.name)
			if *record != "" {
				to := filepath.Join(*record, fmt.Sprintf("%03d", n+1), f.name)
				require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o755))
				require.NoError(t, os.WriteFile(to, f.data, 0o600))
			}
		}
	}
	golden.Check(t, "testdata/recorded/sums.txt", sums.String())
}

// output is a file that a command made, or what it printed.
type output struct {
	name string
	data []byte
}

// outputsOf runs a command in a directory of its own that holds the scenarios and logs of the
// tests, and returns all that it printed or wrote there.
func outputsOf(t *testing.T, command string) []output {
	t.Helper()
	home, err := os.Getwd()
	require.NoError(t, err)
	dir := t.TempDir()
	inputs := copyInputs(t, dir)
	require.NoError(t, os.Chdir(dir))
	defer func() { require.NoError(t, os.Chdir(home)) }()
	var answer, rest strings.Builder
	if err := run(strings.Fields(command), desk.Env{Out: &answer, Err: &rest, Getenv: func(string) string { return "" }}); err != nil {
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
