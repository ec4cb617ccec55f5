package plots

import (
	"bytes"
	"fmt"
)

// Chart returns the drawing as SVG does, but without its head and with half its margins, for a
// page that sets title and subtitle as text of its own, which can be read on a small
// screen. The label of the drawing still says both.
func (f *Figure) Chart() ([]byte, error) {
	chart := *f
	n, top := f.head()
	chart.marks = chart.marks[n:]
	svg, err := chart.SVG()
	if err != nil {
		return nil, err
	}
	whole := fmt.Sprintf(`viewBox="0 0 %s %s"`, short(f.width), short(f.height))
	below := fmt.Sprintf(`viewBox="%s %s %s %s"`, short(margin/2), short(top), short(f.width-margin), short(f.height-top))
	if !bytes.Contains(svg, []byte(whole)) {
		panic("plots: a drawing without " + whole)
	}
	return bytes.Replace(svg, []byte(whole), []byte(below), 1), nil
}

// head returns how many marks the head of the figure has, and where it ends.
func (f *Figure) head() (n int, bottom float64) {
	for ; n < len(f.marks); n++ {
		l, ok := f.marks[n].(label)
		if !ok || l.face != titleFace && l.face != subtitleFace {
			break
		}
		bottom = l.box().bottom
	}
	return n, bottom
}

// tall returns how tall the drawing of Chart is, in its widths.
func (f *Figure) tall() string {
	_, top := f.head()
	return short((f.height - top) / (f.width - margin))
}
