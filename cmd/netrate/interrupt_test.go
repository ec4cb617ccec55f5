package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// interruptedTwice is a command that waits for its first interruption, and then for
// nothing, so that only a second one can end it.
func interruptedTwice() {
	ctx, _ := desk.UntilInterrupted()
	interruptMyself()
	<-ctx.Done()
	var cause desk.Interrupted
	errors.As(context.Cause(ctx), &cause)
	fmt.Println(cause.Signal)
	interruptMyself()
	select {}
}

func interruptMyself() {
	self, err := os.FindProcess(os.Getpid())
	if err == nil {
		err = self.Signal(os.Interrupt)
	}
	if err != nil {
		panic(err)
	}
}

func TestSecondInterruptEndsAtOnce(t *testing.T) {
	out, err := exec.Command("interrupted-twice").Output()
	var ended *exec.ExitError
	require.ErrorAs(t, err, &ended)
	how, ok := ended.Sys().(syscall.WaitStatus)
	require.True(t, ok)
	assert.Equal(t, syscall.SIGINT, how.Signal())
	assert.Equal(t, "interrupt\n", string(out))
}
