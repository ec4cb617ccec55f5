package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An order is written as a planner would, changed in its place, and taken out to the same bytes.
func TestEditedOrder(t *testing.T) {
	x, err := ExampleNamed("nine-jobs")
	require.NoError(t, err)
	letters := []string{"offer spring", "reminders A", "accounts north", "reminders B", "accounts south"}
	flats := []string{"accounts late", "catalogue A", "catalogue B", "offer club"}
	first, err := EditedOrder("x.yaml", x.Data, []LineOrder{{"letters", letters}, {"flats", flats}})
	require.NoError(t, err)
	const rows = `  order:
    - {line: letters, jobs: [offer spring, reminders A, accounts north, reminders B, accounts south]}
    - {line: flats, jobs: [accounts late, catalogue A, catalogue B, offer club]}
`
	assert.Equal(t, string(x.Data), strings.Replace(string(first), rows, "", 1))
	bare, err := EditedWithout("x.yaml", first, "plan.order")
	require.NoError(t, err)
	assert.Equal(t, string(x.Data), string(bare))

	by := strings.Replace(string(first), "jobs: [accounts late", "jobs:   [accounts late", 1)
	by = strings.Replace(by, "- {line: flats", "# by hand\n    - {line: flats", 1)
	second, err := EditedOrder("x.yaml", []byte(by), []LineOrder{{"letters", letters[1:]}, {"flats", append(flats, letters[0])}})
	require.NoError(t, err)
	want := strings.Replace(strings.Replace(by, "[offer spring, ", "[", 1), "offer club]}\n", "offer club, offer spring]}\n", 1)
	assert.Equal(t, want, string(second))

	one := strings.Replace(string(first), rows, "  order: [{line: letters, jobs: ["+strings.Join(append(letters, flats...), ", ")+"]}]\n", 1)
	third, err := EditedOrder("x.yaml", []byte(one), []LineOrder{{"letters", letters}, {"flats", flats}})
	require.NoError(t, err, "what is written otherwise is written anew")
	assert.Equal(t, string(first), string(third))

	_, err = EditedOrder("x.yaml", x.Data, []LineOrder{{"letters", letters}, {"flats", flats[1:]}})
	require.ErrorContains(t, err, "job accounts late is missing in the order")
}

// A plan between brackets, of one line, whose names need quotes.
func TestEditedOrderBetweenBrackets(t *testing.T) {
	text := strings.Replace(planFile[:strings.Index(planFile, "plan:\n")]+"plan: {jobs: [{name: 'a, b', job: Letters, sets: 10}, {name: \"yes\", job: Letters, sets: 10}]}\n", "\t", "", 1)
	got, err := EditedOrder("x.yaml", []byte(text), []LineOrder{{"letters", []string{"yes", "a, b"}}, {"v1.0 flats", nil}})
	require.NoError(t, err)
	assert.Contains(t, string(got), ", order: [{line: letters, jobs: [yes, 'a, b']}, {line: 'v1.0 flats', jobs: []}]}\n")
}
