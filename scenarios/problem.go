package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// shownProblems is how many problems are printed in full: more do not help anybody.
const shownProblems = 50

// excerptWidth is how much of a long line is shown around a problem, in characters.
const excerptWidth = 96

// Problem is one thing that is wrong in a scenario file.
type Problem struct {
	File    string
	Line    int    // from 1; 0 if the problem has no place in the file
	Column  int    // from 1, in characters
	Text    string // what was found and what is wanted
	Excerpt string // the line of the file, or the part of it around the column; for the first problems only
	Caret   int    // index of the column in the excerpt, in characters
}

// Error returns the problem as file:line:column: text, with the excerpt and a caret on
// the lines below.
func (p Problem) Error() string {
	file := printable(p.File)
	switch {
	case p.Line == 0:
		return file + ": " + p.Text
	case p.Excerpt == "":
		return fmt.Sprintf("%s:%d:%d: %s", file, p.Line, p.Column, p.Text)
	}
	return fmt.Sprintf("%s:%d:%d: %s\n    %s\n    %s^",
		file, p.Line, p.Column, p.Text, p.Excerpt, strings.Repeat(" ", p.Caret))
}

// Problems is everything that is wrong in a scenario file, in the order of the file. It
// is never empty when it is returned as an error.
type Problems []Problem

// Error returns the text to print: every problem, and their number if there are several.
func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i == shownProblems {
			fmt.Fprintf(&b, "… and %d more\n", len(ps)-i)
			break
		}
		b.WriteString(p.Error())
		b.WriteByte('\n')
	}
	if len(ps) > 1 {
		fmt.Fprintf(&b, "%d problems\n", len(ps))
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// sorted returns the problems in the order of the file, each once.
func (ps Problems) sorted() Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(ps)
}

// printable returns a file name as a message shows it: what a terminal could take for a
// command is quoted.
func printable(name string) string {
	if strings.ContainsFunc(name, func(c rune) bool { return !unicode.IsPrint(c) }) {
		return strconv.Quote(name)
	}
	return name
}

// excerpt returns the part of a line around a column that fits on a screen, and where
// the column is in it. What a terminal could take for a command is blotted out.
func excerpt(line string, column int) (string, int) {
	runes := []rune(strings.TrimRightFunc(line, unicode.IsSpace))
	for i, r := range runes {
		switch {
		case r == '\t':
			runes[i] = ' '
		case !unicode.IsPrint(r):
			runes[i] = '\uFFFD'
		}
	}
	caret := max(column-1, 0)
	if len(runes) <= excerptWidth {
		return string(runes), min(caret, len(runes))
	}
	from := min(max(caret-excerptWidth/2, 0), len(runes)-excerptWidth)
	part := runes[from : from+excerptWidth]
	if from > 0 {
		part[0] = '…'
	}
	if from+excerptWidth < len(runes) {
		part[excerptWidth-1] = '…'
	}
	return string(part), min(caret-from, excerptWidth)
}
