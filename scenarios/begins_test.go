package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// begun loads a small file with a beginning.
func begun(t *testing.T, begins string) (*Scenario, error) {
	t.Helper()
	text := strings.Replace(everything, "begins: {hoppers: as left, track: as left, after: 16 h}", "begins: "+begins, 1)
	require.NotEqual(t, everything, text)
	return Load("begins.yaml", []byte(text))
}

func TestBeginnings(t *testing.T) {
	for text, want := range map[string]model.Begins{
		"{hoppers: full}":                   {},
		"{track: empty}":                    {},
		"{hoppers: 60%}":                    {Level: 0.6},
		"{hoppers: 1}":                      {Level: 1},
		"{hoppers: as left}":                {Before: 8 * 3600},
		"{hoppers: as left, after: 90 min}": {Before: 5400},
		"{hoppers: as left, track: as left, after: 2 h}": {Before: 7200, Track: true},
	} {
		s, err := begun(t, text)
		if assert.NoError(t, err, text) {
			assert.Equal(t, want, s.Line.Begins, text)
		}
	}
}

func TestBeginningsRefused(t *testing.T) {
	for text, want := range map[string]string{
		"{hoppers: 0}":                      "hoppers is 0, want full, as left, or a share",
		"{hoppers: 120%}":                   "want full, as left, or a share of their capacity above 0",
		"{hoppers: 1e300}":                  "want full, as left, or a share",
		"{hoppers: .nan}":                   "want full, as left, or a share",
		"{hoppers: as lef}":                 "did you mean as left?",
		"{track: emty}":                     "empty",
		"{track: as left}":                  "the hoppers are not: want hoppers: as left too",
		"{hoppers: 50%, track: as left}":    "the hoppers are not: want hoppers: as left too",
		"{after: 8 h}":                      "nothing is as left: give hoppers: as left",
		"{hoppers: as left, after: 0 s}":    "after is 0 s, want more than 0 s",
		"{hoppers: as left, after: 1000 h}": "at most 744 h",
		"full":                              "begins",
		"{hopper: full}":                    "did you mean hoppers",
	} {
		_, err := begun(t, text)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
		}
	}
}

// Jobs begin with an empty track and their own pieces, and a file that says otherwise
// is refused.
func TestJobsBeginAfresh(t *testing.T) {
	text := strings.Replace(everything, "work: {shift: 8 h,", "work: {sets: 100,", 1)
	_, err := Load("job.yaml", []byte(text))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "a job begins with an empty track and its own pieces")
	text = strings.Replace(text, "{hoppers: as left, track: as left, after: 16 h}", "{hoppers: 60%}", 1)
	s, err := Load("job.yaml", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, model.Begins{Level: 0.6}, s.Line.Begins)
}

// How each job of a season begins: as the season says or, where it does not, as work does.
func TestJobsOfASeasonBegin(t *testing.T) {
	for hoppers, want := range map[string]model.Begins{
		"":                 {Level: 0.3},
		"hoppers: full":    {},
		"hoppers: 60%":     {Level: 0.6},
		"hoppers: as left": {Kept: true},
	} {
		text := strings.Replace(seasonal, "hoppers: as left", hoppers, 1) + "work: {shift: 8 h, begins: {hoppers: 30%}}\n"
		s, err := Load("season.yaml", []byte(text))
		require.NoError(t, err, hoppers)
		assert.Equal(t, want, s.Season.Begins, hoppers)
	}
	_, err := Load("season.yaml", []byte(strings.Replace(seasonal, "hoppers: as left", "hoppers: as before", 1)))
	assert.ErrorContains(t, err, "full, as left, or a share of their capacity")
}
