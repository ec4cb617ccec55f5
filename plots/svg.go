package plots

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"strconv"
	"strings"
)

// family is the typeface and what may stand in for it where it is not installed.
const family = "'Liberation Sans',Arial,Helvetica,sans-serif"

// An svgWriter collects an SVG drawing.
type svgWriter struct{ bytes.Buffer }

// SVG returns the figure as a drawing that needs no other file: one svg element
// without a prolog, which may stand in a page of HTML as it is. It fills the width
// it is given there. The same figure gives the same bytes.
func (f *Figure) SVG() ([]byte, error) {
	if !f.done() {
		return nil, errNotMade
	}
	var w svgWriter
	fmt.Fprintf(&w, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" role="img" aria-label="%s" font-family="%s">`,
		short(f.width), short(f.height), escape(f.spoken()), family)
	w.WriteByte('\n')
	area{corners: rect(0, 0, f.width, f.height), fill: paper}.svg(&w)
	for _, m := range f.marks {
		m.svg(&w)
	}
	w.WriteString("</svg>\n")
	return w.Bytes(), nil
}

func (m area) svg(w *svgWriter) {
	fmt.Fprintf(w, `<path d="%sZ" %s`, track(m.corners), coloured("fill", m.fill))
	w.end("path", m.tip)
}

func (m stroke) svg(w *svgWriter) {
	fmt.Fprintf(w, `<path d="%s" fill="none" %s stroke-width="%s"`,
		track(m.points), coloured("stroke", m.pen.colour), short(m.pen.width))
	if len(m.pen.dashes) > 0 {
		var lengths []string
		for _, d := range m.pen.dashes {
			lengths = append(lengths, short(d))
		}
		fmt.Fprintf(w, ` stroke-dasharray="%s"`, strings.Join(lengths, " "))
	}
	w.end("path", m.tip)
}

func (m dot) svg(w *svgWriter) {
	fmt.Fprintf(w, `<circle cx="%s" cy="%s" r="%s" %s %s stroke-width="%s"`, short(m.centre.x), short(m.centre.y),
		short(m.radius), coloured("fill", m.fill), coloured("stroke", m.rim), short(rimWidth))
	w.end("circle", m.tip)
}

func (m label) svg(w *svgWriter) {
	fmt.Fprintf(w, `<text x="%s" y="%s" font-size="%s" %s`,
		short(m.at.x), short(m.at.y), short(m.face.size), coloured("fill", m.colour))
	if m.face.bold {
		w.WriteString(` font-weight="bold"`)
	}
	switch m.align {
	case 0.5:
		w.WriteString(` text-anchor="middle"`)
	case 1:
		w.WriteString(` text-anchor="end"`)
	}
	w.WriteByte('>')
	if m.tip != "" {
		fmt.Fprintf(w, "<title>%s</title>", escape(m.tip))
	}
	fmt.Fprintf(w, "%s</text>\n", escape(m.text))
}

// end closes an element that was opened, with a tip if there is one.
func (w *svgWriter) end(element, tip string) {
	if tip == "" {
		w.WriteString("/>\n")
		return
	}
	fmt.Fprintf(w, "><title>%s</title></%s>\n", escape(tip), element)
}

// track returns a path from point to point.
func track(points []point) string {
	var b strings.Builder
	for i, p := range points {
		x, y := short(p.x), short(p.y)
		switch {
		case i == 0:
			b.WriteString("M" + x + " " + y)
		case y == short(points[i-1].y):
			b.WriteString("H" + x)
		case x == short(points[i-1].x):
			b.WriteString("V" + y)
		default:
			b.WriteString("L" + x + " " + y)
		}
	}
	return b.String()
}

// coloured returns the attributes of a colour for fill or stroke.
func coloured(kind string, c color.NRGBA) string {
	s := fmt.Sprintf(`%s="#%02X%02X%02X"`, kind, c.R, c.G, c.B)
	if c.A < 255 {
		s += fmt.Sprintf(` %s-opacity="%s"`, kind, short(float64(c.A)/255))
	}
	return s
}

// short writes a length to a hundredth of a point.
func short(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// escape makes s safe as text and as an attribute of XML; what XML cannot hold
// becomes U+FFFD.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a strings.Builder takes everything
	return b.String()
}
