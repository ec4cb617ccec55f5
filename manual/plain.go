package manual

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// width is how wide a block may be before its indentation is given up for it.
const width = 80

// indentation is what sets a block off from the text.
const indentation = 4

var (
	link = regexp.MustCompile(`\[([^\]]*)\]\(([^)]*)\)`)
	bold = regexp.MustCompile(`\*\*([^*]+)\*\*`)
	code = regexp.MustCompile("`([^`]+)`")
)

// Plain returns the topic without the marks of Markdown. Headings are underlined, blocks are
// indented as far as 80 columns allow, and a link to another topic is the command that prints it.
func (t Topic) Plain() string {
	var out strings.Builder
	var block []string
	inside := false
	for line := range strings.Lines(t.Text) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "```"):
			if inside {
				writeBlock(&out, block)
			}
			inside, block = !inside, nil
		case inside:
			block = append(block, line)
		default:
			out.WriteString(plainLine(line) + "\n")
		}
	}
	return out.String()
}

// plainLine returns a line of text, or a heading over its underline.
func plainLine(line string) string {
	heading := strings.TrimLeft(line, "#")
	level := len(line) - len(heading)
	line = plainLinks(strings.TrimSpace(heading))
	line = code.ReplaceAllString(bold.ReplaceAllString(line, "$1"), "$1")
	switch level {
	case 0:
		indent := len(heading) - len(strings.TrimLeft(heading, " "))
		return strings.Repeat(" ", indent) + line
	case 1:
		return line + "\n" + strings.Repeat("=", utf8.RuneCountInString(line))
	}
	return line + "\n" + strings.Repeat("-", utf8.RuneCountInString(line))
}

// plainLinks names the command that prints a topic: in the place of a link in brackets or after "see", behind
// the words of any other.
func plainLinks(line string) string {
	var out strings.Builder
	from := 0
	for _, at := range link.FindAllStringSubmatchIndex(line, -1) {
		before, words, behind := line[:at[0]], line[at[2]:at[3]], line[at[1]:]
		out.WriteString(line[from:at[0]])
		from = at[1]
		name, is := strings.CutSuffix(line[at[4]:at[5]], ".md")
		aside := strings.Count(before, "(") > strings.Count(before, ")")+strings.Count(before, "](") || strings.HasPrefix(behind, ")")
		switch {
		case !is || strings.Contains(name, "/"):
			out.WriteString(words)
		case aside || strings.HasSuffix(strings.ToLower(before), "see "):
			out.WriteString("netrate help " + name)
		default:
			out.WriteString(words + " (netrate help " + name + ")")
		}
	}
	return out.String() + line[from:]
}

// writeBlock writes the lines of a block, all indented by as much.
func writeBlock(out *strings.Builder, lines []string) {
	widest := 0
	for _, l := range lines {
		widest = max(widest, utf8.RuneCountInString(l))
	}
	indent := strings.Repeat(" ", max(0, min(indentation, width-widest)))
	for _, l := range lines {
		out.WriteString(strings.TrimRight(indent+l, " ") + "\n")
	}
}
