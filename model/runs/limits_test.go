package runs

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// What would not fit into memory is refused before a line is even looked at.
func TestTooManyToKeep(t *testing.T) {
	plan := sim.Plan{Min: 1, Max: MostReplications/2 + 1}
	nowhere := &model.Line{}
	var many *sim.TooMany
	_, err := Together(t.Context(), []*model.Line{nowhere, nowhere}, plan, nil, nil)
	require.ErrorAs(t, err, &many)
	assert.Equal(t, 2, many.Parts)
	_, err = TogetherWork(t.Context(), []Work{{Group: &model.LineGroup{Lines: []*model.Line{nowhere, nowhere}}}}, plan, nil, nil)
	require.ErrorAs(t, err, &many)
	_, err = Run(t.Context(), nowhere, sim.Plan{Min: 1, Max: MostReplications + 1}, nil)
	require.ErrorAs(t, err, &many)
	uncertain := &model.Line{UncertainInputs: make([]model.UncertainInput, 10)}
	require.NoError(t, DrawsFit(mostDrawn/10, 2, uncertain))
	require.ErrorAs(t, DrawsFit(mostDrawn/10+1, 2, uncertain), &many)
	require.ErrorAs(t, DrawsFit(MostReplications/8, 4, nowhere, nowhere, nowhere), &many)
	_, _, err = RunUncertain(t.Context(), []*model.Line{uncertain}, sim.Plan{Max: mostDrawn}, 2, nil)
	require.ErrorAs(t, err, &many)
}
