package tracing

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
)

// FilmVerb returns the verb film.
func FilmVerb() desk.Verb {
	return desk.Verb{
		Name: "film", Takes: "FILE", About: "watch a shift: a page that plays it",
		More: `FILE may be -, which is standard input. The page needs no network: open it in a browser. It plays
the shift that netrate trace shows in full: sets on the track, stocks, operators, stops and
their causes, at 1 to 10,000 times the speed, by pointer or by keys. #set=120 at the end of
its address follows set 120. --out - prints it.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &filmFlags{asked: newAsked(flags, "film", "film the example called `NAME` instead of a file", "; try netrate film --example direct-mail --shift 5 --out shift.html")}
			o.add()
			flags.StringVar(&o.out, "out", "", "write the page to `FILE`; - prints it")
			desk.Writes(flags, "out")
			return o.run
		},
	}
}

type filmFlags struct {
	asked
	out string
}

func (o *filmFlags) run(e desk.Env, args []string) error {
	if o.out == "" {
		return desk.Wrong("film wants --out FILE, or --out - to print the page")
	}
	about, err := o.line(e, args)
	if err != nil {
		return err
	}
	a, err := o.ask(e, about)
	if err != nil {
		return err
	}
	f := present.FilmOf(about.Name, &a.Traced[0], o.start.Time)
	page, err := f.Page()
	if err != nil {
		return err
	}
	write := func(to io.Writer) error {
		_, err := to.Write(page)
		return err
	}
	if o.out == "-" {
		return write(e.Out)
	}
	if err := desk.WriteFile(e, "out", o.out, write); err != nil {
		return err
	}
	_, err = fmt.Fprintf(e.Out, "Film  %s\n", desk.Shown(o.out))
	return err
}
