package plots

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sampleReport is a report with one of everything. Its numbers are invented.
func sampleReport(t *testing.T) *Report {
	t.Helper()
	make := made(t)
	return &Report{
		Title:    "Does a gate pay?",
		Question: "How many good envelopes an hour will the line deliver?",
		Answer:   "12,260 ± 30 envelopes an hour.\n\nNine shifts of ten lie between 11,800 and 12,720.",
		Lead:     "All numbers are invented.",
		Made:     "25 November 2026",
		Sections: []Section{
			{
				Heading: "The variants compared", Text: "One paragraph.\n\nAnother <paragraph>.",
				Figures: []*Figure{make(Boxes(boxesOf(head, 3, plainName))), make(Waterfall(waterfallOf(head, 4, longName)))},
				Tables:  []Table{variantsTable()},
			},
			{Heading: "What would change it", Figures: []*Figure{make(Tornado(tornadoOf(head, 3, plainName)))}, Tables: []Table{variantsTable()}},
		},
		Assumptions: []Assumption{{"Doubles", "1 in 20,000", "stop log"}, {"Walking", "8 s", ""}},
		Settings:    []Pair{{"Seed", "7"}, {"Command", "netrate run gate.yaml --seed 7"}},
		Cautions:    Cautions(),
	}
}

func pageOf(t *testing.T, r *Report) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, r.HTML(&b))
	return b.String()
}

// An element is one of a page, with its attributes and all the text in it.
type element struct {
	name, text string
	attr       map[string]string
}

// elements returns the elements of a page in the order in which they begin. The
// page must be well-formed, but for elements of HTML that have no end.
func elements(page string) ([]*element, error) {
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var all, open []*element
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all, nil
		} else if err != nil {
			return nil, err
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{name: token.Name.Local, attr: map[string]string{}}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			all, open = append(all, e), append(open, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, e := range open {
				e.text += string(token)
			}
		}
	}
}

const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"

var (
	address  = regexp.MustCompile(`(?i)(https?:)?//[a-z]|url\(|@import`)
	headings = []string{"h1", "h2", "h3", "h4", "h5", "h6"}
)

// pageFaults returns what is wrong with the structure of a page.
func pageFaults(page string) (faults []string) {
	note := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	all, err := elements(page)
	if err != nil {
		return []string{err.Error()}
	}
	if !strings.Contains(page, `<meta http-equiv="Content-Security-Policy" content="`+policy+`">`) {
		note("no policy")
	}
	if m := address.FindString(strings.ReplaceAll(page, `xmlns="http://www.w3.org/2000/svg"`, "")); m != "" {
		note("an address: %s", m)
	}
	ids, level := map[string]bool{}, 0
	for _, e := range all {
		if id, ok := e.attr["id"]; ok {
			if ids[id] {
				note("id %q twice", id)
			}
			ids[id] = true
		}
		if n := slices.Index(headings, e.name) + 1; n > 0 {
			if n > level+1 || n == 1 && level > 0 {
				note("%s after h%d", e.name, level)
			}
			level = n
		}
	}
	for _, e := range all {
		for key := range e.attr {
			if strings.HasPrefix(key, "on") || key == "style" || key == "src" {
				note("%s with %s", e.name, key)
			}
		}
		switch href := e.attr["href"]; {
		case slices.Contains([]string{"script", "iframe", "object", "embed", "form", "img", "image", "use", "base"}, e.name):
			note("an element %s", e.name)
		case e.name == "a" && !(strings.HasPrefix(href, "#") && ids[href[1:]]):
			note("a link to %q", href)
		case e.name == "link" && href != "data:,":
			note("a file %q", href)
		case e.name == "th" && e.attr["scope"] == "":
			note("heading %q without a scope", e.text)
		case e.name == "svg" && (e.attr["role"] != "img" || e.attr["aria-label"] == ""):
			note("a drawing without words")
		case e.name == "html" && e.attr["lang"] == "", (e.name == "title" || e.name == "h1") && e.text == "":
			note("an empty %s", e.name)
		}
	}
	return faults
}

