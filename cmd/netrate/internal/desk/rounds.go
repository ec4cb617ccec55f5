package desk

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/sim/tape"
)

// round is the files of the shards of one round.
type round struct {
	number, shards int
	files          map[int]*tape.File // by shard, from 1 on
}

// missing returns the shards that are not there.
func (r *round) missing() (all []int) {
	for k := 1; k <= r.shards; k++ {
		if r.files[k] == nil {
			all = append(all, k)
		}
	}
	return all
}

// rounds are all files of one question.
type rounds struct {
	whole []*round // the first ones, of which all shards are there
	after []*round // all others
}

// of returns a round; nil if nothing is there of it.
func (r *rounds) of(number int) *round {
	for _, x := range slices.Concat(r.whole, r.after) {
		if x.number == number {
			return x
		}
	}
	return nil
}

// complete returns the files of the rounds that are whole.
func (r *rounds) complete() (files []*tape.File) {
	for _, x := range r.whole {
		for k := 1; k <= x.shards; k++ {
			files = append(files, x.files[k])
		}
	}
	return files
}

// shardFile is a file of a shard and what it says of itself.
type shardFile struct {
	*tape.File
	head *shardHead
}

// openShard reads what the file of a shard has.
func openShard(path string) (*shardFile, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, Wrong("%s: %v", Shown(path), bare(err))
	case !info.Mode().IsRegular(): // which may wait for ever for somebody to write to it
		return nil, Wrong("%s is no file", Shown(path))
	}
	f, err := tape.Open(Shown(path), &reopened{path: path}, info.Size())
	if err != nil {
		return nil, wrongShard(Shown(path), err)
	}
	head, err := decodeHead(f.Head)
	if err != nil {
		return nil, Wrong("%s is not the file of a shard of this version: %v", Shown(path), err)
	}
	return &shardFile{f, head}, nil
}

// wrongShard returns what is wrong with the file of a shard, by its name.
func wrongShard(name string, err error) error {
	if _, broken := errors.AsType[*tape.Broken](err); broken {
		return Wrong("%s %v", name, err)
	}
	return fmt.Errorf("%s: %w", name, bare(err))
}

// reopened is a file that is opened for each read, so that there may be more of them than can be
// open at a time. A read is of some hundred kilobytes.
type reopened struct{ path string }

// ReadAt reads from a place on.
func (r *reopened) ReadAt(to []byte, at int64) (int, error) {
	f, err := os.Open(r.path)
	if err != nil {
		return 0, err
	}
	defer func() { _ = f.Close() }() // it was only read
	return f.ReadAt(to, at)
}

// roundsIn returns the files of a question that are in a directory. Of those of the same command with
// another text, or by another version, it is said that they are left aside: they may be taken for them.
func roundsIn(e Env, dir string, q *Question) (*rounds, error) {
	paths, err := shardsIn(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return &rounds{}, nil
	}
	if err != nil {
		return nil, fmt.Errorf("--shards %s: %w", Shown(dir), bare(err))
	}
	own := q.fileBegins(q.digest())
	var files []*shardFile
	var others []string
	for _, path := range paths {
		if !strings.HasPrefix(filepath.Base(path), own) {
			others = append(others, path)
			continue
		}
		f, err := openShard(path)
		if err != nil {
			fmt.Fprintf(e.Err, "netrate: %v; it is left aside\n", err) // and run again
			continue
		}
		files = append(files, f)
	}
	q.warnOf(e, others)
	return roundsOf(files)
}

// warnOf says of files of other questions that they are left aside, where they are of the same command:
// they may be taken for those of the question. Of those of one question the first is looked at.
func (q *Question) warnOf(e Env, others []string) {
	seen := map[string]bool{}
	for _, path := range others {
		begins, _, _ := strings.Cut(filepath.Base(path), "-round")
		if seen[begins] {
			continue
		}
		seen[begins] = true
		f, err := openShard(path)
		if err == nil && f.head.Question.Command() == q.Command() {
			fmt.Fprintf(e.Err, "netrate: %s %s; what begins with %s is left aside\n", f.Name, q.differs(f.head.Question), Shown(begins))
		}
	}
}

