package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// The README shows what the program prints, and scenarios that it reads.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	readme := string(text)

	for _, args := range [][]string{{"run", "--example", "direct-mail"}, {"compare", "--example", "seventh-feeder"}, {"strategy", "--example", "divert-or-stop"}} {
		var answer strings.Builder
		require.NoError(t, run(args, env{out: &answer, err: &answer, getenv: func(string) string { return "" }}))
		assert.Contains(t, readme, "```\n"+answer.String()+"```\n", "the answer of %v", args)
	}

	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(readme, -1)
	require.NotEmpty(t, blocks)
	for _, b := range blocks {
		_, err := scenarios.Load("README.md", []byte(b[1]))
		assert.NoError(t, err)
	}

	for _, v := range verbs() {
		assert.Contains(t, readme, "netrate "+strings.TrimSpace(v.name+" "+v.takes), "the verb %s", v.name)
		assert.Contains(t, readme, v.about)
	}
}
