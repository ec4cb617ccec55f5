package stoplog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
)

// Feeds and speeds with marks of thousands are refused until somebody says that they are: columns of
// them were once left out without a word, as their first row had no whole number.
func TestMarksOfThousands(t *testing.T) {
	const counts = "day;speed;letter;card\n05.10.2026;12.000;7.885;0\n06.10.2026;9.000;1.234.567;846\n"
	_, err := AddCounts(&study.Log{}, strings.NewReader(counts), Mapping{})
	require.ErrorContains(t, err, `feeds is "7.885", want a whole number; where the mark in it is one of thousands, say so`)

	l := &study.Log{}
	_, err = AddCounts(l, strings.NewReader(counts), Mapping{Thousands: '.'})
	require.NoError(t, err)
	assert.Equal(t, []string{"letter", "card"}, l.Names())
	assert.Equal(t, int64(7885+1_234_567), l.FeedsOf("letter"))
	assert.Equal(t, int64(846), l.FeedsOf("card"))
	assert.InDelta(t, 12_000, l.Find("letter").Counts[0].Speed, 0)

	_, err = AddCounts(&study.Log{}, strings.NewReader(counts), Mapping{Thousands: 'x'})
	require.ErrorContains(t, err, "the mark of thousands is 'x'")

	for text, want := range map[string]string{
		"12.000": "12000", "1,234,567": "1234567", "7'885": "7885",
		"7.88": "", "0.123": "", "1.234,567": "", "1234.567": "", "12000": "", ".123": "", "1..234": "", "12.00a": "",
	} {
		assert.Equal(t, want, string(ungrouped([]byte(text))), text)
	}
}

// A problem in several cells of a row is one of that row.
func TestProblemsAreCountedByRow(t *testing.T) {
	rows := strings.Repeat("2026-03-02;x;y\n", 20)
	_, err := AddCounts(&study.Log{}, strings.NewReader("day;a;b\n2026-03-01;1;1\n"+rows), Mapping{})
	require.ErrorContains(t, err, "; so in 20 rows")
	assert.NotContains(t, err.Error(), "so in 40 rows")
}
