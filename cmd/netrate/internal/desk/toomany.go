package desk

import (
	"errors"

	"netrate/cmd/netrate/internal/say"
	"netrate/sim"
)

// inWords returns an error of a question as people who asked for shifts or jobs, as word says,
// understand it.
func inWords(err error, word string) error {
	many, is := errors.AsType[*sim.TooMany](err)
	if !is {
		return err
	}
	what, flag := many.What, "--reps"
	switch what {
	case "replication":
		what = word
	case "draw":
		flag = "--uncertainty"
	}
	text := say.Plural(many.Each, what)
	if many.Parts > 1 {
		text = say.Plural(many.Parts, many.Part) + " with " + text + " each come to " + say.Thousands(many.Parts*many.Each)
	}
	return Wrong("%s, want at most %s, which are kept in memory: %s can ask for fewer", text, say.Thousands(many.Most), flag)
}
