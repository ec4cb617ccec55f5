package desk

import (
	"errors"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A build of one revision as it is is called by it, whatever its executable is, which differs from
// processor to processor; what any other is made of, only its executable says.
func TestBuildsAreToldApart(t *testing.T) {
	of := func(revision, modified string) *debug.BuildInfo {
		info := &debug.BuildInfo{GoVersion: "go1.26.8"}
		if revision != "" {
			info.Settings = []debug.BuildSetting{{Key: "vcs.revision", Value: revision}, {Key: "vcs.modified", Value: modified}}
		}
		return info
	}
	name := func(info *debug.BuildInfo, executable string) string {
		text, err := buildOf(info, func() (string, error) { return executable, nil })
		require.NoError(t, err)
		return text
	}
	assert.Equal(t, name(of("abc", "false"), "1"), name(of("abc", "false"), "2"))
	assert.NotEqual(t, name(of("abc", "false"), "1"), name(of("abd", "false"), "1"))
	for what, info := range map[string]*debug.BuildInfo{"modified": of("abc", "true"), "no stamp": of("", ""), "nothing known": nil} {
		assert.NotEqual(t, name(info, "1"), name(info, "2"), what)
		again := name(info, "1")
		assert.Equal(t, again, name(info, "1"), what)
		_, err := buildOf(info, func() (string, error) { return "", errors.New("no") })
		assert.Equal(t, 2, Status(err), what)
	}
}
