package desk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// Question is all that the answer of a command depends on, so that it can be asked again: see
// [tape.Tape].
type Question struct {
	Version string            `json:"version"` // of the program: see build
	Verb    string            `json:"verb"`
	Args    []string          `json:"args"` // all that is not of the shard, or the form of the answer
	Env     map[string]string `json:"environment,omitempty"`
	Inputs  []QuestionInput   `json:"inputs,omitempty"` // in the order in which they were read
}

// QuestionInput is a file that was read.
type QuestionInput struct {
	Name string `json:"name"`
	Text []byte `json:"text"`
}

// mostInputs is how much of inputs goes into the file of a shard, bytes.
const mostInputs = 1 << 26

func (q *Question) tooLarge() error {
	all := 0
	for _, in := range q.Inputs {
		all += len(in.Text)
	}
	if all > mostInputs {
		return Wrong("the inputs are larger than %d MB, which every shard holds: want smaller ones", mostInputs>>20)
	}
	return nil
}

// digest returns a name of the question that no other has.
func (q *Question) digest() string {
	text, err := json.Marshal(q)
	if err != nil {
		panic("desk: " + err.Error()) // of texts and bytes
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// Command returns the command line that asks it.
func (q *Question) Command() string {
	words := []string{"netrate", q.Verb}
	for _, a := range q.Args {
		words = append(words, Quoted(a))
	}
	return strings.Join(words, " ")
}

// differs returns in what another question, which is not the same, differs.
func (q *Question) differs(other *Question) string {
	switch {
	case q.Version != other.Version:
		return fmt.Sprintf("is of version %s, not %s", other.Version, q.Version)
	case q.Command() != other.Command():
		return fmt.Sprintf("is of %s, not of %s", other.Command(), q.Command())
	}
	for i, in := range q.Inputs {
		if i < len(other.Inputs) && string(in.Text) != string(other.Inputs[i].Text) {
			return fmt.Sprintf("is of another text of %s", ShownFile(in.Name))
		}
	}
	return "was asked in another environment (variables NETRATE_…)"
}

// shardHead is what the file of a shard says of itself.
type shardHead struct {
	Question *Question `json:"question"`
	Digest   string    `json:"digest"`
	Round    int       `json:"round"`
	Shard    int       `json:"shard"`
	Shards   int       `json:"shards"`
}

func (h *shardHead) encode() ([]byte, error) { return json.Marshal(h) }

func decodeHead(text []byte) (*shardHead, error) {
	var h shardHead
	from := json.NewDecoder(strings.NewReader(string(text)))
	from.DisallowUnknownFields()
	if err := from.Decode(&h); err != nil {
		return nil, err
	}
	if h.Question == nil || h.Digest != h.Question.digest() || h.Round < 1 || h.Shard < 1 || h.Shards < h.Shard || h.Shards > mostShards {
		return nil, fmt.Errorf("its head does not add up")
	}
	return &h, nil
}

// shardEnding is what the names of the files of shards end with.
const shardEnding = ".shard"

// path returns what the file is called.
func (h *shardHead) path(dir string) string {
	return filepath.Join(dir, fmt.Sprintf("%sround%d-%05d-of-%05d%s", h.Question.fileBegins(h.Digest), h.Round, h.Shard, h.Shards, shardEnding))
}

// fileBegins returns what the names of all files of a question of this digest begin with.
func (q *Question) fileBegins(digest string) string { return q.Verb + "-" + digest[:8] + "-" }

// recording takes a file that is read into the question.
func (q *Question) recording(name string, from io.ReadCloser) (io.ReadCloser, error) {
	defer func() { _ = from.Close() }() // it was only read
	text, err := io.ReadAll(from)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", ShownFile(name), err)
	}
	q.Inputs = append(q.Inputs, QuestionInput{name, text})
	return io.NopCloser(bytes.NewReader(text)), nil
}

// open returns a file as it was read when the question was first asked.
func (q *Question) open(name string) (io.ReadCloser, error) {
	for _, in := range q.Inputs {
		if in.Name == name {
			return io.NopCloser(bytes.NewReader(in.Text)), nil
		}
	}
	return nil, Wrong("%s: the shards did not read it", ShownFile(name))
}

// stale returns an error if a file is no longer as the question has it.
func (q *Question) stale() error {
	var errs []error
	for _, in := range q.Inputs {
		if now, err := os.ReadFile(in.Name); in.Name != "-" && err == nil && !bytes.Equal(now, in.Text) {
			errs = append(errs, Wrong("%s is no longer what the shards were run with: run them again, or merge where it is not", Shown(in.Name)))
		}
	}
	return errors.Join(errs...)
}

// variable returns a variable of the environment that the answer depends on, unless it is that of the workers.
func (e Env) variable(name string) string {
	if e.plays != nil && name != workersVariable {
		return e.plays.Env[name]
	}
	value := e.Getenv(name)
	if e.records != nil && value != "" && name != workersVariable {
		if e.records.Env == nil {
			e.records.Env = map[string]string{}
		}
		e.records.Env[name] = value
	}
	return value
}

const workersVariable = "NETRATE_WORKERS"

// coresOfTask returns how many cores the queue has given to the task; 0 if it does not say.
func coresOfTask(getenv func(string) string) int {
	n, err := strconv.Atoi(getenv("SLURM_CPUS_ON_NODE"))
	if err != nil || n < 1 {
		return 0
	}
	return min(n, mostWorkers)
}
