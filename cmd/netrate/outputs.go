package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"netrate/plots"
)

// dotsPerInch is how fine the pictures are: sharp on screens of two dots a point.
const dotsPerInch = 192

// outputs are the files that a verb writes beside its answer, if they are asked for.
type outputs struct {
	report, workbook, pictures string // as the flags have them; "" if not wanted

	page, tables *outFile // begun
}

// namedFigure is a figure and the name of its files, without their endings.
type namedFigure struct {
	name   string
	figure *plots.Figure
}

func newOutputs(flags *pflag.FlagSet) *outputs {
	o := &outputs{}
	flags.StringVar(&o.report, "report", "", "write a report to read, send or print to `FILE`, which is HTML")
	flags.StringVar(&o.workbook, "xlsx", "", "write all tables to the workbook `FILE`")
	flags.StringVar(&o.pictures, "plots", "", "write every figure as SVG and PNG to the directory `DIR`")
	return o
}

// wanted reports whether there is anything to write.
func (o *outputs) wanted() bool { return o.report != "" || o.workbook != "" || o.pictures != "" }

// begin begins the files, so that a run does not end with the news that they cannot be
// written. drop must be called in the end.
func (o *outputs) begin() (err error) {
	if o.report != "" {
		if o.page, err = create(o.report); err != nil {
			return err
		}
	}
	if o.workbook != "" {
		if o.tables, err = create(o.workbook); err != nil {
			return err
		}
	}
	if o.pictures != "" {
		return os.MkdirAll(o.pictures, 0o777)
	}
	return nil
}

// drop throws away what is begun and not finished.
func (o *outputs) drop() {
	o.page.drop()
	o.tables.drop()
}

// write writes what is wanted, and says where it went, a line each.
func (o *outputs) write(says io.Writer, report *plots.Report, tables []plots.Table, figures []namedFigure) error {
	if !o.wanted() {
		return nil
	}
	fmt.Fprintln(says)
	if o.page != nil {
		if err := fill(o.page, report.HTML); err != nil {
			return err
		}
		fmt.Fprintf(says, "Report   %s\n", o.report)
	}
	if o.tables != nil {
		if err := fill(o.tables, func(w io.Writer) error { return plots.WriteXLSX(w, tables) }); err != nil {
			return err
		}
		fmt.Fprintf(says, "Tables   %s\n", o.workbook)
	}
	if o.pictures != "" {
		if err := draw(o.pictures, figures); err != nil {
			return err
		}
		fmt.Fprintf(says, "Figures  %s, as SVG and PNG\n", filepath.Join(o.pictures, "*"))
	}
	return nil
}

// fill writes the contents of a file and puts it in its place.
func fill(f *outFile, contents func(io.Writer) error) error {
	if err := contents(f); err != nil {
		f.drop()
		return err
	}
	return f.finish()
}

// draw writes each figure twice.
func draw(directory string, figures []namedFigure) error {
	var errs []error
	for _, x := range figures {
		place := filepath.Join(directory, x.name)
		errs = append(errs,
			drawn(place+".svg", func(w io.Writer) error {
				svg, err := x.figure.SVG()
				if err != nil {
					return err
				}
				_, err = w.Write(svg)
				return err
			}),
			drawn(place+".png", func(w io.Writer) error { return x.figure.PNG(w, dotsPerInch) }))
	}
	return errors.Join(errs...)
}

func drawn(path string, contents func(io.Writer) error) error {
	f, err := create(path)
	if err != nil {
		return err
	}
	return fill(f, contents)
}
