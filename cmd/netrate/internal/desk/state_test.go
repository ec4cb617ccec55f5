package desk

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStateDir(t *testing.T) {
	for _, c := range []struct {
		system string
		env    map[string]string
		want   string
	}{
		{"linux", map[string]string{"HOME": "/home/a"}, "/home/a/.local/state/netrate"},
		{"linux", map[string]string{"HOME": "/home/a", "XDG_STATE_HOME": "/s"}, "/s/netrate"},
		{"linux", map[string]string{"HOME": "/home/a", "XDG_STATE_HOME": "s"}, "/home/a/.local/state/netrate"},
		{"linux", nil, ""},
		{"darwin", map[string]string{"HOME": "/Users/a"}, "/Users/a/Library/Application Support/netrate"},
		{"windows", map[string]string{"LocalAppData": "/l"}, "/l/netrate"},
		{"windows", map[string]string{"USERPROFILE": "/u"}, "/u/AppData/Local/netrate"},
	} {
		got := stateDir(c.system, func(name string) string { return c.env[name] })
		assert.Equal(t, c.want, filepath.ToSlash(got), c)
	}
}