func TestReportStructure(t *testing.T) {
	r := sampleReport(t)
	page := pageOf(t, r)
	assert.Empty(t, pageFaults(page))
	assert.Equal(t, page, pageOf(t, r), "made twice")
	all, err := elements(page)
	require.NoError(t, err)
	texts := map[string][]string{}
	for _, e := range all {
		texts[e.name+"."+e.attr["class"]] = append(texts[e.name+"."+e.attr["class"]], strings.TrimSpace(e.text))
	}
	assert.Equal(t, []string{r.Title}, texts["h1."])
	assert.Equal(t, []string{
		r.Question, "The variants compared", "What would change it", "What it rests on", "To do it again", "Cautions",
	}, texts["h2."])
	assert.Equal(t, texts["h2."][1:], texts["a."], "contents")
	assert.Equal(t, []string{"12,260 ± 30 envelopes an hour.", "Nine shifts of ten lie between 11,800 and 12,720."}, texts["p.answer"])
	assert.Equal(t, []string{"One paragraph.", "Another <paragraph>."}, texts["p."])
	assert.Equal(t, Cautions(), texts["li."][len(texts["a."]):])
	assert.Equal(t, []string{"not stated"}, texts["span.unstated"])
	require.Len(t, texts["figcaption."], 3)
	for i, s := range texts["figcaption."] {
		assert.Equal(t, fmt.Sprintf("Figure %d %s %s", i+1, head.Title, head.Subtitle), s)
	}
	assert.Equal(t, []string{
		"Table 1. Net rate & what is <lost>, variant by variant", "Table 2. Net rate & what is <lost>, variant by variant",
	}, texts["caption."])
	for _, s := range []string{r.Made, r.Lead, "netrate run gate.yaml --seed 7", "stop log"} {
		assert.Contains(t, page, s)
	}
}

// Each fault planted in a good page is seen.
func TestPageFaultsAreSeen(t *testing.T) {
	page := pageOf(t, sampleReport(t))
	for planted, want := range map[string]string{
		`<script>alert(1)</script>`:               "an element script",
		`<img src="data:,">`:                      "an element img",
		`<p onclick="x()">x</p>`:                  "p with onclick",
		`<p>https://example.org</p>`:              "an address: https://e",
		`<p>//example.org</p>`:                    "an address: //e",
		`<style>p { background: url(x) }</style>`: "an address: url(",
		`<h4>x</h4>`:                              "h4 after h2",
		`<h1>x</h1>`:                              "h1 after h2",
		`<p id="figure-1">x</p>`:                  `id "figure-1" twice`,
		`<a href="#nowhere">x</a>`:                `a link to "#nowhere"`,
		`<th>x</th>`:                              `heading "x" without a scope`,
		`<svg role="img"></svg>`:                  "a drawing without words",
		`</p>`:                                    "unexpected end element",
	} {
		t.Run(planted, func(t *testing.T) {
			assert.Contains(t, strings.Join(pageFaults(strings.Replace(page, "</main>", planted+"</main>", 1)), "; "), want)
		})
	}
	assert.Contains(t, pageFaults(strings.Replace(page, "default-src 'none'; ", "", 1)), "no policy")
}

// Text cannot become anything but text, wherever it stands.
func TestReportEscapes(t *testing.T) {
	const evil = `"'><script>alert(1)</script><!-- {{.}} <b onclick=x>`
	make := made(t)
	boxes := boxesOf(Head{Title: evil, Subtitle: evil}, 1, func(int) string { return evil })
	table := Table{Name: evil, Caption: evil, Columns: []Column{{Title: evil, Unit: evil}, {Title: evil, Unit: evil, Kind: Number}}, Rows: [][]Entry{{{Text: evil}, {Text: evil}}}}
	page := pageOf(t, &Report{
		Title: evil, Question: evil, Answer: evil, Lead: evil, Made: evil,
		Sections:    []Section{{Heading: evil, Text: evil, Figures: []*Figure{make(Boxes(boxes))}, Tables: []Table{table}}},
		Assumptions: []Assumption{{evil, evil, evil}},
		Settings:    []Pair{{evil, evil}},
		Cautions:    []string{evil},
	})
	assert.Empty(t, pageFaults(page))
	assert.NotContains(t, page, "<b ")
	assert.NotContains(t, page, "<!--")
	assert.GreaterOrEqual(t, strings.Count(page, "alert(1)"), 20, "the text is there")
}

// A title with a colon heads the printed pages too: what stands before a colon is taken for a scheme, and
// refused, by the escaping of the standard library where nothing stands before it.
func TestTitleOfPrintedPages(t *testing.T) {
	page := pageOf(t, &Report{Title: "A tender: what to test", Question: "Q", Answer: "A"})
	assert.NotContains(t, page, "ZgotmplZ")
	assert.Regexp(t, `@top-left \{ content: "\\200B A tender[^"]* what to test"`, page)
}

func TestSmallestReport(t *testing.T) {
	page := pageOf(t, &Report{Title: "T", Question: "Q", Answer: "A"})
	assert.Empty(t, pageFaults(page))
	for _, absent := range []string{"<nav", "<table", "<figure", "<ul", `class="made"`, `class="lead"`} {
		assert.NotContains(t, page, absent)
	}
}

