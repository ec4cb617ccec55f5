package modeltest

import (
	"testing"

	"netrate/internal/golden"
)

// Z999 is how many standard errors a mean may lie off: 99.9 %, two-sided.
const Z999 = 3.2905

// Briefly skips a long test whose goroutines are those of shorter ones too.
func Briefly(t *testing.T) {
	t.Helper()
	if golden.Raced {
		t.Skip("the race detector watches the same code in shorter tests")
	}
}
