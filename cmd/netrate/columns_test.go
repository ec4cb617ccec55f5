package main

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/manual"
)

// The manual says of each column of the rows of a plan and of a season what it is.
func TestColumnsAreInTheManual(t *testing.T) {
	for command, name := range map[string]string{
		"plan plan.yaml --reps 2 --csv -": "planning",
		`season --example flats-season --reps 1 --set costs={"currency":"EUR","operator_hour":30} --csv -`: "seasons",
	} {
		var text string
		for _, topic := range manual.Topics() {
			if topic.Name == name {
				text = topic.Text
			}
		}
		_, text, found := strings.Cut(text, "--csv")
		require.True(t, found, name)
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(outputsOf(t, command)[0].data), "\ufeff"))).ReadAll()
		require.NoError(t, err)
		require.Greater(t, len(rows), 1)
		for _, column := range rows[0] {
			assert.Contains(t, text, "**"+column+"**", "%s of %s", column, command)
		}
	}
}
