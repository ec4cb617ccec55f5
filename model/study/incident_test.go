package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A misfeed of the letters of which the feeder knows takes the faulty set and the catch-up set
// off at the gate. Every event is data: nothing is read from a sentence.
func TestIncidentAsk(t *testing.T) {
	a, err := Incident{Line: riskLine(t, "matched.yaml")}.Ask()
	require.NoError(t, err)
	assert.Equal(t, "letter", a.Station)
	assert.Equal(t, int64(2), a.Lost)
	assert.Zero(t, a.Stops)
	assert.True(t, a.Ended)
	require.NotEmpty(t, a.Cycles)
	assert.Equal(t, []IncidentEvent{{What: IncidentFails, Station: "letter", Set: 1, Fault: "misfeed"}}, a.Cycles[0].Events)
	assert.Equal(t, IncidentPocket{1, IncidentFaulty, []IncidentHolding{{Stream: "letters"}}}, a.Cycles[0].Pockets[0])
	assert.Equal(t, IncidentPocket{2, IncidentCatchUp, []IncidentHolding{{Stream: "letters", Pieces: []int64{1, 2}}}}, a.Cycles[1].Pockets[0])

	var left []int64
	for _, c := range a.Cycles {
		for _, e := range c.Events {
			if e.What != IncidentLeft {
				continue
			}
			assert.Equal(t, "gate", e.Station)
			left = append(left, e.Set)
			for k, p := range a.Places {
				assert.Equal(t, p.Stations[0] == "gate", c.Pockets[k].State == IncidentLeaves, "%v in cycle %d", p.Stations, c.Cycle)
			}
		}
	}
	assert.Equal(t, []int64{1, 2}, left)

	_, err = Incident{Line: riskLine(t, "small.yaml")}.Ask()
	assert.ErrorContains(t, err, "no stream")
}
