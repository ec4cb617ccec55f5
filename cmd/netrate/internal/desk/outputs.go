package desk

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"netrate/plots"
)

// Outputs are the forms in which a verb is asked for its answer: as text or as a document
// on the standard output, and as files.
type Outputs struct {
	JSON                       bool
	Data                       string // the file of --csv, or of --out; "-" to print it
	Report, Workbook, Pictures string // as the flags have them; "" if not wanted
	Premise                    string // said above the text: with which settings it holds, see [Premise]

	dataFlag           string // what the flag of Data is called; "" if there is none
	grows              bool   // Data are rows, and written as they come
	rows               *growing
	data, page, tables *OutFile
	made               string // a directory that was made for the pictures
}

// Answer is what a verb has found, in every form in which it can be asked for.
type Answer struct {
	Text     func(io.Writer) error // for people
	Document func(io.Writer) error // as JSON
	Data     func(io.Writer) error // what the file of --csv, or of --out, holds
	Said     func() string         // said when that is written, or in its place; may be nil
	Page     func() (Page, error)
}

// Text returns how a text is printed.
func Text(text func() string) func(io.Writer) error {
	return func(to io.Writer) error {
		_, err := io.WriteString(to, text())
		return err
	}
}

// Page is a report, and the tables and figures that are written by themselves.
type Page struct {
	Report  *plots.Report
	Tables  []plots.Table
	Figures []NamedFigure
	Sums    []plots.Calculation // sheets of the workbook that work out their figures
	Undrawn []string            // figures that are left out, because their numbers are too large to be drawn
}

// NamedFigure is a figure and the name of its files, without their endings.
type NamedFigure struct {
	Name   string
	Figure *plots.Figure
}

// AddJSON adds the flag of the document; about says in the help what it prints.
func (o *Outputs) AddJSON(flags *pflag.FlagSet, about string) {
	flags.BoolVar(&o.JSON, "json", false, about)
}

// AddData adds the flag of the file that other programs read, such as --csv.
func (o *Outputs) AddData(flags *pflag.FlagSet, name, about string) {
	o.dataFlag = name
	flags.StringVar(&o.Data, name, "", about)
	Writes(flags, name)
}

// AddRows adds the flag of a file of rows that are written as they come: see [Outputs.Rows].
func (o *Outputs) AddRows(flags *pflag.FlagSet, about string) {
	o.AddData(flags, "csv", about)
	o.grows = true
}

// Rows returns where rows are written to as they come, once the outputs are begun: with line
// ends, each whole row but for the last in the end. It is nil if no file of rows is wanted.
func (o *Outputs) Rows() io.Writer {
	if o.rows == nil {
		return nil
	}
	return o.rows
}

// AddFiles adds the flags of the files to read, send or print.
func (o *Outputs) AddFiles(flags *pflag.FlagSet) {
	flags.StringVar(&o.Report, "report", "", "write an HTML report, to read, send or print, to `FILE`")
	flags.StringVar(&o.Workbook, "xlsx", "", "write all tables to the workbook `FILE`")
	flags.StringVar(&o.Pictures, "plots", "", "write every figure as SVG and PNG to the directory `DIR`")
	Writes(flags, "report", "xlsx")
	WritesInto(flags, "plots")
}

// Wanted reports whether there are files to read, send or print.
func (o *Outputs) Wanted() bool { return o.Report != "" || o.Workbook != "" || o.Pictures != "" }

// Check returns what cannot be printed together.
func (o *Outputs) Check() error {
	if o.JSON && o.Data == "-" {
		return Wrong("--json and --%s - cannot both be printed", o.dataFlag)
	}
	return nil
}

// Begin begins the files, so that a run does not end with the news that they cannot be
// written. Drop must be called in the end, also after an error.
func (o *Outputs) Begin(e Env) error {
	for _, x := range []struct {
		flag, path string
		to         **OutFile
	}{{o.dataFlag, o.Data, &o.data}, {"report", o.Report, &o.page}, {"xlsx", o.Workbook, &o.tables}} {
		if x.path == "" || x.path == "-" && x.flag == o.dataFlag {
			continue
		}
		var err error
		if x.to == &o.data && o.grows {
			o.rows, err = o.beginRows(e)
		} else {
			*x.to, err = Create(e, x.flag, x.path)
		}
		if err != nil {
			return err
		}
	}
	if o.Pictures == "" {
		return nil
	}
	return o.beginPictures(e)
}

// beginRows begins the file of rows.
func (o *Outputs) beginRows(e Env) (*growing, error) {
	f, err := create(e, o.dataFlag, o.Data, unfinished)
	if err != nil {
		return nil, err
	}
	tellUnfinished(e.Err, f.place)
	return &growing{to: f, says: e.Err}, nil
}

// beginPictures makes the directory, but none above it, and sees whether it can be written to.
func (o *Outputs) beginPictures(e Env) error {
	at := &OutFile{asked: "--plots " + Shown(o.Pictures)}
	if info, err := os.Stat(o.Pictures); err == nil && !info.IsDir() {
		return at.failed(errors.New("is not a directory"))
	} else if errors.Is(err, os.ErrNotExist) {
		o.made = o.Pictures
	}
	if err := e.disk().Mkdir(o.Pictures); err != nil {
		return at.failed(err)
	}
	trial, err := Create(e, "plots", filepath.Join(o.Pictures, "figure.svg"))
	if err != nil {
		return at.failed(errors.Unwrap(err))
	}
	trial.Drop()
	return nil
}

// Drop throws away what is begun and not finished.
func (o *Outputs) Drop() {
	o.rows.Drop()
	o.data.Drop()
	o.page.Drop()
	o.tables.Drop()
	if o.made != "" {
		_ = os.Remove(o.made) // which it is only while it is empty
	}
}

// Withdraw takes back what was asked for as data: there is no whole of it.
func (o *Outputs) Withdraw() {
	o.data.Drop()
	o.data, o.Data = nil, ""
}
