package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMeant(t *testing.T) {
	names := []string{"run", "check", "example", "schema", "version", "help"}
	for word, want := range map[string]string{
		"chek": ": did you mean check?", "rum": ": did you mean run?", "exmaple": ": did you mean example?",
		"verzion": ": did you mean version?", "plot": "", "": "", "x": "",
	} {
		t.Run(word, func(t *testing.T) { assert.Equal(t, want, Meant(word, names, "")) })
	}
}
