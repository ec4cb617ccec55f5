package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestExcerpt(t *testing.T) {
	long := strings.Repeat("abcdefghij", 30)
	for _, c := range []struct {
		name, line string
		column     int
		want       string
		caret      int
	}{
		{"plain", "  at: 0", 7, "  at: 0", 6},
		{"tabs keep their column", "\tat: 0", 6, " at: 0", 5},
		{"characters, not bytes", "näme: x", 7, "näme: x", 6},
		{"escape codes", "a\x1b[31mb", 1, "a\uFFFD[31mb", 0},
		{"column past the end", "ab  ", 9, "ab", 2},
		{"start of a long line", long, 1, long[:excerptWidth-1] + "…", 0},
		{"end of a long line", long, 300, "…" + long[300-excerptWidth+1:], excerptWidth - 1},
		{"nothing", "", 1, "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, caret := excerpt(c.line, c.column)
			assert.Equal(t, c.want, got)
			assert.Equal(t, c.caret, caret)
		})
	}
}

func TestProblemsAreCountedAndCut(t *testing.T) {
	one := Problems{{File: "a.yaml", Text: "wrong"}}
	assert.Equal(t, "a.yaml: wrong", one.Error())

	many := make(Problems, shownProblems+2)
	for i := range many {
		many[i] = Problem{File: "a.yaml", Line: i + 1, Column: 1, Text: "wrong"}
	}
	text := many.Error()
	assert.Equal(t, shownProblems, strings.Count(text, "wrong"))
	assert.True(t, strings.HasSuffix(text, "… and 2 more\n52 problems"), text)
}

func TestProblemsAreSorted(t *testing.T) {
	ps := Problems{{Line: 2, Column: 1}, {Line: 1, Column: 9}, {Line: 1, Column: 2}, {Line: 1, Column: 2}}
	assert.Equal(t, Problems{{Line: 1, Column: 2}, {Line: 1, Column: 9}, {Line: 2, Column: 1}}, ps.sorted())
}
