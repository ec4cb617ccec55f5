package desk

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/sim/tape"
)

// mostShards is more tasks than one job of any queue may have.
const mostShards = 100_000

// shardFlags are the flags of a verb that can be asked in parts, by many processes.
type shardFlags struct {
	*pflag.FlagSet
	shard shardOf
	into  string
}

// shardsDir is where the files of shards are if nothing else is said.
const shardsDir = "shards"

func newShardFlags(flags *pflag.FlagSet) *shardFlags {
	o := &shardFlags{FlagSet: flags}
	flags.Var(&o.shard, "shard", "simulate part K of N, for netrate merge; auto takes K and N from the queue that runs it: see netrate help clusters")
	flags.StringVar(&o.into, "shards", shardsDir, "the directory `DIR` of the files of shards")
	return o
}

// shardOf is a flag that is one of several shards.
type shardOf struct {
	shard, shards int // from 1 on; 0 of 0 without the flag
	auto          bool
}

// Set reads K/N, auto or auto/N.
func (s *shardOf) Set(text string) error {
	wrong := fmt.Errorf("want K/N such as 3/10, from 1 to %d, or auto", mostShards)
	first, of, two := strings.Cut(text, "/")
	n := 0
	if two {
		var err error
		if n, err = strconv.Atoi(of); err != nil || n < 1 || n > mostShards {
			return wrong
		}
	}
	if first == "auto" {
		*s = shardOf{auto: true, shards: n}
		return nil
	}
	k, err := strconv.Atoi(first)
	if err != nil || !two || k < 1 || k > n {
		return wrong
	}
	*s = shardOf{shard: k, shards: n}
	return nil
}

// String returns the shard as the command line has it.
func (s *shardOf) String() string {
	switch {
	case s.auto && s.shards > 0:
		return fmt.Sprintf("auto/%d", s.shards)
	case s.auto:
		return "auto"
	case s.shards > 0:
		return fmt.Sprintf("%d/%d", s.shard, s.shards)
	}
	return ""
}

// Type returns what the help calls the value.
func (s *shardOf) Type() string { return "K/N" }

// outputFlags returns the flags that only say in what form an answer is wanted, of those that are set.
func outputFlags(flags *pflag.FlagSet) (set []string) {
	flags.Visit(func(f *pflag.Flag) {
		if isOutput(f) {
			set = append(set, "--"+f.Name)
		}
	})
	return set
}

func isOutput(f *pflag.Flag) bool {
	_, file := f.Annotations[writesFile]
	_, into := f.Annotations[writesInto]
	return f.Name == "json" || file || into
}

// run runs a shard: the verb asks its question, and what it simulates is recorded. There is
// no answer.
func (o *shardFlags) run(v Verb, args []string, act Action, e Env) error {
	if set := outputFlags(o.FlagSet); len(set) > 0 {
		return Wrong("%s goes with netrate merge: a shard has no answer", set[0])
	}
	if err := o.shard.find(e.Getenv); err != nil {
		return err
	}
	this, err := build()
	if err != nil {
		return err
	}
	s := &shardRun{shardOf: o.shard, into: o.into, asked: &Question{
		Version: this, Verb: v.Name, Args: withoutFlags(args, "shard", "shards", "workers"),
	}}
	defer s.drop()
	world := e
	e.Out, e.Terminal = io.Discard, false
	e.records = s.asked
	e.tape = tape.Shard(func(t *tape.Tape) error { return s.begin(world, t) })
	err = act(e, o.Args())
	return s.end(world, err, e.tape)
}

// withoutFlags returns arguments without some flags and their values.
func withoutFlags(args []string, names ...string) (left []string) {
	for i := 0; i < len(args); i++ {
		if args[i] == "--" {
			return append(left, args[i:]...)
		}
		name, _, valued := strings.Cut(strings.TrimPrefix(args[i], "--"), "=")
		if !strings.HasPrefix(args[i], "--") || !slices.Contains(names, name) {
			left = append(left, args[i])
			continue
		}
		if !valued && name != "json" {
			i++
		}
	}
	return left
}

// shardRun is a shard that is run.
type shardRun struct {
	shardOf
	into  string
	asked *Question
	round int
	done  string // the file that has this shard already
	file  *OutFile
	to    *tape.Writer
}

// errRecorded ends a question of which this shard has recorded its part already.
var errRecorded = errors.New("the shard is recorded already")

