package main

import (
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"

	"netrate/cmd/netrate/internal/desk"
)

// Every flag that names a file says whether it is read or written, so that no output can
// overwrite an input.
func TestEveryFileFlagIsMarked(t *testing.T) {
	files := 0
	for _, v := range verbs() {
		flags := desk.NewFlags(v.Name)
		v.Prepare(flags)
		flags.VisitAll(func(f *pflag.Flag) {
			switch value, _ := pflag.UnquoteUsage(f); value {
			case "FILE", "LOG", "DIR":
				files++
				assert.Len(t, f.Annotations, 1, "netrate %s --%s", v.Name, f.Name)
			default:
				assert.Empty(t, f.Annotations, "netrate %s --%s", v.Name, f.Name)
			}
		})
	}
	assert.Greater(t, files, 20)
}
