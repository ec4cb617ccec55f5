package willrun

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
	"netrate/scenarios"
)

// What the season of one line would refuse, check refuses in the same words; the file itself it does not.
func TestCheckOfASeason(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plan.yaml")
	require.NoError(t, err)
	before, _, is := strings.Cut(string(text), "plan:\n")
	require.True(t, is)
	before += "season:\n  weeks: [{name: one, sets: {Letters: 5000, Others: 4000}}]\n"
	const crew, letters, shifts = "operators: 1,", "{name: letter, size: A4, fold: half, paper: 80 g/m2}", "length: 8 h}]"
	for wrong, change := range map[string][2]string{
		"": {},
		"all are absent in week 1, day 2, shift 1":    {crew, "operators: 1, people: [{name: Anna}],"},
		"nobody who is ever there may change over":    {crew, "operators: 1, people: [{name: Anna, does: [clearing, filling]}],"},
		"base: the crew changes by the time":          {crew, "operators: 1, later: [{after: 4 h, operators: 2}],"},
		"Letters: no free feeder: the 2 inserts":      {letters, letters + ", {name: card, size: A6, paper: 170 g/m2}"},
		"all who are there in week 1, day 1, shift 1": {crew, "operators: 1, people: [{name: Anna}],"},
	} {
		file := before
		switch {
		case strings.HasPrefix(wrong, "all are absent"):
			file += "  staff: [{name: sick, days: [2], absent: [Anna]}]\n"
		case strings.HasPrefix(wrong, "all who are there"):
			file = strings.Replace(file, shifts, shifts+", breaks: [{after: 4 h, length: 30 min, who: [Anna]}]", 1)
		}
		if change[0] != "" {
			require.Contains(t, file, change[0])
			file = strings.Replace(file, change[0], change[1], 1)
		}
		sc, err := scenarios.Load("x.yaml", []byte(file))
		require.NoError(t, err, wrong)
		err = wrongToRun(sc)
		asked := (&study.Seasons{Configurations: desk.SeasonsOf(sc)}).Check()
		if wrong == "" {
			assert.NoError(t, err)
			assert.NoError(t, asked)
			continue
		}
		require.ErrorContains(t, asked, wrong)
		assert.ErrorContains(t, err, asked.Error())
	}
}
