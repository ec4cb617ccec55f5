package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/scenarios"
)

// The README shows what the program prints, and scenarios that it reads.
func TestReadme(t *testing.T) {
	if golden.Raced {
		t.Skip("the words of the answers are not what the race detector looks at")
	}
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	readme := string(text)

	for _, args := range [][]string{{"run", "--example", "direct-mail"}, {"compare", "--example", "seventh-feeder"}, {"strategy", "--example", "divert-or-stop"}, {"run", "--example", "two-lines", "--reps", "200"}} {
		var answer strings.Builder
		require.NoError(t, run(args, desk.Env{Out: &answer, Err: &answer, Getenv: func(string) string { return "" }}))
		assert.Contains(t, readme, "```\n"+answer.String()+"```\n", "the answer of %v", args)
	}

	var answer strings.Builder
	x, err := scenarios.ExampleNamed("flats-season")
	require.NoError(t, err)
	require.NoError(t, run([]string{"check", "-"}, desk.Env{In: bytes.NewReader(x.Data), Out: &answer, Err: &answer}))
	assert.Contains(t, readme, "```\n"+answer.String()+"```\n", "what runs where")

	answer.Reset()
	season := []string{"season", "--example", "flats-season", "--reps", "20", "--service", "80%"}
	require.NoError(t, run(season, desk.Env{Out: &answer, Err: &answer, Getenv: func(string) string { return "" }}))
	begins := strings.Join(strings.Split(answer.String(), "\n\n")[:4], "\n\n")
	assert.Contains(t, readme, "```\n"+begins+"\n```\n", "the beginning of a season")

	answer.Reset()
	require.NoError(t, run([]string{"compare", "--example", "gate-worth"}, desk.Env{Out: &answer, Err: &answer, Getenv: func(string) string { return "" }}))
	_, worth, _ := strings.Cut(answer.String(), "\n\nMoney, ")
	worth, _, _ = strings.Cut(worth, "\n\nWhy: ")
	assert.Contains(t, readme, "```\nMoney, "+worth+"\n```\n", "what it is worth")

	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(readme, -1)
	require.NotEmpty(t, blocks)
	for _, b := range blocks {
		_, err := scenarios.Load("README.md", []byte(b[1]))
		assert.NoError(t, err)
	}

	for _, v := range verbs() {
		assert.Contains(t, readme, "netrate "+strings.TrimSpace(v.Name+" "+v.Takes), "the verb %s", v.Name)
		assert.Contains(t, readme, v.About)
	}
}

// The README shows the log and the beginning of the answer.
func TestReadmeShowsTheFit(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	t.Chdir("testdata/fitting")
	log, err := os.ReadFile("stops.csv")
	require.NoError(t, err)
	first := strings.Join(strings.Split(string(log), "\n")[:5], "\n")
	assert.Contains(t, string(text), "```\n"+first+"\n")
	var answer strings.Builder
	require.NoError(t, run([]string{"fit", "stops.csv", "--counts", "counts.csv"}, desk.Env{Out: &answer, Err: &answer, Getenv: os.Getenv}))
	begins := strings.Join(strings.Split(answer.String(), "\n\n")[:4], "\n\n")
	assert.Contains(t, string(text), "```\n"+begins+"\n```\n")
}

// And how far the rates of the log leave the answer open, and whether the log could be one of
// the simulated records.
func TestReadmeShowsTheDoubt(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	readme := string(text)
	t.Chdir("testdata/fitting")
	printed := func(args ...string) string {
		var answer strings.Builder
		require.NoError(t, run(args, desk.Env{Out: &answer, Err: &answer, Getenv: func(string) string { return "" }}))
		return answer.String()
	}
	parts := strings.Split(printed("run", "--example", "log-rates"), "\n\n")
	assert.Contains(t, readme, "```\n"+strings.Join(strings.Split(parts[1], "\n")[:5], "\n")+"\n```\n", "how far it is known")
	assert.Contains(t, readme, "```\n"+parts[4]+"\n```\n", "what the doubt comes of")

	parts = strings.Split(printed("run", "--example", "log-rates", "--against", "stops.csv", "--counts", "counts.csv"), "\n\n")
	assert.Contains(t, readme, "```\n"+strings.Join(parts[:3], "\n\n")+"\n```\n", "the log among simulated records")
}
