package desk

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

// Outputs are the files that a verb writes beside its answer, if they are asked for.
type Outputs struct {
	Report, Workbook, Pictures string // as the flags have them; "" if not wanted

	page, tables *OutFile // begun
}

// NamedFigure is a figure and the name of its files, without their endings.
type NamedFigure struct {
	Name   string
	Figure *plots.Figure
}

// NewOutputs adds the flags of the files, and returns what they are read into.
func NewOutputs(flags *pflag.FlagSet) *Outputs {
	o := &Outputs{}
	flags.StringVar(&o.Report, "report", "", "write a report to read, send or print to `FILE`, which is HTML")
	flags.StringVar(&o.Workbook, "xlsx", "", "write all tables to the workbook `FILE`")
	flags.StringVar(&o.Pictures, "plots", "", "write every figure as SVG and PNG to the directory `DIR`")
	return o
}

// Wanted reports whether there is anything to write.
func (o *Outputs) Wanted() bool { return o.Report != "" || o.Workbook != "" || o.Pictures != "" }

// Begin begins the files, so that a run does not end with the news that they cannot be
// written. Drop must be called in the end.
func (o *Outputs) Begin() (err error) {
	if o.Report != "" {
		if o.page, err = Create(o.Report); err != nil {
			return err
		}
	}
	if o.Workbook != "" {
		if o.tables, err = Create(o.Workbook); err != nil {
			return err
		}
	}
	if o.Pictures != "" {
		return os.MkdirAll(o.Pictures, 0o777)
	}
	return nil
}

// Drop throws away what is begun and not finished.
func (o *Outputs) Drop() {
	o.page.Drop()
	o.tables.Drop()
}

// Write writes what is wanted, and says where it went, a line each.
func (o *Outputs) Write(says io.Writer, report *plots.Report, tables []plots.Table, figures []NamedFigure) error {
	if !o.Wanted() {
		return nil
	}
	fmt.Fprintln(says)
	if o.page != nil {
		if err := Fill(o.page, report.HTML); err != nil {
			return err
		}
		fmt.Fprintf(says, "Report   %s\n", o.Report)
	}
	if o.tables != nil {
		if err := Fill(o.tables, func(w io.Writer) error { return plots.WriteXLSX(w, tables) }); err != nil {
			return err
		}
		fmt.Fprintf(says, "Tables   %s\n", o.Workbook)
	}
	if o.Pictures != "" {
		if err := draw(o.Pictures, figures); err != nil {
			return err
		}
		fmt.Fprintf(says, "Figures  %s, as SVG and PNG\n", filepath.Join(o.Pictures, "*"))
	}
	return nil
}

// Fill writes the contents of a file and puts it in its place.
func Fill(f *OutFile, contents func(io.Writer) error) error {
	if err := contents(f); err != nil {
		f.Drop()
		return err
	}
	return f.Finish()
}

// draw writes each figure twice.
func draw(directory string, figures []NamedFigure) error {
	var errs []error
	for _, x := range figures {
		place := filepath.Join(directory, x.Name)
		errs = append(errs,
			WriteFile(place+".svg", func(w io.Writer) error {
				svg, err := x.Figure.SVG()
				if err != nil {
					return err
				}
				_, err = w.Write(svg)
				return err
			}),
			WriteFile(place+".png", func(w io.Writer) error { return x.Figure.PNG(w, dotsPerInch) }))
	}
	return errors.Join(errs...)
}

// WriteFile writes a whole file, or none.
func WriteFile(path string, contents func(io.Writer) error) error {
	f, err := Create(path)
	if err != nil {
		return err
	}
	return Fill(f, contents)
}
