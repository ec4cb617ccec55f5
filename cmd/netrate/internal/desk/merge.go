package desk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"netrate/sim/tape"
)

// MergeVerb returns the verb merge. Other verbs are found by their names.
func MergeVerb(named func(string) (Verb, error)) Verb {
	return Verb{
		Name: "merge", Takes: "FILES…", About: "answer a question whose shards were run by --shard",
		More: `FILES are the files of all shards, or directories of them. The answer is the one that the verb
would have given on one machine, to the last bit. The flags are those that say in what form
it gives it: --json, --csv, --report and so on.

Shards that are missing, cut, of another scenario, version or seed, or there twice are
named, with what is to be run again. Where it depends on what was simulated how much more
there is to simulate, shards are run in rounds: until the last the status is 3, and what
is to be run is printed. See netrate help clusters.`,
		Prepare: func(*pflag.FlagSet) Action { return nil },
		Plain:   func(e Env, args []string) error { return merge(e, args, named) },
	}
}

func merge(e Env, args []string, named func(string) (Verb, error)) error {
	v, err := verbOf(args, named)
	if err != nil {
		return err
	}
	paths, form, err := mergeFlags(v, args)
	if err != nil {
		return err
	}
	dir := shardsDir
	if len(paths) > 0 {
		dir = filepath.Dir(paths[0])
	}
	files, broken := openShards(paths)
	if len(files) == 0 {
		return broken
	}
	all, err := roundsOf(files)
	if err != nil {
		return errors.Join(broken, err)
	}
	q := files[0].head.Question
	if len(all.whole) == 0 || broken != nil {
		return errors.Join(broken, all.gap(q, dir))
	}
	if err := errors.Join(q.ofThis(), q.stale()); err != nil {
		return err
	}
	e.tape, e.plays = tape.Player(all.complete()), q
	err = v.Run(append(form, q.Args...), e)
	_, damaged := errors.AsType[*tape.Broken](err)
	switch {
	case err != nil && len(e.tape.Missing) > 0 && len(all.after) > 0:
		return all.gap(q, dir)
	case err != nil && len(e.tape.Missing) > 0:
		return all.next(q, dir)
	case damaged:
		return Wrong("%v: remove it, and run its shard again", err)
	}
	return err
}

// verbOf returns the verb that the first file of a shard among the arguments is of.
func verbOf(args []string, named func(string) (Verb, error)) (Verb, error) {
	var wrong error
	for _, a := range args {
		if strings.HasPrefix(a, "-") {
			continue
		}
		paths, err := shardPaths(a)
		for _, path := range paths {
			f, broken := openShard(path)
			if broken == nil {
				return named(f.head.Question.Verb)
			}
			if err == nil {
				err = broken
			}
		}
		if wrong == nil {
			wrong = err
		}
	}
	if wrong == nil {
		wrong = Wrong("merge takes the files of shards, or directories of them, found none")
	}
	return Verb{}, wrong
}

// shardPaths returns the files of shards that a name stands for: itself, or those of a directory.
func shardPaths(name string) ([]string, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, Wrong("%s: %v", Shown(name), bare(err))
	case !info.IsDir():
		return []string{name}, nil
	}
	paths, err := shardsIn(name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", Shown(name), bare(err))
	}
	if len(paths) == 0 {
		return nil, Wrong("%s has no files of shards", Shown(name))
	}
	return paths, nil
}

// mergeFlags returns the files among the arguments, and the flags that say in what form the answer is
// wanted.
func mergeFlags(v Verb, args []string) (paths, form []string, err error) {
	flags, _, _ := v.flags()
	if err := flags.Parse(args); err != nil {
		return nil, nil, flagError("merge, of shards of "+v.Name+",", flags, err)
	}
	var errs []error
	flags.Visit(func(f *pflag.Flag) {
		if !isOutput(f) {
			errs = append(errs, Wrong("--%s is a part of what was asked: merge only takes the form of the answer", f.Name))
		}
		form = append(form, formFlag(f))
	})
	for _, a := range flags.Args() {
		some, err := shardPaths(a)
		if err != nil {
			errs = append(errs, err)
		}
		paths = append(paths, some...)
	}
	return paths, form, errors.Join(errs...)
}

// openShards opens files, and returns what is wrong with each of those that are broken.
func openShards(paths []string) (files []*shardFile, broken error) {
	var errs []error
	for _, path := range paths {
		f, err := openShard(path)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		files = append(files, f)
	}
	return files, errors.Join(errs...)
}

// ofThis returns an error if the question is of another version of the program: it might answer
// otherwise.
func (q *Question) ofThis() error {
	switch this, err := build(); {
	case err != nil:
		return err
	case q.Version != this:
		return Wrong("the shards are of version %s, and this is %s: want the same", q.Version, this)
	}
	return nil
}

// gap returns that shards are missing, and what to run again; nil if none are.
func (r *rounds) gap(q *Question, dir string) error {
	if len(r.after) == 0 {
		return nil
	}
	return Wrong("%s", r.again(q, dir))
}

// next returns that another round is needed.
func (r *rounds) next(q *Question, dir string) error {
	last := r.whole[len(r.whole)-1]
	text := fmt.Sprintf("what was simulated does not answer it yet: run round %d, in as many shards as you like, such as\n  %s", last.number+1, q.shardCommand(fmt.Sprintf("1/%d", last.shards), dir))
	if last.shards > 1 {
		text += fmt.Sprintf("\nto %d/%d", last.shards, last.shards)
	}
	return needsRound{text}
}
