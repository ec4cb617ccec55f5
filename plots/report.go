package plots

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"
)

// A Report is a page that answers a question for those who decide, and shows those
// who check it why. Title, Question and Answer are wanted, all else may be empty.
// Texts are plain; an empty line begins a new paragraph.
type Report struct {
	Title    string
	Question string
	Answer   string // one or two sentences, with the uncertainty
	Lead     string // what to know before the details
	Made     string // the date, as it shall be printed

	Decision    *Decision // on the first page; nil of a report without one
	Sections    []Section
	Assumptions []Assumption
	Settings    []Pair   // what it takes to do the same again
	Cautions    []string // see Cautions
}

// A Decision is what is decided or worked by, on one sheet: the picture, the table, what matters
// most and what to beware of. All else of the report is its appendix.
type Decision struct {
	Picture      *Figure // may be nil
	Table        Table   // such as all alternatives
	Second       Table   // below that, such as who works; none if it has no columns
	MattersHead  string  // "What it rests on most" if it is empty
	Matters      []string
	MattersBy    string // how those were found
	CautionsHead string // "Before it is decided" if it is empty
	Cautions     []string
}

// A Section is a part of the reasons: its text, its figures, then its tables.
type Section struct {
	Heading string
	Text    string
	Figures []*Figure
	Tables  []Table
}

// An Assumption is something the answer rests on.
type Assumption struct {
	What   string
	Value  string
	Source string // "not stated" is printed if there is none
}

// A Pair is a setting and its value.
type Pair struct{ Name, Value string }

//go:embed report.html.tmpl
var reportTemplate string

var reportPage = template.Must(template.New("report").Funcs(template.FuncMap{"paragraphs": paragraphs}).Parse(reportTemplate))

// HTML writes the report as one page that needs no other file, no script and no
// network, and forbids them. It prints on A4 and on Letter. The same report gives
// the same bytes. On an error nothing is written, unless w made it.
func (r *Report) HTML(w io.Writer) error {
	if err := r.check(); err != nil {
		return err
	}
	p := page{Report: r}
	if err := p.fill(); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := reportPage.Execute(&b, p); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}

func (r *Report) check() error {
	var c check
	for _, part := range []struct{ name, text string }{
		{"title", r.Title}, {"question", r.Question}, {"answer", r.Answer},
	} {
		if strings.TrimSpace(part.text) == "" {
			c.note("a report without its %s", part.name)
		}
	}
	if d := r.Decision; d != nil && len(d.Table.Columns) == 0 {
		c.note("a decision without its table")
	}
	for i, s := range r.Sections {
		if strings.TrimSpace(s.Heading) == "" {
			c.note("section %d of a report without a heading", i+1)
		}
		for k, f := range s.Figures {
			if f == nil {
				c.note("section %q of a report: figure %d is missing", s.Heading, k+1)
			}
		}
	}
	return c.err()
}

// A page is what the template fills in. Figures and tables are numbered through the
// whole report.
type page struct {
	*Report
	First    *first
	Parts    []part
	Contents []link
}

// first is what the template fills in of a decision.
type first struct {
	Picture, Table    template.HTML
	Second            template.HTML // may be empty
	Slim              template.HTML // in the place of the picture on a narrow page; may be empty
	Title, Subtitle   string        // of the picture
	Tall              string        // how tall the picture is, in widths of the page
	Matters, Cautions []string
	MattersBy         string

	MattersHead, CautionsHead string
}

type part struct {
	ID, Heading, Text string
	Figures           []htmlFigure
	Tables            []template.HTML
}

type htmlFigure struct {
	ID, Label, Title, Subtitle string
	Chart                      template.HTML
	Slim                       template.HTML // in its place on a narrow page; may be empty
}

type link struct{ ID, Heading string }

func (p *page) fill() error {
	if err := p.fillDecision(); err != nil {
		return err
	}
	figures, tables := 0, 0
	for i, s := range p.Sections {
		q := part{ID: fmt.Sprintf("section-%d", i+1), Heading: s.Heading, Text: s.Text}
		for _, f := range s.Figures {
			figures++
			svg, slim, err := f.charts()
			if err != nil {
				return fmt.Errorf("section %q, figure %d: %w", s.Heading, figures, err)
			}
			q.Figures = append(q.Figures, htmlFigure{
				ID: fmt.Sprintf("figure-%d", figures), Label: fmt.Sprintf("Figure %d", figures),
				Title: f.Title, Subtitle: f.Subtitle, Chart: svg, Slim: slim,
			})
		}
		for k := range s.Tables {
			tables++
			var b strings.Builder
			if err := s.Tables[k].html(&b, fmt.Sprintf("table-%d", tables), fmt.Sprintf("Table %d", tables)); err != nil {
				return err
			}
			q.Tables = append(q.Tables, template.HTML(b.String())) // from a template that escapes
		}
		p.Parts = append(p.Parts, q)
		p.Contents = append(p.Contents, link{q.ID, q.Heading})
	}
	for _, last := range []struct {
		link
		there bool
	}{
		{link{"assumptions", "What it rests on"}, len(p.Assumptions) > 0},
		{link{"settings", "To do it again"}, len(p.Settings) > 0},
		{link{"cautions", "Cautions"}, len(p.Cautions) > 0},
	} {
		if last.there {
			p.Contents = append(p.Contents, last.link)
		}
	}
	return nil
}

func (p *page) fillDecision() error {
	d := p.Decision
	if d == nil {
		return nil
	}
	p.First = &first{Matters: d.Matters, MattersBy: d.MattersBy, Cautions: d.Cautions, MattersHead: d.MattersHead, CautionsHead: d.CautionsHead}
	if d.Picture != nil {
		svg, slim, err := d.Picture.charts()
		if err != nil {
			return fmt.Errorf("the picture of the decision: %w", err)
		}
		p.First.Picture, p.First.Slim, p.First.Title, p.First.Subtitle = svg, slim, d.Picture.Title, d.Picture.Subtitle
		p.First.Tall = d.Picture.tall()
	}
	var b strings.Builder
	if err := d.Table.html(&b, "alternatives", ""); err != nil {
		return err
	}
	p.First.Table = template.HTML(b.String())
	if len(d.Second.Columns) > 0 {
		b.Reset()
		if err := d.Second.html(&b, "second", ""); err != nil {
			return err
		}
		p.First.Second = template.HTML(b.String())
	}
	return nil
}

// charts returns the drawing as it stands in a page, and that for a narrow page, which may be empty.
// This package made and escaped both.
func (f *Figure) charts() (svg, slim template.HTML, err error) {
	drawn, err := f.Chart()
	if err != nil || f.slim == nil {
		return template.HTML(drawn), "", err
	}
	narrow, err := f.slim.Chart()
	return template.HTML(drawn), template.HTML(narrow), err
}

// paragraphs returns the paragraphs of a text.
func paragraphs(text string) []string {
	var all []string
	text = strings.ReplaceAll(text, "\r\n", "\n")
	for p := range strings.SplitSeq(text, "\n\n") {
		if p = strings.TrimSpace(p); p != "" {
			all = append(all, p)
		}
	}
	return all
}
