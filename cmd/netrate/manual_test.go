package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
	"netrate/manual"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

const (
	manualDir = "../../manual"
	readme    = "../../README.md"
)

// The README and all topics of the manual show what the program prints, and scenarios that it
// reads.
func TestReadmeAndManual(t *testing.T) {
	files := []string{readme}
	for _, topic := range manual.Topics() {
		files = append(files, filepath.Join(manualDir, topic.Name+".md"))
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			checkBlocks(t, file)
			checkScenarios(t, file)
		})
	}
}

// The README leads to every topic.
func TestReadmeLinks(t *testing.T) {
	text, err := os.ReadFile(readme)
	require.NoError(t, err)
	for _, topic := range manual.Topics() {
		assert.Contains(t, string(text), "(manual/"+topic.Name+".md)")
	}
}

// checkScenarios loads all scenarios of a document: the blocks that are YAML.
func checkScenarios(t *testing.T, file string) {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	for _, b := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		_, err := scenarios.Load(filepath.Base(file), []byte(b[1]))
		assert.NoError(t, err)
	}
}

// topicText returns a topic as its file has it, which -update may have just rewritten.
func topicText(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(manualDir, name+".md"))
	require.NoError(t, err)
	return string(text)
}

// The manual says of every verb what it does and takes.
func TestManualListsVerbs(t *testing.T) {
	text := topicText(t, "commands")
	for _, v := range verbs() {
		assert.Contains(t, text, "\n  "+strings.TrimSpace(v.Name+" "+v.Takes)+" ", "the verb %s", v.Name)
		assert.Contains(t, text, v.About+"\n")
	}
}

// Every key of the JSON schema is in the topic of keys, below the name of its mapping.
func TestManualHasEveryKey(t *testing.T) {
	var schema struct {
		Properties map[string]any            `json:"properties"`
		Defs       map[string]map[string]any `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(scenarios.Schema(), &schema))
	parts := map[string]string{}
	_, list, found := strings.Cut(topicText(t, "keys"), "$ netrate schema --keys\n")
	require.True(t, found)
	for p := range strings.SplitSeq(list, "\n\n") {
		name, _, _ := strings.Cut(strings.SplitN(p, "\n", 2)[0], ":")
		parts[name] = p
	}
	has := func(mapping, key string) {
		assert.Regexp(t, `(?m)^[ *] `+key+`( |$)`, parts[mapping], "%s of %s", key, mapping)
	}
	for key := range schema.Properties {
		has("scenario", key)
	}
	seen := 0
	for name, d := range schema.Defs {
		if name == "station" { // chosen by its kind, which has a mapping of its own
			continue
		}
		for _, key := range keysIn(d) {
			has(strings.ReplaceAll(name, "_", " "), key)
			seen++
		}
	}
	assert.Greater(t, seen, 200)
}

// keysIn returns the properties of a definition and of what it may be one of.
func keysIn(d map[string]any) (keys []string) {
	own, _ := d["properties"].(map[string]any)
	for key := range own {
		keys = append(keys, key)
	}
	ways, _ := d["oneOf"].([]any)
	for _, w := range ways {
		keys = append(keys, keysIn(w.(map[string]any))...)
	}
	return keys
}

// The presets are in the manual with the numbers that they have, and so are the words for causes.
func TestManualHasPresetsAndCauses(t *testing.T) {
	text := topicText(t, "presets")
	for _, p := range scenarios.Presets() {
		assert.Contains(t, text, p.Name+": ")
		for _, v := range p.Values {
			assert.Contains(t, text, "  "+v.Key+": "+v.Text+"\n", p.Name)
		}
	}
	text = strings.Join(strings.Fields(topicText(t, "causes")), " ")
	for _, c := range stoplog.CauseWords() {
		assert.Contains(t, text, strings.Join(append([]string{c.Name}, strings.Join(c.Usual, ", ")), " "))
	}
}

// The picture of the README is what the program draws.
func TestReadmePicture(t *testing.T) {
	dir := t.TempDir()
	printedBy(t, dir, "netrate run --example direct-mail --plots figures")
	drawn, err := os.ReadFile(filepath.Join(dir, "figures", "waterfall.svg"))
	require.NoError(t, err)
	golden.Check(t, filepath.Join(manualDir, "waterfall.svg"), string(drawn))
}
