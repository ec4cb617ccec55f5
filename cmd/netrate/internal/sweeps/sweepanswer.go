package sweeps

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
)

// How much of a sweep the screen shows. What is left out is in all other forms.
const (
	shownValues  = 12 // rows
	shownColumns = 7  // of a sweep of two paths
	widestValue  = 26
	widestBar    = 24
)

// Answer returns what the sweep came to, on one screen.
func (s *sweep) Answer() string {
	var b strings.Builder
	b.WriteString(s.title() + "\n\n")
	b.WriteString(say.Wrapped(present.SweepFinding(s.SweepAnswer), say.Screen) + "\n")
	if len(s.Vary) == 1 {
		b.WriteString(s.rows())
	} else {
		b.WriteString(s.grid())
	}
	b.WriteString("\n" + s.lastLines())
	return b.String()
}

// title returns what was swept and how much was simulated, on one line.
func (s *sweep) title() string {
	return page.Headline(s.Name+": "+present.SweepPaths(s.SweepAnswer), s.Points[0].Study)
}

// rows returns a row for each value: its net rate, and what it changed.
func (s *sweep) rows() string {
	shown := page.Thinned(len(s.Points), shownValues, s.Best)
	name := say.Shortened(s.Vary[0].Path, widestValue)
	width := utf8.RuneCountInString(name)
	for _, i := range shown {
		width = max(width, utf8.RuneCountInString(say.Shortened(s.Points[i].Values[0], widestValue)))
	}
	changes := s.ChangesAmong(shown)
	most := float64(s.Points[s.Best].NetRate.Mean)
	room := min(widestBar, say.Screen-width-44)
	var b strings.Builder
	row := func(value, rate, mark, step, bad, bar string) {
		line := fmt.Sprintf("%s%s %-1s %s%s  %s", say.Right(value, width), say.Right(rate, 15), mark, say.Right(step, 16), say.Right(bad, 8), bar)
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	row(name, "net rate", "", "change", "bad ppm", "")
	for n, i := range shown {
		p, step := &s.Points[i], ""
		if n > 0 {
			step = present.ShownGain(&changes[n-1])
		}
		if p.Capped {
			step = "runs at " + say.Exact(p.Speed) + "/h"
		}
		e := p.NetRate.Estimate()
		row(say.Shortened(s.Points[i].Values[0], widestValue), say.PlusMinus(say.Measured(e.Mean, e.Half)), s.mark(i), step, present.SweepDefective(p), blocks(e.Mean, most, room))
	}
	b.WriteString(s.legend(len(shown), "values", "Change: from the row above; ~ if none is shown. Bad: delivered defective, in a million."))
	return b.String()
}

// mark returns what is said of a point beside its net rate.
func (s *sweep) mark(i int) string {
	switch {
	case i == s.Best:
		return "*"
	case s.Points[i].NotShownWorse:
		return "~"
	}
	return ""
}

// legend explains the marks, and says how much is not shown.
func (s *sweep) legend(shown int, of, changes string) string {
	text := "* the best; ~ not shown to be worse (95 %, all at once)."
	if changes != "" {
		text += " " + changes
	}
	if shown < len(s.Points) {
		text += fmt.Sprintf(" Shown: %d of %d %s; --csv and --json have all.", shown, len(s.Points), of)
	}
	return say.Wrapped(text, say.Screen)
}

// grid returns a table of the net rates of two paths: the values of the first across, those
// of the second down.
func (s *sweep) grid() string {
	across, down := &s.Vary[0], &s.Vary[1]
	columns := page.Thinned(len(across.Values), shownColumns, s.Best/len(down.Values))
	rows := page.Thinned(len(down.Values), shownValues, s.Best%len(down.Values))
	head := utf8.RuneCountInString(say.Shortened(down.Path, widestValue))
	for _, k := range rows {
		head = max(head, utf8.RuneCountInString(say.Shortened(down.Values[k].Text, widestValue)))
	}
	wide := (say.Screen - head) / len(columns)
	for i := range columns {
		wide = min(wide, max(10, 3+utf8.RuneCountInString(across.Values[columns[i]].Text)))
	}
	var b strings.Builder
	row := func(name string, cells []string) {
		line := []string{say.Right(say.Shortened(name, head), head)}
		for _, cell := range cells {
			line = append(line, say.Right(say.Shortened(cell, wide-1), wide))
		}
		b.WriteString(strings.TrimRight(strings.Join(line, ""), " ") + "\n")
	}
	b.WriteString(strings.Repeat(" ", head+2) + say.Shortened(across.Path, say.Screen-head-2) + "\n")
	row(down.Path, marked(columns, func(i int) string { return across.Values[i].Text + " " }))
	for _, k := range rows {
		row(down.Values[k].Text, marked(columns, func(i int) string {
			n := i*len(down.Values) + k
			e := s.Points[n].NetRate.Estimate()
			return fmt.Sprintf("%s%-1s", say.Rough(e.Mean, e.Half), s.mark(n))
		}))
	}
	b.WriteString(s.legend(len(rows)*len(columns), "points", ""))
	return b.String()
}

// marked returns a text for each index.
func marked(indices []int, text func(i int) string) []string {
	var all []string
	for _, i := range indices {
		all = append(all, text(i))
	}
	return all
}

// lastLines returns why the sweep ended and how to repeat it.
func (s *sweep) lastLines() string {
	return page.Repeated(s.Points[0].Study, s.Again+s.flags())
}

// flags returns what must follow the command to vary the same.
func (s *sweep) flags() string {
	var text strings.Builder
	for _, asked := range s.asked {
		text.WriteString(" --vary " + desk.Quoted(asked))
	}
	return text.String()
}

// blocks returns a bar from 0 to x, as wide as room for most.
func blocks(x, most float64, room int) string {
	if !(most > 0 && x > 0) {
		return ""
	}
	eighths := int(math.Round(8 * float64(room) * x / most))
	bar := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		bar += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return bar
}
