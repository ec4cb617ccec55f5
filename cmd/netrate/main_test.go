package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"netrate/internal/golden"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"netrate": main, "interrupted-twice": interruptedTwice, "signalled": signalled})
}

func TestScripts(t *testing.T) {
	p := testscript.Params{Dir: "testdata/script"}
	if golden.Raced { // the commands that the others run are alike in what runs at once
		p = testscript.Params{Files: []string{"testdata/script/run.txtar", "testdata/script/compare.txtar"}}
	}
	testscript.Run(t, testscript.Params{
		Dir: p.Dir, Files: p.Files,
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
		UpdateScripts: *golden.Update,
		Setup: func(e *testscript.Env) error {
			for _, name := range []string{"small.yaml", "small.txt", "variants.yaml", "variants.txt", "gateless.yaml", "jobs.yaml", "plan.yaml", "group.yaml", "costjobs.yaml", "job.yaml"} {
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