func TestReportErrors(t *testing.T) {
	for want, spoil := range map[string]func(*Report){
		"without its title":                       func(r *Report) { r.Title = " " },
		"without its question":                    func(r *Report) { r.Question = "" },
		"without its answer":                      func(r *Report) { r.Answer = "\n" },
		"section 2 of a report without a heading": func(r *Report) { r.Sections[1].Heading = "" },
		`section "The variants compared" of a report: figure 2 is missing`:             func(r *Report) { r.Sections[0].Figures[1] = nil },
		`section "What would change it", figure 3: plots: a figure that no chart made`: func(r *Report) { r.Sections[1].Figures[0] = new(Figure) },
		`table "Variants" has no columns`:                                              func(r *Report) { r.Sections[1].Tables[0].Columns = nil },
	} {
		t.Run(want, func(t *testing.T) {
			r := sampleReport(t)
			spoil(r)
			var b bytes.Buffer
			require.ErrorContains(t, r.HTML(&b), want)
			assert.Zero(t, b.Len(), "something was written")
		})
	}
	require.ErrorIs(t, sampleReport(t).HTML(broken{}), errBroken)
}

// The page and the charts on it have one typeface and one ink.
func TestPageLooksLikeItsCharts(t *testing.T) {
	first, _, _ := strings.Cut(family, ",")
	assert.Contains(t, reportTemplate, "font: 1rem/1.55 "+first+",")
	for name, colour := range map[string]colour{"ink": ink, "muted": muted, "rule": faint, "faint": grid} {
		assert.Contains(t, reportTemplate, "--"+name+": "+strings.ToUpper(coloured("", colour)[2:9])+";")
	}
}

// Without its head a drawing has all the rest: the same marks, on less paper.
func TestChartOnly(t *testing.T) {
	for _, d := range draws(head, 3, plainName) {
		t.Run(d.name, func(t *testing.T) {
			f, err := d.figure()
			require.NoError(t, err)
			whole, err := f.SVG()
			require.NoError(t, err)
			chart, err := f.Chart()
			require.NoError(t, err)
			again, err := f.SVG()
			require.NoError(t, err)
			assert.Equal(t, whole, again, "the figure itself has changed")
			require.NoError(t, wellFormed(chart))

			var x, top, width, height float64
			_, box, _ := strings.Cut(string(chart), "viewBox=")
			_, err = fmt.Sscanf(box, `"%f %f %f %f"`, &x, &top, &width, &height)
			require.NoError(t, err)
			assert.InDelta(t, f.height, top+height, 0.02)
			assert.InDelta(t, f.width, width+2*x, 0.02)
			assert.Contains(t, string(chart), `aria-label="`+head.Title)
			assert.NotContains(t, string(chart), ">"+head.Title+"<")
			assert.NotContains(t, string(chart), ">"+head.Subtitle+"<")

			marks := 0
			for _, m := range f.marks {
				b := m.box()
				if l, ok := m.(label); ok && (l.face == titleFace || l.face == subtitleFace) {
					assert.LessOrEqual(t, b.bottom, top+0.01, "%q sticks out of the head", l.text)
					marks++
					continue
				}
				assert.GreaterOrEqual(t, b.top, top, "%+v is cut off", m)
				assert.GreaterOrEqual(t, b.left, x-0.01, "%+v is cut off", m)
				assert.LessOrEqual(t, b.right, x+width+0.01, "%+v is cut off", m)
			}
			assert.Equal(t, 2, marks, "title and subtitle, a line each")
			assert.Equal(t, strings.Count(string(whole), "<text")-marks, strings.Count(string(chart), "<text"))
		})
	}
}

func TestParagraphs(t *testing.T) {
	for text, want := range map[string][]string{
		"": nil, " \n\n ": nil, "one": {"one"}, "one\nline": {"one\nline"},
		"one\n\ntwo": {"one", "two"}, "one\r\n\r\n\r\ntwo\n": {"one", "two"},
	} {
		assert.Equal(t, want, paragraphs(text), "%q", text)
	}
}

// The titles are those of the standards; no edition is named and nothing claimed.
func TestCautions(t *testing.T) {
	all := strings.Join(Cautions(), "\n")
	for _, title := range []string{
		"29 CFR 1910.147 “The control of hazardous energy (lockout/tagout)”", "29 CFR 1910 Subpart O “Machinery and Machine Guarding”",
		"ISO 12100 “Safety of machinery — General principles for design — Risk assessment and risk reduction”",
		"ISO 13849-1 “Safety of machinery — Safety-related parts of control systems — Part 1: General principles for design”",
		"ISO 14118 “Safety of machinery — Prevention of unexpected start-up”",
		"ISO 14119 “Safety of machinery — Interlocking devices associated with guards — Principles for design and selection”",
		"maker’s instructions, local law and the site’s own energy-control procedure come first", "personal data", "estimate",
	} {
		assert.Contains(t, all, title)
	}
	assert.NotRegexp(t, `(?i)\bexempt|\bexcept|\bcompl(y|ies|iant)|\bconform|\bEN 1010\b|:20\d\d`, all)
}
