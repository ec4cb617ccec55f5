package stoplog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// The first causes are the faults of the model, in number and in name.
func TestCausesAreFaults(t *testing.T) {
	for c := range causes {
		fault, is := c.Fault()
		assert.Equal(t, c <= Mismatch, is, c)
		if is {
			assert.Equal(t, fault.String(), c.String())
		}
		back, err := CauseOf(strings.ToUpper(c.String()))
		require.NoError(t, err)
		assert.Equal(t, c, back)
	}
	assert.Equal(t, model.Mismatch, model.Fault(Mismatch))
	_, err := CauseOf("beltful")
	assert.EqualError(t, err, `cause is "beltful": did you mean belt full?`)
}

// A usual word means one thing.
func TestUsualWordsDoNotContradict(t *testing.T) {
	means := map[string]Cause{}
	for c, words := range usualCauses {
		for word := range strings.SplitSeq(words, ", ") {
			before, twice := means[plain(word)]
			assert.Falsef(t, twice, "%q means %s and %s", word, before, c)
			means[plain(word)] = c
		}
	}
	for _, kinds := range [][]kind{stopKinds, countKinds} {
		columns := map[string]Column{}
		for _, k := range kinds {
			for word := range strings.FieldsSeq(k.words) {
				before, twice := columns[word]
				assert.Falsef(t, twice, "%q is %s and %s", word, before, k.column)
				columns[word] = k.column
				got, unit := splitHeading(word)
				assert.Equal(t, word, got, "it can be met")
				assert.Empty(t, unit)
			}
		}
	}
}

func TestOwnWordsForCauses(t *testing.T) {
	words, err := causeWords(map[string]Cause{"Jam": InsertionJam, "Störung 17": Double})
	require.NoError(t, err)
	assert.Equal(t, InsertionJam, words["jam"], "the user's words go first")
	assert.Equal(t, Double, words["störung17"])
	assert.Equal(t, NoRead, words[plain("No-Read")])
	_, err = causeWords(map[string]Cause{"E 17": Jam, "e-17": Flap})
	assert.EqualError(t, err, `"e-17" is to mean both jam and flap`)
	_, err = causeWords(map[string]Cause{"E 17": causes})
	assert.Error(t, err)
}

func TestHeadings(t *testing.T) {
	for _, c := range []struct {
		text, word string
		unit       Unit
	}{
		{"Duration (min)", "duration", Minutes},
		{"duration_s", "duration", Seconds},
		{"Seconds stopped", "stopped", Seconds},
		{"MINUTES", "", Minutes},
		{"Date and time", "dateandtime", ""},
		{"Dauer", "dauer", ""},
		{"", "", ""},
	} {
		word, unit := splitHeading(c.text)
		assert.Equal(t, c.word, word, c.text)
		assert.Equal(t, c.unit, unit, c.text)
	}
}

// A unit in a heading must be one that the column can have.
func TestHeadingsWithTheWrongUnit(t *testing.T) {
	for _, c := range []struct {
		text   string
		column Column // "": none
	}{
		{"time (s)", When}, {"time (min)", ""}, {"minutes", Length}, {"station (s)", ""}, {"speed (cycles/h)", Speed}, {"speed (min)", ""},
	} {
		var got Column
		for _, k := range stopKinds {
			if k.isUsual(c.text) {
				got = k.column
			}
		}
		assert.Equal(t, c.column, got, c.text)
	}
}

func TestSoManyNamesAreKept(t *testing.T) {
	n := names{}
	for i := range 2 * maxNames {
		name, why := n.of(fmt.Append(nil, i))
		assert.Empty(t, why)
		assert.Equal(t, fmt.Sprint(i), name)
	}
	assert.Len(t, n, maxNames)
}

func TestLayoutTellsWhatWasReadAsWhat(t *testing.T) {
	_, report := stops(t, "Beginn;Station;Grund;Dauer (min);Bemerkung\n31.03.2026 14:05;feeder 3;jam;1,5;\n",
		Mapping{Columns: map[Column]string{When: "Beginn", Reason: "3", Length: "Dauer (min)"}})
	assert.Equal(t, strings.Join([]string{
		"fields are separated by semicolons, decimals by commas",
		`column 1 "Beginn" is when, written like 31.03.2026 14:05:10, as specified`,
		`column 2 "Station" is station`,
		`column 3 "Grund" is cause, as specified`,
		`column 4 "Dauer (min)" is length, counted in minutes, as specified`,
		"not read: Bemerkung",
	}, "\n"), report.Layout.String())
}

func TestMappingsThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		name string
		m    Mapping
		want string
	}{
		{"column", Mapping{Columns: map[Column]string{"staton": "1"}}, `a.csv: a column is to be read as "staton": did you mean station?`},
		{"column of counts", Mapping{Columns: map[Column]string{Feeds: "1"}}, `a.csv: a column is to be read as "feeds": want when, station, cause, length, end, arrival, day, line, job, speed, cut off, period or shift`},
		{"delimiter", Mapping{Delimiter: ':'}, "a.csv: the delimiter is ':', want a comma, a semicolon, a tab or a bar"},
		{"decimal", Mapping{Decimal: ';'}, "a.csv: the decimal mark is ';', want a comma or a point"},
		{"times", Mapping{Times: "noon"}, `a.csv: times are "noon", want one of ["2026-03-31 14:05:10" "31.03.2026 14:05:10" "31/03/2026 14:05:10" "03/31/2026 14:05:10" "seconds from the start"]`},
		{"unit", Mapping{Unit: "days"}, `a.csv: the unit is "days", want seconds, minutes or hours`},
		{"keep", Mapping{Keep: -1}, "a.csv: -1 problems are to be kept, want 0 or more"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.m.File = "a.csv"
			_, err := Read(strings.NewReader("start,station,cause,seconds\n"), c.m, nil)
			assert.EqualError(t, err, c.want)
		})
	}
}
