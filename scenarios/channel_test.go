package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A channel without pages is told that those of a job are not its own.
func TestChannelPagesOfTheLine(t *testing.T) {
	for _, x := range Examples() {
		if x.Name != "statements" {
			continue
		}
		_, err := Load("s.yaml", []byte(strings.Replace(string(x.Data), "      pages: {table", "      # {table", 1)))
		require.ErrorContains(t, err, "has no pages: give sheets of a document, such as 2, for the line as it stands; a job has its own in their place")
	}
}
