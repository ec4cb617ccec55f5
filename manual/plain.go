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
	var block, prose []string
	inside := false
	for line := range strings.Lines(t.Text) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(strings.TrimSpace(line), "```"):
			if inside {
				writeBlock(&out, block)
			}
			writeProse(&out, prose)
			inside, block, prose = !inside, nil, nil
		case inside:
			block = append(block, line)
		case line == "":
			writeProse(&out, append(prose, line))
			prose = nil
		default:
			prose = append(prose, line)
		}
	}
	writeProse(&out, prose)
	return out.String()
}

// writeProse writes the lines of a paragraph, in which what is bold or code may go on in the next line.
func writeProse(out *strings.Builder, lines []string) {
	if len(lines) == 0 {
		return
	}
	for i := range lines {
		lines[i] = plainLinks(lines[i])
	}
	text := bold.ReplaceAllString(strings.Join(lines, "\n"), "$1")
	for line := range strings.SplitSeq(code.ReplaceAllString(text, "$1"), "\n") {
		out.WriteString(plainLine(line) + "\n")
	}
}

// plainLine returns a line of text, or a heading over its underline.
func plainLine(line string) string {
	marks, heading, is := strings.Cut(line, " ")
	switch {
	case is && marks == "#":
		return heading + "\n" + strings.Repeat("=", utf8.RuneCountInString(heading))
	case is && marks != "" && strings.Trim(marks, "#") == "":
		return heading + "\n" + strings.Repeat("-", utf8.RuneCountInString(heading))
	}
	return line
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
