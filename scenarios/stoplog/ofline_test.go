package stoplog

import (
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
		"":     "counts.csv: the rows are of several lines, north, south: take those of one, such as the line north",
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
