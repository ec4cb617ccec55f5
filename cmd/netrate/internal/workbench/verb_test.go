package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An address is found again however it is written; another one, or another port, is not.
func TestAddressIsAt(t *testing.T) {
	for _, x := range []struct {
		host, listen string
		want         bool
	}{
		{"127.0.0.1:4000", "", true},
		{"127.0.0.1:4000", "127.0.0.1:4000", true},
		{"127.0.0.1:4000", "127.0.0.1:0", true},
		{"127.0.0.1:4000", "[::ffff:127.0.0.1]:4000", true},
		{"192.0.2.7:4000", "[::ffff:192.0.2.7]:0", true},
		{"[2001:db8::7]:4000", "[2001:db8:0::7]:4000", true},
		{"127.0.0.1:4000", "127.0.0.1:4001", false},
		{"192.0.2.7:4000", "", false},
		{"192.0.2.7:4000", "192.0.2.8:0", false},
		{"", "", false},
	} {
		assert.Equal(t, x.want, (&address{Host: x.host}).isAt(x.listen), "%q, %q", x.host, x.listen)
	}
}
