package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected texts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"netrate": main, "interrupted-twice": interruptedTwice})
}

func TestScripts(t *testing.T) {
	p := testscript.Params{Dir: "testdata/script"}
	if raced { // the commands that the others run are alike in what runs at once
		p = testscript.Params{Files: []string{"testdata/script/run.txtar", "testdata/script/compare.txtar"}}
	}
	testscript.Run(t, testscript.Params{
		Dir: p.Dir, Files: p.Files,
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			for _, name := range []string{"small.yaml", "small.txt", "variants.yaml", "variants.txt", "gateless.yaml", "jobs.yaml", "hall.yaml", "costjobs.yaml"} {
				text, err := os.ReadFile(filepath.Join("testdata", name))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, name), text, 0o600); err != nil {
					return err
				}
			}
			return nil
		},
	})
}

// exits runs a command that must end with the given status: exits 2 netrate run bad.yaml.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND …")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("%v ended with status %d, want %d", args[1:], got, want)
	}
}

func TestStatus(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		want int
	}{
		"done":                     {nil, 0},
		"failed":                   {errors.New("disk full"), 1},
		"wrong input":              {wrong("no verb"), 2},
		"interrupted":              {interrupted{signal: syscall.SIGINT}, 130},
		"terminated":               {interrupted{signal: syscall.SIGTERM}, 143},
		"interrupted, disk full":   {errors.Join(interrupted{signal: syscall.SIGINT}, errors.New("disk full")), 130},
		"wrong input and not read": {errors.Join(errors.New("disk full"), wrong("no verb")), 2},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, status(c.err)) })
	}
}

func TestMeant(t *testing.T) {
	names := []string{"run", "check", "example", "schema", "version", "help"}
	for word, want := range map[string]string{
		"chek": ": did you mean check?", "rum": ": did you mean run?", "exmaple": ": did you mean example?",
		"verzion": ": did you mean version?", "plot": "", "": "", "x": "",
	} {
		t.Run(word, func(t *testing.T) { assert.Equal(t, want, meant(word, names, "")) })
	}
}

func TestQuoted(t *testing.T) {
	for name, want := range map[string]string{
		"line.yaml": "line.yaml", "a b.yaml": "'a b.yaml'", "it's": `'it'\''s'`, "": "''", "-": "-", "größe.yaml": "größe.yaml", "$x": "'$x'",
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, want, quoted(name)) })
	}
}

// Every file name comes back from a shell as it was.
func TestQuotedInShell(t *testing.T) {
	for _, name := range []string{"line.yaml", "a b.yaml", "it's", "$HOME", "a;b", "*", "größe"} {
		out, err := exec.Command("sh", "-c", "printf %s "+quoted(name)).Output()
		require.NoError(t, err)
		assert.Equal(t, name, string(out))
	}
}