// begin looks for the round that is to be run, and begins the file.
func (s *shardRun) begin(e Env, t *tape.Tape) error {
	if err := s.asked.tooLarge(); err != nil {
		return err
	}
	rounds, err := roundsIn(e, s.into, s.asked)
	if err != nil {
		return err
	}
	s.round = len(rounds.whole) + 1
	if own := rounds.of(s.round); own != nil {
		if own.shards != s.shards {
			return Wrong("round %d in %s was begun in %d shards, and this is one of %d", s.round, Shown(s.into), own.shards, s.shards)
		}
		if f := own.files[s.shard]; f != nil {
			s.done = f.Name
			return errRecorded
		}
	}
	if err := e.disk().Mkdir(s.into); err != nil {
		return fmt.Errorf("--shards %s: %w", Shown(s.into), bare(err))
	}
	head := &shardHead{Question: s.asked, Digest: s.asked.digest(), Round: s.round, Shard: s.shard, Shards: s.shards}
	if s.file, err = Create(e, "", head.path(s.into)); err != nil {
		return err
	}
	text, err := head.encode()
	if err != nil {
		return err
	}
	s.to = tape.NewWriter(s.file, text)
	t.Plays(rounds.complete())
	t.RecordsPart(s.shard, s.shards, s.to)
	return nil
}

func (s *shardRun) drop() { s.file.Drop() }

// end finishes the file, and says what became of the shard.
func (s *shardRun) end(e Env, err error, t *tape.Tape) error {
	var early Interrupted
	switch {
	case s.done != "":
		fmt.Fprintf(e.Out, "Shard %s of round %d is recorded already, in %s.\n", &s.shardOf, s.round, s.done)
		return nil
	case errors.As(err, &early):
		early.text = "nothing is recorded of this shard"
		return early
	case err != nil && (len(t.Missing) == 0 || !errors.Is(err, tape.ErrElsewhere)):
		return err
	case s.to == nil || err == nil:
		fmt.Fprintf(e.Out, "Nothing is left to simulate: netrate merge %s answers.\n", Quoted(s.into))
		return nil
	}
	if err := s.to.Close(); err != nil {
		return s.file.failed(err)
	}
	if err := s.file.Finish(); err != nil {
		return err
	}
	fmt.Fprintf(e.Out, "Shard %s of round %d is recorded in %s.\n", &s.shardOf, s.round, s.file.asked)
	return nil
}

// Parts are what a verb's arguments say of its shards.
type Parts struct {
	Question []string // the arguments that are of the question
	Form     []string // those that say in what form the answer is wanted
	Shards   string   // the directory of the files of shards; "" if none is named
}

// Parts returns the parts of the arguments of a verb; an error if it cannot be asked in shards, or not so.
func (v Verb) Parts(args []string) (*Parts, error) {
	if !v.Simulates {
		return nil, Wrong("%s is not asked in shards: it does not simulate", v.Name)
	}
	flags, _, shards := v.flags()
	if err := flags.Parse(args); err != nil {
		return nil, flagError(v.Name, flags, err)
	}
	switch {
	case flags.Changed("shard"):
		return nil, Wrong("--shard is what the job says to each task: leave it out")
	case flags.Changed("workers"):
		return nil, Wrong("--workers is as many as a task has cores: say --cores before the queue")
	}
	p := &Parts{}
	if flags.Changed("shards") {
		p.Shards = shards.into
	}
	drop := []string{"shards"}
	flags.Visit(func(f *pflag.Flag) {
		if isOutput(f) {
			drop = append(drop, f.Name)
			p.Form = append(p.Form, formFlag(f))
		}
	})
	p.Question = withoutFlags(args, drop...)
	return p, nil
}

// formFlag returns a flag as an argument.
func formFlag(f *pflag.Flag) string {
	if f.NoOptDefVal != "" { // json
		return "--" + f.Name
	}
	return "--" + f.Name + "=" + f.Value.String()
}

// Inputs returns the files that the arguments of a verb name.
func (v Verb) Inputs(args []string) ([]string, error) {
	flags, _, _ := v.flags()
	if err := flags.Parse(args); err != nil {
		return nil, flagError(v.Name, flags, err)
	}
	names := flags.Args()
	flags.Visit(func(f *pflag.Flag) {
		if _, reads := f.Annotations[readsFile]; reads {
			names = append(names, f.Value.String())
		}
	})
	return names, nil
}
