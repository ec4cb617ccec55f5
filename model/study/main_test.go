package study

import (
	"errors"
	"flag"
	"os"
	"testing"
)

// TestMain fixes the seed and the number of the property tests; the flags -rapid.seed and
// -rapid.checks still go before it.
func TestMain(m *testing.M) {
	if err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400")); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
