package desk

import (
	"errors"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStatus(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		want int
	}{
		"done":                     {nil, 0},
		"failed":                   {errors.New("disk full"), 1},
		"wrong input":              {Wrong("no verb"), 2},
		"interrupted":              {Interrupted{Signal: syscall.SIGINT}, 130},
		"terminated":               {Interrupted{Signal: syscall.SIGTERM}, 143},
		"interrupted, disk full":   {errors.Join(Interrupted{Signal: syscall.SIGINT}, errors.New("disk full")), 130},
		"wrong input and not read": {errors.Join(errors.New("disk full"), Wrong("no verb")), 2},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, Status(c.err)) })
	}
}
