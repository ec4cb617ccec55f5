package desk

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/pflag"
)

// Verb is one thing that the command does.
type Verb struct {
	Name  string
	Takes string // its arguments, as the help shows them
	About string // one line
	More  string // what the help of the verb says below its flags; may be empty
	// Simulates reports whether the verb can be asked in parts: it then has the flags of shards, and all
	// that it asks is asked within [Env.UntilInterrupted].
	Simulates bool
	// Plain is what the verb does with all its arguments, which have no flags of its own; else nil.
	Plain Action
	// Prepare adds the verb's flags, and returns what is done once they are read.
	Prepare func(flags *pflag.FlagSet) Action
}

// Action does what a verb is asked for, by the arguments that are no flags.
type Action func(e Env, args []string) error

// Run reads the flags among the arguments and does what they ask.
func (v Verb) Run(args []string, e Env) error {
	flags, act, shards := v.flags()
	if v.Plain != nil && !slices.Contains(args, "--help") && !slices.Contains(args, "-h") {
		return v.Plain(e, args)
	}
	err := flags.Parse(args)
	if errors.Is(err, pflag.ErrHelp) {
		v.Help(e.Out)
		return nil
	}
	if err != nil {
		return flagError(v.Name, flags, err)
	}
	if err := nameless(flags); err != nil {
		return err
	}
	if err := apart(flags, e, flags.Args()); err != nil {
		return err
	}
	e.caught = &caught{ctx: e.Until}
	defer func() {
		if e.caught.stop != nil {
			e.caught.stop()
		}
	}()
	switch {
	case shards != nil && flags.Changed("shard"):
		return shards.run(v, args, act, e)
	case shards != nil && flags.Changed("shards"):
		return Wrong("--shards is where --shard K/N records, and there is no --shard")
	}
	return act(e, flags.Args())
}

// flags returns the flags of a verb, what is done once they are read, and those of shards, which are
// nil of a verb that has none.
func (v Verb) flags() (*pflag.FlagSet, Action, *shardFlags) {
	flags := NewFlags(v.Name)
	act := v.Prepare(flags)
	if !v.Simulates {
		return flags, act, nil
	}
	return flags, act, newShardFlags(flags)
}

// Help writes what the verb does.
func (v Verb) Help(to io.Writer) {
	fmt.Fprintf(to, "netrate %s: %s\n\nUsage: netrate %s %s\n", v.Name, v.About, v.Name, v.Takes)
	flags, _, _ := v.flags()
	if flags.HasFlags() {
		fmt.Fprintln(to)
	}
	flags.VisitAll(func(f *pflag.Flag) {
		value, about := pflag.UnquoteUsage(f)
		fmt.Fprintf(to, "  %-20s %s\n", "--"+f.Name+" "+value, about)
	})
	if v.More != "" {
		fmt.Fprintf(to, "\n%s\n", v.More)
	}
}
