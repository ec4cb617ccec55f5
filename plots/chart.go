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
	top := 0.0
	for len(chart.marks) > 0 {
		l, ok := chart.marks[0].(label)
		if !ok || l.face != titleFace && l.face != subtitleFace {
			break
		}
		top = l.box().bottom
		chart.marks = chart.marks[1:]
	}
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
