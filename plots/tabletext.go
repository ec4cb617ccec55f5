package plots

import (
	"io"
	"strings"
	"unicode/utf8"
)

// screen is a terminal.
var screen = paperSize{wide: 80, gap: 2}

// allZero stands for the rows of a table that says nothing but zero.
const allZero = "All zero."

// WriteText writes the table for a terminal 80 characters wide. Long texts go over
// several lines. Columns that find no room stand in a block below, beside those that
// name the rows.
func (t *Table) WriteText(w io.Writer) error {
	if err := t.check(); err != nil {
		return err
	}
	var out []string
	if caption := lines(oneLine(t.Caption), screen.wide); len(caption) > 0 {
		out = append(caption, "")
	}
	t = t.read()
	if t.zero() {
		_, err := io.WriteString(w, strings.Join(append(out, allZero), "\n")+"\n")
		return err
	}
	blocks := screen.blocks(t)
	var bars []string
	if len(blocks) == 1 {
		bars = t.bars(screen.wide - screen.gap - screen.width(blocks[0].columns))
	}
	for i, block := range blocks {
		if i > 0 {
			out = append(out, "")
		}
		out = append(out, block.heading()...)
		for row := range t.Rows {
			lines := block.row(row)
			if bars != nil {
				lines[0] = beside(lines[0], bars[row], screen.width(block.columns)+screen.gap)
			}
			out = append(out, lines...)
		}
	}
	_, err := io.WriteString(w, strings.Join(out, "\n")+"\n")
	return err
}

// beside returns a line with more from a place on.
func beside(line, more string, at int) string {
	return strings.TrimRight(line+strings.Repeat(" ", max(0, at-utf8.RuneCountInString(line)))+more, " ")
}

// heading returns the titles, the units below them, and a rule.
func (b textBlock) heading() []string {
	var cells [][]string
	tallest := 0
	for _, c := range b.columns {
		cell := append(lines(oneLine(c.Title), c.width), lines(bracketed(c.unit()), c.width)...)
		cells = append(cells, cell)
		tallest = max(tallest, len(cell))
	}
	rules := make([][]string, len(b.columns))
	for k, c := range b.columns {
		cells[k] = append(make([]string, tallest-len(cells[k])), cells[k]...)
		rules[k] = []string{strings.Repeat("─", c.width)}
	}
	return append(b.set(cells), b.set(rules)...)
}

// row returns the lines of a row, one at least.
func (b textBlock) row(i int) []string {
	var cells [][]string
	for _, c := range b.columns {
		cell := lines(c.entries[i], c.width)
		cells = append(cells, append(cell, "")[:max(1, len(cell))])
	}
	return b.set(cells)
}

// set sets cells of one or more lines side by side.
func (b textBlock) set(cells [][]string) []string {
	var out []string
	for i := 0; ; i++ {
		var line strings.Builder
		some := false
		for k, c := range b.columns {
			s := ""
			if i < len(cells[k]) {
				s, some = cells[k][i], true
			}
			pad := strings.Repeat(" ", max(0, c.width-utf8.RuneCountInString(s)))
			if c.counts() {
				s = pad + s
			} else {
				s += pad
			}
			line.WriteString(s + strings.Repeat(" ", screen.gap))
		}
		if !some {
			return out
		}
		out = append(out, strings.TrimRight(line.String(), " "))
	}
}

// lines breaks a text between words into lines of width characters; a longer word
// is broken.
func lines(s string, width int) []string {
	var all []string
	line := []rune(nil)
	for word := range strings.FieldsSeq(s) {
		rest := []rune(word)
		if len(line) > 0 && len(line)+1+len(rest) <= width {
			line = append(append(line, ' '), rest...)
			continue
		}
		if len(line) > 0 {
			all = append(all, string(line))
		}
		for len(rest) > width {
			all = append(all, string(rest[:width]))
			rest = rest[width:]
		}
		line = rest
	}
	if len(line) > 0 {
		all = append(all, string(line))
	}
	return all
}
