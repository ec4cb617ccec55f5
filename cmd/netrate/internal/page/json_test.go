package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A head and an answer are one object; text in it stands as it is.
func TestJoined(t *testing.T) {
	var b strings.Builder
	require.NoError(t, WriteDocument(&b, Joined{struct {
		Name string `json:"name"`
	}{"a < b & c"}, map[string]int{"one": 1}}))
	//nolint:testifylint // byte for byte: what JSON may escape stands as it is
	assert.Equal(t, "{\n  \"name\": \"a < b & c\",\n  \"one\": 1\n}\n", b.String())
}
