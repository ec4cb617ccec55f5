package desk

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// dotsPerInch is how fine the pictures are: sharp on screens of two dots a point.
const dotsPerInch = 192

// What a signal leaves of an answer that was found before it came.
const (
	wholeAnswer  = "the answer is complete"
	filesMissing = "the answer is complete, but not all files are written"
)

// delivery is how an answer is delivered.
type delivery struct {
	Env
	says    io.Writer // where it is said what was written
	partial bool      // a signal came before the answer was whole; all of it is written all the same
}

// cut returns the error of a signal that has come since the answer was found; nil if none has.
func (d *delivery) cut(left string) error {
	if d.partial {
		return nil
	}
	return d.interrupted(left)
}

// Deliver prints the answer in the form that is asked for, and then writes the files. What
// cannot be written costs itself alone: the error says all of it. A signal keeps those files from
// being written that are not begun.
func (o *Outputs) Deliver(e Env, a Answer) error {
	d := &delivery{Env: e, says: e.Out, partial: e.caught != nil && e.caught.partial}
	errs := []error{o.print(e, a)}
	if o.JSON || o.Data == "-" {
		d.says = e.Err // what was printed stands alone
	}
	var err error
	switch {
	case o.rows != nil: // they are written
		err = o.rows.Finish()
	case o.data != nil:
		err = Fill(o.data, a.Data)
	}
	errs = append(errs, err)
	if a.Said != nil && err == nil {
		fmt.Fprint(d.says, a.Said())
	}
	if o.Wanted() {
		errs = append(errs, o.write(d, a))
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	return d.cut(wholeAnswer)
}

// print prints the answer, and sees to it that it has left before any file is written.
func (o *Outputs) print(e Env, a Answer) error {
	form := func(to io.Writer) error {
		if _, err := io.WriteString(to, o.Premise); err != nil {
			return err
		}
		return a.Text(to)
	}
	switch {
	case o.JSON:
		form = a.Document
	case o.Data == "-":
		form = a.Data
	}
	if err := form(e.Out); err != nil {
		return err
	}
	if out, buffered := e.Out.(interface{ Flush() error }); buffered {
		return out.Flush()
	}
	return nil
}

// write writes the report, the workbook and the pictures, and says where they went, a line
// each.
func (o *Outputs) write(d *delivery, a Answer) error {
	if err := d.cut(filesMissing); err != nil {
		return err
	}
	p, err := a.Page()
	if err != nil {
		return err
	}
	fmt.Fprintln(d.says)
	var errs []error
	for _, x := range []struct {
		wanted       bool
		write        func() error
		format, name string
	}{
		{o.page != nil, func() error { return Fill(o.page, p.Report.HTML) }, "Report   %s\n", o.Report},
		{o.tables != nil, func() error {
			return Fill(o.tables, func(w io.Writer) error { return plots.WriteXLSX(w, p.Tables, p.Sums...) })
		}, "Tables   %s\n", o.Workbook},
		{o.Pictures != "", func() error { return d.draw(o.Pictures, p.Figures) }, "Figures  %s, as SVG and PNG\n", filepath.Join(o.Pictures, "*")},
	} {
		if !x.wanted {
			continue
		}
		err := d.cut(filesMissing)
		if err == nil {
			err = x.write()
		}
		if errs = append(errs, err); err == nil {
			fmt.Fprintf(d.says, x.format, Shown(x.name))
		}
	}
	if lacks := lacking(p.Figures); o.Pictures != "" && lacks != "" {
		fmt.Fprint(d.says, say.Wrapped("In the PNG figures boxes stand for characters that their typeface lacks ("+lacks+"); the SVG figures have them.", say.Screen()))
	}
	if o.Pictures != "" && p.Undrawn != nil {
		fmt.Fprint(d.says, say.Wrapped("Figures left out, because their numbers are too large to be drawn: "+say.List(p.Undrawn)+".", say.Screen()))
	}
	return errors.Join(errs...)
}

// lacking returns the characters that the typeface of some figures lacks, the first ten of them.
func lacking(figures []NamedFigure) string {
	var all []rune
	for _, x := range figures {
		for _, r := range x.Figure.Lacking() {
			if !slices.Contains(all, r) {
				all = append(all, r)
			}
		}
	}
	return string(all[:min(len(all), 10)])
}

// draw writes each figure twice, up to the first that cannot be written.
func (d *delivery) draw(directory string, figures []NamedFigure) error {
	for _, x := range figures {
		place := filepath.Join(directory, x.Name)
		svg, err := x.Figure.SVG()
		if err != nil {
			return fmt.Errorf("--plots %s: %w", Shown(place+".svg"), err)
		}
		for _, form := range []struct {
			ending string
			write  func(io.Writer) error
		}{
			{".svg", func(w io.Writer) error { _, err := w.Write(svg); return err }},
			{".png", func(w io.Writer) error { return x.Figure.PNG(w, dotsPerInch) }},
		} {
			if err := d.cut(filesMissing); err != nil {
				return err
			}
			if err := WriteFile(d.Env, "plots", place+form.ending, form.write); err != nil {
				return err
			}
		}
	}
	return nil
}
