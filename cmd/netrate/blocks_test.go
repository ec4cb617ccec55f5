package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// A block of the README or of the manual whose first line is "$ netrate …", or another command after "$ ", shows what that
// command prints; a command line may go on with "\" at its end, and several commands may follow
// each other in a block. A line "…" stands for what is left out: between paragraphs for whole
// ones, in a paragraph for the rest of it.
//
// Commands run in a shell, in a directory that all blocks of a document share and that holds the
// scenarios and logs of the tests.

// omitted stands for what a block leaves out.
const omitted = "…"

// checkBlocks runs all commands of a document, and compares it with what they print; with
// -update it is rewritten.
func checkBlocks(t *testing.T, file string) {
	t.Helper()
	if golden.Raced {
		t.Skip("the words of the answers are not what the race detector looks at")
	}
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	dir := t.TempDir()
	copyInputs(t, dir)
	var after, block strings.Builder
	inside := false
	for line := range strings.Lines(string(before)) {
		fence := strings.HasPrefix(line, "```")
		switch {
		case fence && inside && strings.HasPrefix(block.String(), "$ "):
			after.WriteString(checkedBlock(t, dir, block.String()))
		case fence && inside:
			after.WriteString(block.String())
		case inside:
			block.WriteString(line)
			continue
		}
		if fence {
			inside = !inside
			block.Reset()
		}
		after.WriteString(line)
	}
	golden.Check(t, file, after.String())
	if t.Failed() {
		t.Log("if that is meant: go test ./cmd/netrate -run 'Readme|Manual' -update")
	}
}

// copyInputs puts the scenarios and logs of the tests into a directory, and returns their names.
func copyInputs(tb testing.TB, dir string) map[string]bool {
	tb.Helper()
	inputs := map[string]bool{}
	for _, pattern := range []string{"*.yaml", "fitting/*.yaml", "fitting/*.csv"} {
		files, err := filepath.Glob(filepath.Join("testdata", pattern))
		require.NoError(tb, err)
		for _, f := range files {
			data, err := os.ReadFile(f)
			require.NoError(tb, err)
			require.NoError(tb, os.WriteFile(filepath.Join(dir, filepath.Base(f)), data, 0o600))
			inputs[filepath.Base(f)] = true
		}
	}
	return inputs
}

// checkedBlock returns the block as it should be.
func checkedBlock(t *testing.T, dir, block string) string {
	t.Helper()
	var out strings.Builder
	lines := strings.Split(strings.TrimSuffix(block, "\n"), "\n")
	for len(lines) > 0 {
		command := 1
		for strings.HasSuffix(lines[command-1], `\`) {
			command++
		}
		end := command
		for end < len(lines) && !strings.HasPrefix(lines[end], "$ ") {
			end++
		}
		text := strings.TrimPrefix(strings.Join(lines[:command], "\n"), "$ ")
		shown := strings.Join(lines[command:end], "\n")
		printed := strings.TrimSuffix(printedBy(t, dir, text), "\n")
		excerpt, err := excerptOf(printed, shown)
		require.NoError(t, err, text)
		out.WriteString("$ " + text + "\n")
		if excerpt != "" {
			out.WriteString(excerpt + "\n")
		}
		lines = lines[end:]
	}
	return out.String()
}

// printedBy returns all that a command prints. Its errors are a part of that.
func printedBy(t *testing.T, dir, command string) string {
	t.Helper()
	sh := exec.CommandContext(t.Context(), "sh", "-c", command)
	sh.Dir, sh.Env = dir, []string{"PATH=" + os.Getenv("PATH")}
	var out bytes.Buffer
	sh.Stdout, sh.Stderr = &out, &out
	err := sh.Run()
	require.False(t, err != nil && (out.Len() == 0 || sh.ProcessState.ExitCode() > 2), "%s: %v", command, err)
	return out.String()
}

// excerptOf returns the parts of a text that an older excerpt has, as they are now.
func excerptOf(text, shown string) (string, error) {
	var excerpt []string
	paragraphs := strings.Split(text, "\n\n")
	at, skips := 0, false
	for p := range strings.SplitSeq(shown, "\n\n") {
		if p == omitted {
			excerpt, skips = append(excerpt, p), true
			continue
		}
		if skips {
			next := likest(paragraphs[at:], p)
			if next < 0 {
				return "", fmt.Errorf("there is no paragraph like %q", p)
			}
			at += next
		}
		if at == len(paragraphs) {
			break
		}
		excerpt, skips = append(excerpt, cutLike(paragraphs[at], p)), false
		at++
	}
	if !skips { // it is to be whole
		excerpt = append(excerpt, paragraphs[at:]...)
	}
	return strings.Join(excerpt, "\n\n"), nil
}

// cutLike returns a paragraph, or as many lines of it as an older one has before its "…".
func cutLike(paragraph, old string) string {
	lines, oldLines := strings.Split(paragraph, "\n"), strings.Split(old, "\n")
	last := len(oldLines) - 1
	if last < 1 || oldLines[last] != omitted || last >= len(lines) {
		return paragraph
	}
	return strings.Join(append(slices.Clone(lines[:last]), omitted), "\n")
}

// likest returns which paragraph begins most like another, or where none has its first word,
// shares most words with it; -1 if none has a third of them.
func likest(paragraphs []string, old string) int {
	old = strings.TrimSpace(old)
	words := strings.Fields(old)
	best, most := -1, len(words[0])-1
	for i, p := range paragraphs {
		p = strings.TrimSpace(p)
		same := 0
		for same < min(len(p), len(old)) && p[same] == old[same] {
			same++
		}
		if same > most {
			best, most = i, same
		}
	}
	if best >= 0 {
		return best
	}
	most = len(words) / 3
	for i, p := range paragraphs {
		shared := 0
		for w := range strings.FieldsSeq(p) {
			if slices.Contains(words, w) {
				shared++
			}
		}
		if shared > most {
			best, most = i, shared
		}
	}
	return best
}

// An excerpt says where it leaves something out, and nothing else is left out.
func TestManualExcerpts(t *testing.T) {
	const text = "a 1\na 2\na 3\n\nb 1\n\nc 1\nc 2\n\nd 1"
	for _, c := range []struct{ shown, want string }{
		{text, text},
		{"", text},           // new
		{"a 0\n\nb 0", text}, // no omission: whole
		{"a 0\na 0\n…\n\n…", "a 1\na 2\n…\n\n…"},         // the beginning of the first paragraph
		{"…\n\nc 0\n\n…", "…\n\nc 1\nc 2\n\n…"},          // one of them
		{"a 0\n\n…\n\nd 0", "a 1\na 2\na 3\n\n…\n\nd 1"}, // to the end
		{"…\n\nb 0", "…\n\nb 1\n\nc 1\nc 2\n\nd 1"},      // it ends where the text ends
	} {
		got, err := excerptOf(text, c.shown)
		require.NoError(t, err)
		assert.Equal(t, c.want, got)
	}
	got, err := excerptOf(text, "…\n\nz 1\nc 2\n\n…")
	require.NoError(t, err)
	assert.Equal(t, "…\n\nc 1\nc 2\n\n…", got, "its first word is another now")
	_, err = excerptOf(text, "…\n\nz 0\n\n…")
	assert.Error(t, err)
}
