package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// An uncertain number that a choice sets is an unknown of that choice, as one that a variant sets is of the
// variant: the same in all that the choice is combined with, and not that of the line as it is, nor that of
// another choice or of a variant with its name.
func TestUncertainInputsOfChoices(t *testing.T) {
	const walks = `
    - name: display
      choices:
        - {name: none}
        - {name: small, changes: [{set: crew.walk, to: {constant: {low: 5 s, likely: 8 s, high: 14 s}}}]}
        - {name: large, changes: [{set: crew.walk, to: {constant: {low: 4 s, likely: 6 s, high: 9 s}}}]}
        - {name: half, changes: [{set: crew.walk, times: 0.5}]}
        - {name: as said, changes: [{set: crew.walk, to: {constant: {same as: crew.walk.constant, low: 8 s, likely: 12 s, high: 20 s}}}]}
    - name: crew
      choices: [{name: as now}, {name: few, changes: [{set: crew.operators, to: 1}]}]
variants:
  - {name: small, changes: [{set: crew.walk, to: {constant: {low: 6 s, likely: 7 s, high: 8 s}}}]}
`
	head, _, _ := strings.Cut(searched, "  goal: operators")
	text := strings.Replace(head, "walk: 10 s", "walk: {constant: {low: 8 s, likely: 12 s, high: 20 s}}", 1) + "  goal: net rate\n  options:" + walks
	s, err := Load("walks.yaml", []byte(text))
	require.NoError(t, err)
	walk := func(choices ...int) model.UncertainInput {
		v, err := s.Design.Designed(choices)
		require.NoError(t, err)
		require.Len(t, v.Line.UncertainInputs, 1)
		return v.Line.UncertainInputs[0]
	}
	base := s.Line.UncertainInputs[0]
	assert.Equal(t, base, walk(0, 0))
	assert.Equal(t, base.Unknown(), walk(3, 0).Unknown(), "some times as large is the same unknown")
	assert.Equal(t, base.Unknown(), walk(4, 0).Unknown())
	assert.Equal(t, model.Unknown{Path: base.Unknown().Path, Owner: "small"}, walk(1, 0).Unknown())
	assert.Equal(t, walk(1, 0), walk(1, 1), "one choice, whatever it is combined with")
	assert.Equal(t, "large", walk(2, 1).Owner)
	assert.NotEqual(t, s.Variants[0].Line.UncertainInputs[0].Of, walk(1, 0).Of)

	// What is said to be the same must still be written alike.
	_, err = Load("walks.yaml", []byte(strings.Replace(text, "same as: crew.walk.constant, low: 8 s", "same as: crew.walk.constant, low: 7 s", 1)))
	assert.ErrorContains(t, err, "which is written differently")
}
