// Package drawing has the verb that draws a line to its pitches (DrawVerb).
package drawing

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// DrawVerb returns the verb draw.
func DrawVerb() desk.Verb {
	return desk.Verb{
		Name: "draw", Takes: "FILE", About: "draw a line to its pitches, and what its variants change",
		More: `FILE may be -, which is standard input. The picture is SVG, or PNG if its name ends so; --out -
prints it as SVG. It shows where each station stands, how fast it is and what it costs on
paper; below that, what variants have moved, added, taken away or changed.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &drawFlags{}
			o.Inputs = desk.NewInputs("draw", flags, "draw the example called `NAME` instead of a file", "; try netrate draw --example direct-mail --out line.svg")
			o.AddJob(flags)
			flags.StringVar(&o.out, "out", "", "write the picture to `FILE`; - prints it")
			desk.Writes(flags, "out")
			return o.run
		},
	}
}

type drawFlags struct {
	*desk.Inputs
	out string
}

// dotsPerInch is how fine a PNG is: sharp on screens of two dots a point.
const dotsPerInch = 192

func (o *drawFlags) run(e desk.Env, args []string) error {
	if o.out == "" {
		return desk.Wrong("draw wants --out FILE, or --out - to print the picture")
	}
	about, err := o.One(e, args)
	if err != nil {
		return err
	}
	if about.LineGroup != nil {
		return desk.WrongAt(about.Scenario, []string{"lines"}, "the file has several lines with one crew, and a drawing is of one line")
	}
	if !about.NoWork {
		if about.Scenario, about.Setups, err = o.SetUp(about.Scenario); err != nil {
			return err
		}
	}
	f, err := present.LayoutOnPaper(single(page.AlternativesOf(about.Scenario)))
	if err != nil {
		return err
	}
	if o.out == "-" {
		return svg(f)(e.Out)
	}
	write := svg(f)
	if strings.EqualFold(filepath.Ext(o.out), ".png") {
		write = func(to io.Writer) error { return f.PNG(to, dotsPerInch) }
	}
	if err := desk.WriteFile(e, "out", o.out, write); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(e.Out, "Drawing  %s\n", desk.Shown(o.out)); err != nil {
		return err
	}
	if lacks := f.Lacking(); lacks != "" && strings.EqualFold(filepath.Ext(o.out), ".png") {
		_, err = fmt.Fprint(e.Out, say.Wrapped("Boxes stand in it for characters that its typeface lacks ("+lacks+"); as SVG it has them.", say.Screen()))
	}
	return err
}

// single returns those that are single lines.
func single(all []study.Alternative) (lines []study.Alternative) {
	for _, a := range all {
		if a.Line != nil && a.Group == nil {
			lines = append(lines, a)
		}
	}
	return lines
}

func svg(f *plots.Figure) func(io.Writer) error {
	return func(to io.Writer) error {
		text, err := f.SVG()
		_, failed := to.Write(text)
		return errors.Join(err, failed)
	}
}
