package main

import (
	"archive/zip"
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// signalled is a command that gets a signal at one call of its disk: signalled CALL SIGNAL and
// the arguments of netrate.
func signalled() {
	at, _ := strconv.Atoi(os.Args[1])
	number, _ := strconv.Atoi(os.Args[2])
	d := &hookedDisk{before: func(call int) error {
		if call == at {
			self, err := os.FindProcess(os.Getpid())
			if err == nil {
				err = self.Signal(syscall.Signal(number))
			}
			if err != nil {
				panic(err)
			}
			time.Sleep(200 * time.Millisecond) // until it has arrived, also where other work keeps the machine busy
		}
		return nil
	}}
	err := run(os.Args[3:], desk.Env{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Disk: d})
	for _, one := range desk.Each(err) {
		os.Stderr.WriteString("netrate: " + one.Error() + "\n") //nolint:errcheck // nobody could be told
	}
	os.Exit(desk.Status(err))
}

// ended is how a command ended.
type ended struct {
	status  int            // -1 if a signal ended it
	by      syscall.Signal // then
	out, on string         // what was printed
}

func endOf(t *testing.T, cmd *exec.Cmd, during func()) ended {
	t.Helper()
	var out, says bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &says
	require.NoError(t, cmd.Start())
	if during != nil {
		during()
	}
	err := cmd.Wait()
	if _, is := errors.AsType[*exec.ExitError](err); !is {
		require.NoError(t, err)
	}
	how, ok := cmd.ProcessState.Sys().(syscall.WaitStatus)
	require.True(t, ok)
	e := ended{status: cmd.ProcessState.ExitCode(), out: out.String(), on: says.String()}
	if how.Signaled() {
		e.by = how.Signal()
	}
	return e
}

// ending are the signals that end a command, but for those that it is to ignore, as nohup
// asks with SIGHUP: it obeys.
var ending = slices.DeleteFunc([]syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP},
	func(s syscall.Signal) bool { return signal.Ignored(s) })

// lookAfter looks at what a signal has left: no input is changed, and what has its final name
// is as it was or a whole file.
func lookAfter(t *testing.T, before map[string]string, where string) {
	t.Helper()
	now := here(t)
	for name, text := range before {
		if text != "old" {
			assert.Equal(t, text, now[name], "%s: %s is changed", where, name)
		}
	}
	for name, text := range now {
		var whole bool
		switch {
		case text == "old" || before[name] != "old":
			continue
		case filepath.Ext(name) == ".html":
			whole = strings.HasSuffix(strings.TrimSpace(text), "</html>")
		case filepath.Ext(name) == ".xlsx":
			_, err := zip.NewReader(strings.NewReader(text), int64(len(text)))
			whole = err == nil
		default:
			whole = strings.HasSuffix(text, "\n")
		}
		assert.True(t, whole, "%s: %s is half a file", where, name)
	}
}

// A signal between the answer and its files, or amid these, costs no answer: it is printed, and
// the files that were begun are whole. One that comes before anything was asked ends the command.
func TestSignalsAtEveryCallOfTheDisk(t *testing.T) {
	inputs := inputsOfAll(t)
	for i, command := range []string{"run small.yaml --reps 3", "compare variants.yaml --reps 3", "fit stops.csv --counts counts.csv --draws 0"} {
		inputsHere(t, inputs)
		args := append(strings.Fields(command), fileFlagsOf(t, command)...)
		answer, _, err := asked(strings.Fields(command), nil)
		require.NoError(t, err)
		good := &hookedDisk{before: func(int) error { return nil }}
		_, _, err = asked(args, good)
		require.NoError(t, err)
		step := 2
		if *tortured > 0 {
			step = 1
		}
		for at := 1 + i; at <= good.calls; at += step {
			sent := ending[at%len(ending)]
			before := inputsHere(t, inputs)
			e := endOf(t, exec.Command("signalled", slices.Concat([]string{strconv.Itoa(at), strconv.Itoa(int(sent))}, args)...), nil)
			where := command + ", call " + strconv.Itoa(at) + ", " + sent.String()
			lookAfter(t, before, where)
			if e.by != 0 {
				assert.Equal(t, sent, e.by, where)
				assert.Empty(t, e.out, where)
				assert.LessOrEqual(t, at, 12, "%s: the answer is lost", where)
				continue
			}
			if strings.HasPrefix(e.out, "PARTIAL ANSWER, interrupted: ") { // rows are written as shifts end, and some had not
				assert.Equal(t, 128+int(sent), e.status, where)
				assert.LessOrEqual(t, at, 12, "%s: the whole answer was known", where)
				continue
			}
			assert.True(t, strings.HasPrefix(e.out, answer), "%s: %s", where, e.out)
			if e.status == 0 { // all was done, and only what is thrown away in the end was left
				assert.Greater(t, at, good.calls-len(fileFlagsOf(t, command))/2, where)
				for i, name := range args[len(strings.Fields(command)):] {
					assert.True(t, i%2 == 0 || here(t)[name] != "old", where)
				}
				continue
			}
			assert.Equal(t, 128+int(sent), e.status, where)
			assert.Contains(t, e.on, "netrate: interrupted: the answer is complete", where)
		}
	}
}

// A signal at any moment of a command of any verb ends it as the manual says: with the status of
// the signal and an answer that is whole or says that it is partial, or with none if not even one
// shift was done. Two moments of each command are tried; with -torture a hundred.
func TestSignalsAtAnyMoment(t *testing.T) {
	inputs := inputsOfAll(t)
	moments := 2
	if *tortured > 0 {
		moments = 100
	}
	g := rand.New(rand.NewPCG(*tortureSeed, 3))
	seen := map[string]int{}
	for _, command := range wholeCommands {
		args := append(strings.Fields(command), fileFlagsOf(t, command)...)
		inputsHere(t, inputs)
		began := time.Now()
		whole := endOf(t, exec.Command("netrate", args...), nil)
		require.Zero(t, whole.status, whole.on)
		takes := time.Since(began)
		for range moments {
			before := inputsHere(t, inputs)
			sent, after := ending[g.IntN(len(ending))], time.Duration(g.Float64()*float64(takes))
			cmd := exec.Command("netrate", args...)
			e := endOf(t, cmd, func() {
				time.Sleep(after)
				_ = cmd.Process.Signal(sent) // it may have ended
			})
			where := command + ", " + sent.String() + " after " + after.String() + ": " + e.on
			lookAfter(t, before, where)
			switch {
			case e.by != 0: // before it asked, or after its end
				seen["ended at once"]++
				assert.Equal(t, sent, e.by, where)
				assert.True(t, strings.HasPrefix(whole.out, e.out), where)
			case e.status == 0:
				seen["whole"]++
				assert.Equal(t, whole.out, e.out, where)
			case strings.Contains(e.on, "the answer is partial"):
				seen["partial"]++
				assert.Contains(t, e.out, "PARTIAL ANSWER", where)
				assert.Equal(t, 128+int(sent), e.status, where)
			case strings.Contains(e.on, "there is no answer"):
				seen["none yet"]++
				assert.Empty(t, e.out, where)
				assert.Equal(t, 128+int(sent), e.status, where)
			default:
				seen["files missing"]++
				assert.Contains(t, e.on, "interrupted: the answer is complete", where)
				assert.NotEmpty(t, e.out, where)
				assert.Equal(t, 128+int(sent), e.status, where)
			}
		}
	}
	t.Logf("how they ended: %v", seen)
}
