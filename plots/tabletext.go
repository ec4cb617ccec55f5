package plots

import (
	"io"
	"strings"

	"netrate/plots/terminal"
)

// ScreenWidth is how wide a terminal is taken to be, in characters.
const ScreenWidth = 80

// screen returns a terminal that is a number of characters wide.
func screen(width int) paperSize { return paperSize{wide: width, gap: 2, measure: terminal.Width} }

// noRows stands for the rows of a table that has none.
const noRows = "None."

// allZero stands for the rows of a table that says nothing but zero.
const allZero = "All zero."

// WriteText writes the table for a terminal width characters wide, 80 if width is 0.
// Long texts go over several lines. Columns that find no room stand in a block below, beside
// those that name the rows.
func (t *Table) WriteText(w io.Writer, width int) error {
	if err := t.check(); err != nil {
		return err
	}
	page := screen(orUsual(width))
	var out []string
	if caption := lines(oneLine(t.Caption), page.wide); len(caption) > 0 {
		out = append(caption, "")
	}
	t = t.read()
	if len(t.Rows) == 0 {
		return writeLines(w, append(out, noRows))
	}
	if t.zero() {
		return writeLines(w, append(out, allZero))
	}
	blocks := page.blocks(t)
	var bars []string
	if len(blocks) == 1 {
		bars = t.bars(page.wide - page.gap - page.width(blocks[0].columns))
	}
	for i, block := range blocks {
		if i > 0 {
			out = append(out, "")
		}
		out = append(out, block.heading(page.gap)...)
		for row := range t.Rows {
			lines := block.row(row, page.gap)
			if bars != nil {
				lines[0] = beside(lines[0], bars[row], page.width(block.columns)+page.gap)
			}
			out = append(out, lines...)
		}
	}
	return writeLines(w, out)
}

func orUsual(width int) int {
	if width == 0 {
		return ScreenWidth
	}
	return width
}

func writeLines(w io.Writer, lines []string) error {
	_, err := io.WriteString(w, strings.Join(lines, "\n")+"\n")
	return err
}

// beside returns a line with more from a place on.
func beside(line, more string, at int) string {
	return strings.TrimRight(line+blanks(at-terminal.Width(line))+more, " ")
}

func blanks(n int) string { return strings.Repeat(" ", max(0, n)) }

// heading returns the titles, the units below them, and a rule.
func (b textBlock) heading(gap int) []string {
	var cells, rules [][]string
	for _, c := range b.columns {
		cells = append(cells, append(lines(oneLine(c.Title), c.width), lines(bracketed(c.unit()), c.width)...))
		rules = append(rules, []string{strings.Repeat("─", c.width)})
	}
	return append(b.set(footed(cells), gap), b.set(rules, gap)...)
}

// footed returns cells that end on the same line.
func footed(cells [][]string) [][]string {
	tallest := 0
	for _, cell := range cells {
		tallest = max(tallest, len(cell))
	}
	for k, cell := range cells {
		cells[k] = append(make([]string, tallest-len(cell)), cell...)
	}
	return cells
}

// row returns the lines of a row, one at least.
func (b textBlock) row(i, gap int) []string {
	var cells [][]string
	for _, c := range b.columns {
		cell := lines(c.entries[i], c.width)
		cells = append(cells, append(cell, "")[:max(1, len(cell))])
	}
	return b.set(cells, gap)
}

// set sets cells of one or more lines side by side.
func (b textBlock) set(cells [][]string, gap int) []string {
	var out []string
	for i := 0; ; i++ {
		var line strings.Builder
		some := false
		for k, c := range b.columns {
			s := ""
			if k < len(cells) && i < len(cells[k]) {
				s, some = cells[k][i], true
			}
			pad := blanks(c.width - terminal.Width(s))
			if c.counts() {
				s = pad + s
			} else {
				s += pad
			}
			line.WriteString(s + blanks(gap))
		}
		if !some {
			return out
		}
		out = append(out, strings.TrimRight(line.String(), " "))
	}
}

// lines breaks a text into lines of a width, between words but for those that stay together; what
// is longer than a line is broken.
func lines(s string, width int) []string {
	var all []string
	line, used := "", 0
	end := func() {
		if line != "" {
			all = append(all, line)
		}
		line, used = "", 0
	}
	for _, word := range wordsWithin(s, width) {
		wide := terminal.Width(word)
		if used > 0 && used+1+wide <= width {
			line, used = line+" "+word, used+1+wide
			continue
		}
		end()
		for _, r := range word {
			if w := terminal.RuneWidth(r); used > 0 && used+w > width {
				end()
			}
			line, used = line+string(r), used+terminal.RuneWidth(r)
		}
	}
	end()
	return all
}

// wordsWithin returns what is not broken of a text unless a line is narrower than a word.
func wordsWithin(s string, width int) (all []string) {
	for _, words := range terminal.Words(s) {
		if terminal.Width(words) > width {
			all = append(all, strings.Fields(words)...)
		} else {
			all = append(all, words)
		}
	}
	return all
}