// shardsIn returns the files of shards in a directory, by their names.
func shardsIn(dir string) (paths []string, err error) {
	names, err := os.ReadDir(dir)
	for _, name := range names {
		if filepath.Ext(name.Name()) == shardEnding {
			paths = append(paths, filepath.Join(dir, name.Name()))
		}
	}
	return paths, err
}

// roundsOf sorts the files of a question, or says which of them do not go together.
func roundsOf(files []*shardFile) (*rounds, error) {
	if err := ofOne(files); err != nil {
		return nil, err
	}
	by := map[int]*round{}
	var errs []error
	for _, f := range files {
		r := by[f.head.Round]
		if r == nil {
			r = &round{number: f.head.Round, shards: f.head.Shards, files: map[int]*tape.File{}}
			by[f.head.Round] = r
		}
		switch other := r.files[f.head.Shard]; {
		case f.head.Shards != r.shards:
			errs = append(errs, Wrong("%s is one of %d shards of round %d, and there are files of %d", f.Name, f.head.Shards, f.head.Round, r.shards))
		case other != nil:
			errs = append(errs, Wrong("%s and %s are both shard %d/%d of round %d: want one of them", other.Name, f.Name, f.head.Shard, f.head.Shards, f.head.Round))
		default:
			r.files[f.head.Shard] = f.File
		}
	}
	all := &rounds{}
	for _, number := range slices.Sorted(maps.Keys(by)) {
		r := by[number]
		if number == len(all.whole)+1 && len(r.missing()) == 0 {
			all.whole = append(all.whole, r)
		} else {
			all.after = append(all.after, r)
		}
	}
	return all, errors.Join(errs...)
}

// ofOne returns an error if files are of several questions: of each but the first, by the first of its
// files, in what it differs.
func ofOne(files []*shardFile) error {
	if len(files) == 0 {
		return nil
	}
	first := files[0]
	of := map[string][]*shardFile{}
	var digests []string // in the order of the files
	for _, f := range files {
		if of[f.head.Digest] == nil {
			digests = append(digests, f.head.Digest)
		}
		of[f.head.Digest] = append(of[f.head.Digest], f)
	}
	var errs []error
	for _, digest := range digests[1:] {
		other := of[digest][0]
		more := ""
		if n := len(of[digest]) - 1; n > 0 {
			more = fmt.Sprintf(" (and %s of it)", say.Plural(n, "more file"))
		}
		errs = append(errs, Wrong("%s%s %s, which is what %s is of: merge one question at a time, such as the files that begin with %s",
			other.Name, more, first.head.Question.differs(other.head.Question), first.Name, first.head.Question.fileBegins(first.head.Digest)))
	}
	return errors.Join(errs...)
}

// again returns what to run where shards are missing.
func (r *rounds) again(q *Question, dir string) string {
	var text strings.Builder
	first := r.after[0]
	if want := len(r.whole) + 1; first.number != want {
		return fmt.Sprintf("all shards of round %d are missing", want)
	}
	missing := first.missing()
	fmt.Fprintf(&text, "%s of the %d of round %d: run\n", say.Plural(len(missing), "shard is missing"), first.shards, first.number)
	for _, k := range missing[:min(len(missing), mostSaid)] {
		fmt.Fprintf(&text, "  %s\n", q.shardCommand(fmt.Sprintf("%d/%d", k, first.shards), dir))
	}
	if more := len(missing) - mostSaid; more > 0 {
		fmt.Fprintf(&text, "  and %d more, the last of them %d/%d\n", more, missing[len(missing)-1], first.shards)
	}
	return strings.TrimSuffix(text.String(), "\n")
}

// mostSaid is how many commands are listed.
const mostSaid = 20

// shardCommand returns the command that runs a shard.
func (q *Question) shardCommand(shard, dir string) string {
	text := q.Command() + " --shard " + shard
	if dir != shardsDir {
		text += " --shards " + Quoted(dir)
	}
	return text
}
