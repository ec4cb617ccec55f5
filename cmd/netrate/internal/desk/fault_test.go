package desk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/plots"
	"netrate/sim"
)

// brokenDisk is a disk whose calls all work but one, which fails, and with it all after it
// if lasting.
type brokenDisk struct {
	machine
	at, call int
	lasting  bool
	failed   string // what the call was
}

func (d *brokenDisk) fails(what, path string) error {
	d.call++
	if d.call == d.at || d.lasting && d.call > d.at && d.at > 0 {
		if d.failed == "" {
			d.failed = what
		}
		return &fs.PathError{Op: what, Path: path, Err: syscall.ENOSPC}
	}
	return nil
}

func (d *brokenDisk) Create(path string, mode fs.FileMode) (File, error) {
	if err := d.fails("create", path); err != nil {
		return nil, err
	}
	f, err := d.machine.Create(path, mode)
	return &brokenFile{f, d}, err
}

func (d *brokenDisk) Mkdir(path string) error {
	return errors.Join(d.fails("mkdir", path), d.machine.Mkdir(path))
}

func (d *brokenDisk) Rename(from, to string) error {
	if err := d.fails("rename", from); err != nil {
		return err
	}
	return d.machine.Rename(from, to)
}

type brokenFile struct {
	File
	disk *brokenDisk
}

func (f *brokenFile) Write(p []byte) (int, error) {
	if err := f.disk.fails("write", f.Name()); err != nil {
		n, _ := f.File.Write(p[:len(p)/2]) // as a full disk does
		return n, err
	}
	return f.File.Write(p)
}

func (f *brokenFile) Truncate(size int64) error {
	return errors.Join(f.disk.fails("truncate", f.Name()), f.File.Truncate(size))
}

func (f *brokenFile) Sync() error {
	return errors.Join(f.disk.fails("sync", f.Name()), f.File.Sync())
}

func (f *brokenFile) Close() error {
	return errors.Join(f.File.Close(), f.disk.fails("close", f.Name()))
}

// delivered asks for everything, on a disk, and returns what was printed.
func delivered(d Disk) (printed string, begun bool, err error) {
	o := &Outputs{Data: "rows.csv", dataFlag: "csv", Report: "r.html", Workbook: "t.xlsx", Pictures: "figs"}
	defer o.Drop()
	var out bytes.Buffer
	e := Env{Out: &out, Disk: d}
	if err := o.Begin(e); err != nil {
		return out.String(), false, err
	}
	err = o.Deliver(e, Answer{
		Text: Text(func() string { return "the answer\n" }),
		Data: Text(func() string { return strings.Repeat("new rows\n", 2000) }), // more than a buffer
		Page: func() (Page, error) {
			report := plots.Report{Title: "t", Question: "q?", Answer: "a."}
			table := plots.Table{Name: "t", Columns: []plots.Column{{Title: "a"}}}
			figure, err := plots.Differences(plots.DifferencesData{
				Head: plots.Head{Title: "t", Subtitle: "s"}, Axis: "a",
				Rows: []plots.Difference{{Name: "n", Mean: sim.Estimate{Mean: 1, Half: 1, Level: 0.95, N: 9}}},
			})
			return Page{Report: &report, Tables: []plots.Table{table}, Figures: []NamedFigure{{"difference", figure}}, Undrawn: []string{"money"}}, err
		},
	})
	return out.String(), true, err
}

// At every call of the disk that can fail, no answer is lost that was computed, no half
// file has a final name, what was there before stays, nothing is left beside it, and one
// message says so with the name the user knows.
func TestFaultAtEveryCall(t *testing.T) {
	whole := func(t *testing.T, d Disk) (map[string]string, string, bool, error) {
		t.Helper()
		t.Chdir(t.TempDir())
		for _, name := range []string{"rows.csv", "r.html", "t.xlsx"} {
			require.NoError(t, os.WriteFile(name, []byte("old"), 0o600))
		}
		printed, begun, err := delivered(d)
		files := map[string]string{}
		names, globErr := filepath.Glob("*")
		inside, insideErr := filepath.Glob("figs/*")
		require.NoError(t, insideErr)
		names = append(names, inside...)
		require.NoError(t, globErr)
		for _, name := range names {
			if text, readErr := os.ReadFile(name); readErr == nil {
				files[name] = string(text)
			}
		}
		return files, printed, begun, err
	}
	good := &brokenDisk{}
	want, printed, _, err := whole(t, good)
	require.NoError(t, err)
	require.Contains(t, printed, "the answer")
	require.Contains(t, printed, "Figures left out, because their numbers are too large to be drawn: money.\n")
	require.Greater(t, good.call, 15)
	for _, lasting := range []bool{false, true} {
		for at := 1; at <= good.call; at++ {
			d := &brokenDisk{at: at, lasting: lasting}
			t.Run(fmt.Sprintf("call %d lasting %t", at, lasting), func(t *testing.T) {
				files, printed, begun, err := whole(t, d)
				if err == nil { // a trial file was thrown away: no harm is done
					require.Equal(t, "close", d.failed)
					return
				}
				assert.Equal(t, 1, Status(err))
				assert.Equal(t, begun, strings.HasPrefix(printed, "the answer\n"))
				for _, one := range Each(err) {
					assert.Regexp(t, `^--(csv rows\.csv|report r\.html|xlsx t\.xlsx|plots figs|plots figs/difference\.(svg|png)): no space left on device$`, one.Error())
				}
				lost := len(want)
				for name, text := range files {
					require.Contains(t, want, name, "nothing else is left")
					if text != "old" {
						assert.Len(t, text, len(want[name]), name)
						lost--
					}
				}
				if begun && !lasting { // of the two pictures the second is not tried after the first
					assert.LessOrEqual(t, lost, 2, "after %s: %v", d.failed, err)
				}
			})
		}
	}
}

// What runs left that died is removed; what another run, another machine or another
// program may still be writing is not.
func TestClearOf(t *testing.T) {
	t.Chdir(t.TempDir())
	this := thisRun()
	dead := fmt.Sprintf("rows.csv.part-%s-%d-abc", this.machine, 1<<22+1) // above the most a Linux has
	alive := fmt.Sprintf("rows.csv.part-%s-%d-abc", this.machine, os.Getppid())
	reused := fmt.Sprintf("rows.csv.part-%s-%d-abc", this.machine, this.process)
	ours := beside("rows.csv", part)
	far := "rows.csv.part-00000000-12-abc"
	users := []string{"rows.csv.part-2", "rows.csv.part-", "rows.csv.parting", "rows.csv"}
	for _, name := range append(users, dead, alive, reused, ours, far) {
		require.NoError(t, os.WriteFile(name, nil, 0o600))
	}
	clearOf("rows.csv")
	for _, name := range append(users, alive, ours, far) {
		assert.FileExists(t, name)
	}
	assert.NoFileExists(t, dead)
	assert.NoFileExists(t, reused)
}

func TestLongName(t *testing.T) {
	t.Chdir(t.TempDir())
	name := strings.Repeat("n", 255)
	require.NoError(t, WriteFile(Env{}, "csv", name, Text(func() string { return "x" })))
	assert.FileExists(t, name)
}

func TestEach(t *testing.T) {
	a, b := errors.New("a"), fmt.Errorf("b: %w", io.EOF)
	assert.Empty(t, Each(nil))
	assert.Equal(t, []error{a}, Each(a))
	assert.Equal(t, []error{a, b}, Each(errors.Join(a, errors.Join(b, nil, a))), "each once")
}
