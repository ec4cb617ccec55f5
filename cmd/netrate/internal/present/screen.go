package present

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
	"netrate/plots/terminal"
)

// Screen returns an answer as a terminal has it: its title, its finding and its tables.
func Screen(title, finding string, tables ...plots.Table) string {
	var b strings.Builder
	b.WriteString(title + "\n\n" + say.Wrapped(finding, say.Prose()))
	for i := range tables {
		b.WriteString("\n")
		if err := tables[i].WriteText(&b, say.Screen()); err != nil {
			panic(err) // the table is one of ours
		}
	}
	return b.String()
}

// brief returns tables in as few lines as it can be, for screens with several.
func brief(tables ...plots.Table) string {
	var b strings.Builder
	for i := range tables {
		b.WriteString(inBrief(tables[i], say.Screen()))
	}
	return b.String()
}

func inBrief(t plots.Table, width int) string {
	var b strings.Builder
	if err := t.WriteBrief(&b, width); err != nil {
		panic(err) // the table is one of ours
	}
	return b.String()
}

// How wide the left one of two tables is at most that stand side by side, and the right one at
// least.
const (
	leftHalf   = 42
	leastRight = 30
)

// beside returns two tables side by side or, on a narrow screen, one below the other.
func beside(left, right plots.Table) string {
	lines := func(t plots.Table, width int) []string {
		return strings.Split(strings.TrimSuffix(inBrief(t, width), "\n"), "\n")
	}
	l, wide := lines(left, leftHalf), 0
	for _, line := range l {
		wide = max(wide, terminal.Width(line))
	}
	room := say.Screen() - wide - 1
	if room < leastRight {
		return inBrief(left, say.Screen()) + "\n" + inBrief(right, say.Screen())
	}
	r := lines(right, room)
	for _, line := range r {
		wide = min(max(wide, leftHalf), say.Screen()-terminal.Width(line)-1)
	}
	var b strings.Builder
	for i := range max(len(l), len(r)) {
		line := ""
		if i < len(l) {
			line = l[i]
		}
		if i < len(r) {
			line += strings.Repeat(" ", wide+1-terminal.Width(line)) + r[i]
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return b.String()
}

// between is how far a text keeps from what stands to the left of it.
const between = 3

// joined returns a text with other lines to the right of its own.
func joined(text string, right []string) string {
	left := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	wide := widest(left) + between
	var b strings.Builder
	for i := range max(len(left), len(right)) {
		line := ""
		if i < len(left) {
			line = left[i]
		}
		if i < len(right) {
			line += strings.Repeat(" ", wide-terminal.Width(line)) + right[i]
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

func widest(lines []string) int {
	wide := 0
	for _, line := range lines {
		wide = max(wide, terminal.Width(line))
	}
	return wide
}
