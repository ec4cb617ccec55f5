package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// hookedDisk is the disk of this machine, with something done before each call that can fail.
type hookedDisk struct {
	calls  int
	before func(call int) error // of the first it is 1
}

func (d *hookedDisk) next() error {
	d.calls++
	return d.before(d.calls)
}

func (d *hookedDisk) opened(path string, how int, mode fs.FileMode) (desk.File, error) {
	if err := d.next(); err != nil {
		return nil, &fs.PathError{Op: "open", Path: path, Err: err}
	}
	f, err := os.OpenFile(path, how, mode)
	return &hookedFile{f, d}, err
}

func (d *hookedDisk) Create(path string, mode fs.FileMode) (desk.File, error) {
	return d.opened(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
}

func (d *hookedDisk) Open(path string) (desk.File, error) { return d.opened(path, os.O_WRONLY, 0) }

func (d *hookedDisk) Mkdir(path string) error {
	if err := d.next(); err != nil {
		return err
	}
	if err := os.Mkdir(path, 0o700); err != nil && !os.IsExist(err) {
		return err
	}
	return nil
}

func (d *hookedDisk) Rename(from, to string) error {
	if err := d.next(); err != nil {
		return err
	}
	return os.Rename(from, to)
}

type hookedFile struct {
	*os.File
	disk *hookedDisk
}

func (f *hookedFile) Write(p []byte) (int, error) {
	if err := f.disk.next(); err != nil {
		n, _ := f.File.Write(p[:len(p)/2]) // as a full disk does
		return n, err
	}
	return f.File.Write(p)
}

func (f *hookedFile) Sync() error {
	if err := f.disk.next(); err != nil {
		return err
	}
	return f.File.Sync()
}

func (f *hookedFile) Close() error {
	closed := f.File.Close()
	if err := f.disk.next(); err != nil {
		return err
	}
	return closed
}

// wholeCommands are commands of every verb that writes files, without the flags of these.
var wholeCommands = []string{
	"run small.yaml --reps 3", "run group.yaml --reps 2", "run job.yaml --reps 2",
	"compare variants.yaml --reps 3", "compare variants.yaml --best --reps 70",
	"sweep small.yaml --reps 2 --vary crew.operators=1,2", "sensitivity small.yaml --reps 2", "strategy small.yaml --reps 3",
	"season season.yaml --reps 2", "plan plan.yaml --reps 2", "fit stops.csv --counts counts.csv --draws 0", "run rates.yaml --against stops.csv --counts counts.csv --reps 9",
	"check season.yaml", "trace small.yaml --shift 2", "film small.yaml --shift 2 --out o.html",
}

// fileFlagsOf returns the flags of all outputs of a command, but for pictures.
func fileFlagsOf(t *testing.T, command string) []string {
	t.Helper()
	verb, err := verbNamed(strings.Fields(command)[0])
	require.NoError(t, err)
	flags := desk.NewFlags(verb.Name)
	verb.Prepare(flags)
	var all []string
	if verb.Name == "trace" {
		return []string{"--stops", "o.csv", "--counts", "o.counts.csv", "--sets", "o.sets.csv", "--crew", "o.crew.csv", "--events", "o.json"}
	}
	if verb.Name == "film" {
		return []string{"--out", "o.html"}
	}
	for flag, file := range map[string]string{"csv": "o.csv", "out": "o.yaml", "report": "o.html", "xlsx": "o.xlsx"} {
		if flags.Lookup(flag) != nil && (flag != "csv" || !strings.Contains(command, "--against")) {
			all = append(all, "--"+flag, file)
		}
	}
	return all
}

// inputsHere goes to a new directory with the inputs of the whole commands, and with older
// outputs, and returns what is in it.
func inputsHere(t *testing.T, inputs map[string]string) map[string]string {
	t.Helper()
	t.Chdir(t.TempDir())
	files := maps.Clone(inputs)
	for _, name := range []string{"o.csv", "o.yaml", "o.html", "o.xlsx", "o.counts.csv", "o.sets.csv", "o.crew.csv", "o.json"} {
		files[name] = "old"
	}
	for name, text := range files {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	}
	return files
}

// inputsOfAll returns the inputs of the whole commands.
func inputsOfAll(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{}
	for to, from := range map[string]string{
		"season.yaml": "testdata/jobs.yaml", "plan.yaml": "testdata/plan.yaml", "small.yaml": "testdata/small.yaml", "group.yaml": "testdata/group.yaml", "job.yaml": "testdata/job.yaml",
		"variants.yaml": "testdata/variants.yaml", "stops.csv": "testdata/fitting/stops.csv", "counts.csv": "testdata/fitting/counts.csv",
	} {
		text, err := os.ReadFile(from)
		require.NoError(t, err)
		files[to] = string(text)
	}
	var text bytes.Buffer
	require.NoError(t, run([]string{"example", "log-rates"}, desk.Env{Out: &text}))
	files["rates.yaml"] = text.String()
	return files
}

// here returns all files of this directory.
func here(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("*")
	require.NoError(t, err)
	files := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		files[name] = string(text)
	}
	return files
}

// asked runs a command on a disk.
func asked(args []string, d desk.Disk) (answer, says string, err error) {
	var out, told bytes.Buffer
	err = run(args, desk.Env{In: strings.NewReader(""), Out: &out, Err: &told, Disk: d, Getenv: func(string) string { return "" }})
	return out.String(), told.String(), err
}

// Whatever call of the disk fails, in whichever verb: its answer is printed, no input is
// changed, what was there before stays or is replaced by the whole, and nothing is left but rows
// that the message tells of. A few calls of each command are tried, all of them with -torture.
func TestFaultsInWholeCommands(t *testing.T) {
	inputs := inputsOfAll(t)
	for _, command := range wholeCommands {
		t.Run(command, func(t *testing.T) {
			inputsHere(t, inputs)
			args := strings.Fields(command)
			answer, _, err := asked(args, nil)
			require.NoError(t, err)
			require.NotEmpty(t, answer)
			args = append(args, fileFlagsOf(t, command)...)
			good := &hookedDisk{before: func(int) error { return nil }}
			_, _, err = asked(args, good)
			require.NoError(t, err)
			if len(fileFlagsOf(t, command)) == 0 {
				return
			}
			whole := here(t)
			step := max(1, good.calls/5)
			if *tortured > 0 {
				step = 1
			}
			for at := 1; at <= good.calls; at += step {
				for _, lasting := range []bool{false, true} {
					before := inputsHere(t, inputs)
					d := &hookedDisk{before: func(call int) error {
						if call == at || lasting && call > at {
							return syscall.ENOSPC
						}
						return nil
					}}
					printed, says, err := asked(args, d)
					where := fmt.Sprintf("call %d of %d, lasting %t", at, good.calls, lasting)
					if err == nil { // what failed was to throw away what is not needed
						assert.Equal(t, whole, here(t), where)
						continue
					}
					require.Equal(t, 1, desk.Status(err), where)
					if printed != "" || strings.Contains(says, answer) {
						assert.True(t, strings.HasPrefix(printed+says, answer), where)
					} else {
						assert.Less(t, at, 20, "the answer is lost: %s: %v", where, err)
					}
					for name, text := range here(t) {
						switch {
						case strings.Contains(name, ".unfinished-"):
							assert.ErrorContains(t, err, "the rows so far are in "+name, where)
						case !slices.Contains([]string{before[name], whole[name]}, text):
							assert.Fail(t, "half a file, or an input changed", "%s: %s", where, name)
						}
					}
				}
			}
		})
	}
}
