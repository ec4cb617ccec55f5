package stoplog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
)

const (
	stopsOfTwo  = "start,station,cause,seconds,line\n2026-03-02 06:10,inserter,jam,40,north\n2026-03-02 06:20,inserter,flap,30,south\n2026-03-02 07:20,inserter,jam,50,\n"
	countsOfTwo = "day,station,feeds,line\n2026-03-02,inserter,9000,north\n2026-03-02,inserter,5000,south\n"
)

// Stations of one name on two lines are two: one line is to be taken, and its rows alone are.
func TestOneOfSeveralLines(t *testing.T) {
	read := func(line string) (*study.Log, Report, Report) {
		l := &study.Log{}
		counts, err := AddCounts(l, strings.NewReader(countsOfTwo), Mapping{Line: line})
		require.NoError(t, err)
		stops, err := AddStops(l, strings.NewReader(stopsOfTwo), Mapping{Line: line})
		require.NoError(t, err)
		require.Len(t, l.Stations, 1)
		return l, stops, counts
	}
	l, stops, counts := read("north")
	assert.Len(t, l.Stations[0].Stops, 2, "one of no line is taken")
	assert.EqualValues(t, 9000, l.Stations[0].Feeds)
	assert.Equal(t, []int64{2, 2, 0, 1}, []int64{stops.Rows, stops.Used, stops.Skipped, stops.Elsewhere})
	assert.Equal(t, []int64{1, 1, 0, 1}, []int64{counts.Rows, counts.Used, counts.Skipped, counts.Elsewhere})
	l, _, _ = read("south")
	assert.EqualValues(t, 5000, l.Stations[0].Feeds)
}

func TestLinesThatCannotBe(t *testing.T) {
	for line, want := range map[string]string{
		"":     "counts.csv: the rows are of several lines, north, south: take those of one, such as the line north, or, if that column is something else, give it another heading",
		"nort": "counts.csv: no row is of the line \"nort\": did you mean north?",
	} {
		_, err := ReadCounts(strings.NewReader(countsOfTwo), Mapping{File: "counts.csv", Line: line}, func(Count) error { return nil })
		require.EqualError(t, err, want)
	}
	_, err := ReadCounts(strings.NewReader("station,feeds\nx,3\n"), Mapping{File: "counts.csv", Line: "north"}, func(Count) error { return nil })
	require.EqualError(t, err, "counts.csv: no column says which line a row is of: name the column that is \"line\", or head it line")
	_, err = ReadCounts(strings.NewReader("station,feeds,line\nx,3,north\n"), Mapping{}, func(Count) error { return nil })
	require.NoError(t, err, "all of one line")
}

// manyLines is counts of nine lines, each with a feed more than the one before it.
func manyLines() string {
	text := "station,feeds,line\n"
	for i := range 9 {
		text += fmt.Sprintf("x,%d,hall %c\n", 101+i, 'a'+i)
	}
	return text
}

// However many lines a file has, each can be asked for; only so many are told.
func TestManyLines(t *testing.T) {
	read := func(line string) (feeds int64, err error) {
		_, err = ReadCounts(strings.NewReader(manyLines()), Mapping{File: "counts.csv", Line: line}, func(c Count) error {
			feeds += c.Feeds
			return nil
		})
		return feeds, err
	}
	for line, want := range map[string]int64{"hall a": 101, "hall h": 108, "hall i": 109} {
		feeds, err := read(line)
		require.NoError(t, err, line)
		assert.Equal(t, want, feeds, line)
	}
	const some = "hall a, hall b, hall c, hall d, hall e, hall f, hall g, hall h, …"
	_, err := read("")
	require.ErrorContains(t, err, "the rows are of several lines, "+some+": take those of one")
	_, err = read("north")
	require.EqualError(t, err, "counts.csv: no row is of the line \"north\": want one of "+some)
	_, err = read("hall\u200b a")
	require.EqualError(t, err, "counts.csv: the line asked for is \"hall\\u200b a\", want one line of characters that can be printed")
}

// A row with a field too many has another cell where its line should be: it is a bad row, and no
// row of another line.
func TestMalformedRowsOfALine(t *testing.T) {
	const text = "station,line,feeds\nx,north,3\nx,x,north,4\nx,south,5\n"
	report, err := ReadCounts(strings.NewReader(text), Mapping{Line: "north", SkipBad: true}, func(Count) error { return nil })
	require.NoError(t, err)
	assert.Equal(t, []int64{2, 1, 1, 1}, []int64{report.Rows, report.Used, report.Skipped, report.Elsewhere})
	require.Len(t, report.Problems, 1)
	assert.Contains(t, report.Problems[0].Text, "the row has 4 fields")
}

// Names of lines are taken as those of stations: in one form, and without the mark that programs
// write before what a spreadsheet could take for a formula.
func TestNamesOfLines(t *testing.T) {
	const decomposed, composed = "Su\u0308d", "S\u00fcd"
	for _, asked := range []string{decomposed, composed} {
		report, err := ReadCounts(strings.NewReader("station,feeds,line\nx,3,"+decomposed+"\nx,4,"+composed+"\n"), Mapping{Line: asked}, func(Count) error { return nil })
		require.NoError(t, err)
		assert.EqualValues(t, 2, report.Used)
	}
	_, err := ReadCounts(strings.NewReader("station,feeds,line\nx,3,'=2\n"), Mapping{Line: "=2"}, func(Count) error { return nil })
	require.NoError(t, err)
	_, err = ReadCounts(strings.NewReader("station,feeds,line\nx,3,a\u200bb\n"), Mapping{}, func(Count) error { return nil })
	require.ErrorContains(t, err, "line is \"a\\u200bb\", want one line of characters that can be printed")
}

// The number of a row is no line.
func TestLineNumbersAreNoLines(t *testing.T) {
	for _, heading := range []string{"Line no", "Line number", "LineNo"} {
		report, err := ReadCounts(strings.NewReader(heading+",station,feeds\n1,x,3\n2,x,4\n"), Mapping{}, func(Count) error { return nil })
		require.NoError(t, err, heading)
		assert.EqualValues(t, 2, report.Used)
	}
}
