package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func twoLines(why string) CoverageData {
	return CoverageData{
		Head:  head,
		Lines: []string{"as it is", "sixth feeder"},
		Jobs:  []string{"bank letter", "magazine"},
		Cells: [][]Ability{{{false, "", why}, {true, "12,000/h", "inserter"}}, {{}, {}}},
	}
}

// Jobs go down and lines go right; what runs is filled, what does not is hollow.
func TestCoverageGrid(t *testing.T) {
	f := made(t)(Coverage(twoLines("no free feeder")))
	cannot := tipped(f, "bank letter, as it is: cannot, no free feeder")[0]
	runs := tipped(f, "bank letter, sixth feeder: 12,000/h, inserter")[0]
	below := tipped(f, "magazine, as it is: cannot")[0]
	assert.InDelta(t, cannot.top, runs.top, 1e-9)
	assert.Greater(t, runs.left, cannot.right)
	assert.InDelta(t, cannot.left, below.left, 1e-9)
	assert.Greater(t, below.top, cannot.bottom)
	assert.Contains(t, filled(f, tint(sky, 0.38)), runs)
	assert.Contains(t, filled(f, paper), cannot)
	assert.Subset(t, texts(f), []string{"12,000/h", "inserter", "no free feeder", "no line runs it"})
	none, one := labelled(t, f, "0 of 2"), labelled(t, f, "1 of 2")
	assert.InDelta(t, (cannot.left+cannot.right)/2, none.at.x, 1e-9, "below the line that runs no job")
	assert.InDelta(t, (runs.left+runs.right)/2, one.at.x, 1e-9)
}

// Reasons without room in their cells stand below, the same reason once.
func TestCoverageReasonsBelow(t *testing.T) {
	long := "the card and the brochure compete for feeder 5, the only one that allows their thickness and is not taken"
	d := twoLines(long)
	d.Cells[1] = []Ability{{Why: long}, {Why: "no track gate"}}
	f := made(t)(Coverage(d))
	said := strings.Join(texts(f), "|")
	assert.Equal(t, 1, strings.Count(said, long), said)
	assert.Equal(t, 3, strings.Count("|"+said+"|", "|a|"), "in two cells and below: %s", said)
	assert.Contains(t, said, "c|no track gate")
	assert.Empty(t, misplaced(f))
}

// Every reason is said in full, in its cell or below, in a table of any size.
func TestEveryReasonIsSaid(t *testing.T) {
	for _, n := range []int{1, 4, mostLines, 20} {
		d := coverageOf(head, n, plainName)
		f := made(t)(Coverage(d))
		said := strings.Join(texts(f), " ")
		for k := range d.Lines {
			assert.Contains(t, said, plainName(k), "%d jobs", n)
		}
		assert.NotContains(t, said, "…", "%d jobs", n)
	}
}

// Those who do not see the drawing are told what runs where.
func TestCoverageIsTold(t *testing.T) {
	svg, err := made(t)(Coverage(twoLines(""))).SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), "bank letter: runs on sixth feeder. magazine: no line runs it")
}

// The two kinds of cells differ in grey print, and what is written on them can be read.
func TestAbilitiesAreToldApart(t *testing.T) {
	runs, cannot := Ability{Runs: true}.draw(box{0, 0, 9, 9}, ""), Ability{}.draw(box{0, 0, 9, 9}, "")
	assert.Len(t, runs, 1, "no rim")
	assert.Len(t, cannot, 2, "a rim")
	fill := runs[0].(area).fill
	assert.GreaterOrEqual(t, lightness(paper)-lightness(fill), 9.0)
	assert.GreaterOrEqual(t, contrast(ink, fill), 7.0)
}
