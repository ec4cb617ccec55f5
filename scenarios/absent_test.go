package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
)

// skilledFile is planFile with people who may do some works, of whom somebody is absent or has a break alone, and a season of the
// same lines.
var skilledFile = strings.NewReplacer(
	"crew: {operators: 3, walk: 10 s, attends: first come}", `crew:
  operators: 3
  walk: 10 s
  people:
    - {name: Anna, does: [clearing, changing over]}
    - {name: Ben}
    - {name: two, does: filling, operators: 2}`,
	"calendar: {days: 6,", "calendar: {breaks: [{after: 4 h, length: 30 min, who: [Anna]}], days: 6,",
	"  down:", `    - {name: Anna is sick, days: [3], absent: [Anna]}
    - {name: hired, weeks: [2], operators: 4, absent: [Ben]}
  down:`,
	"variants:\n", `season:
  weeks: [{name: one, sets: {Letters: 100}}]
  staff: [{name: Ben is away, days: [2], absent: [Ben]}]
variants:
`).Replace(planFile)

// The four stated are one more than the crew, since there are four in some shifts.
func TestSkilledPlan(t *testing.T) {
	s, err := Load("plan.yaml", []byte(skilledFile))
	require.NoError(t, err)
	assert.Equal(t, []model.Person{{Name: "Anna", Operators: 1, Only: model.Clearing | model.Changing}, {Name: "Ben", Operators: 1}, {Name: "two", Operators: 2, Only: model.Filling}}, s.Plan.Crew.People)
	assert.Equal(t, 1, s.Plan.Crew.Reserve)
	assert.Equal(t, []seasons.Staffed{
		{Name: "Anna is sick", Days: []int{3}, Operators: seasons.AsElse, Absent: []string{"Anna"}},
		{Name: "hired", Weeks: []int{2}, Operators: 4, Absent: []string{"Ben"}},
	}, s.Plan.Staffed[2:])
	assert.Equal(t, []seasons.Staffed{{Name: "Ben is away", Days: []int{2}, Operators: seasons.AsElse, Absent: []string{"Ben"}}}, s.SeasonPlan.Staffed)
	p, err := Load("plan.yaml", []byte(planFile))
	require.NoError(t, err)
	assert.Zero(t, p.Plan.Crew.Reserve, "nobody is stated")
}

func TestSkilledPlanIsRefused(t *testing.T) {
	for text, change := range map[string][2]string{
		`nobody of the crew is named "Ana": did you mean Anna?`:              {"absent: [Anna]", "absent: [Ana]"},
		"has no operators, and nobody is absent: give one of them":           {", absent: [Anna]", ""},
		"people are 4 operators, and the crew has 3 at the most":             {"operators: 4, absent", "operators: 3, absent"},
		"does has clearing twice":                                            {"[clearing, changing over]", "[clearing, clearing]"},
		"does has anything beside others":                                    {"[clearing, changing over]", "[clearing, anything]"},
		"does is an empty list":                                              {"[clearing, changing over]", "[]"},
		"does is a mapping, want anything":                                   {"[clearing, changing over]", "{clearing: true}"},
		"does is changing, did you mean changing over?":                      {"[clearing, changing over]", "[clearing, changing]"},
		"Ben is absent, and it is not said who there is: give people under ": {"  people:\n    - {name: Anna, does: [clearing, changing over]}\n    - {name: Ben}\n    - {name: two, does: filling, operators: 2}", ""},
	} {
		wrong := strings.ReplaceAll(skilledFile, change[0], change[1])
		require.NotEqual(t, skilledFile, wrong, change[0])
		_, err := Load("plan.yaml", []byte(wrong))
		assert.ErrorContains(t, err, text)
	}
}

// ownBreaks is skilledFile with other breaks.
func ownBreaks(breaks string) string {
	return strings.Replace(skilledFile, "[{after: 4 h, length: 30 min, who: [Anna]}]", breaks, 1)
}

func TestBreaksOfOneAlone(t *testing.T) {
	s, err := Load("plan.yaml", []byte(ownBreaks("[{after: 2 h, length: 30 min, who: [Anna]}, {after: 150 min, length: 30 min, who: [Ben, two]}, {after: 4 h, length: 15 min}]")))
	require.NoError(t, err)
	assert.Equal(t, []seasons.Break{
		{After: 7200, Length: 1800, Who: []string{"Anna"}}, {After: 9000, Length: 1800, Who: []string{"Ben", "two"}}, {After: 4 * 3600, Length: 900},
	}, s.Plan.Calendar.Breaks)
	assert.Same(t, s.Plan.Calendar, s.SeasonPlan.Calendar)
}

func TestBreaksOfOneAloneAreRefused(t *testing.T) {
	for text, breaks := range map[string]string{
		`nobody of the crew is named "Ana": did you mean Anna?`: "[{after: 2 h, length: 30 min, who: [Ana]}]",
		"Anna is named twice": "[{after: 2 h, length: 30 min, who: [Anna, Ben, Anna]}]",
		"who is an empty list: leave it out for a break of everybody": "[{after: 2 h, length: 30 min, who: []}]",
		"relief is for a break of everybody":                          "[{after: 2 h, length: 30 min, who: [Anna], relief: true}]",
		"break 1 is in no shift: none":                                "[{after: 7 h, length: 2 h, who: [Anna]}]",
		"who is Anna, want":                                           "[{after: 2 h, length: 30 min, who: Anna}]",
	} {
		_, err := Load("plan.yaml", []byte(ownBreaks(breaks)))
		assert.ErrorContains(t, err, text)
	}
	nobody := strings.Replace(ownBreaks("[{after: 2 h, length: 30 min, who: [Anna]}]"), "  people:\n    - {name: Anna, does: [clearing, changing over]}\n    - {name: Ben}\n    - {name: two, does: filling, operators: 2}\n", "", 1)
	_, err := Load("plan.yaml", []byte(nobody))
	assert.ErrorContains(t, err, "Anna has a break alone, and it is not said who there is: give people under crew")
}
