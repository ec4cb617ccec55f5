package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Documents of the same pages are passed over, those of a table with one row are not: the
// outcome must be the same to the last bit, for faults from rare to many.
func TestSkippingDocumentsChangesNothing(t *testing.T) {
	for _, rate := range []float64{0, 1e-5, 1e-3, 0.02} {
		for buffer, sheets := range map[int]int64{1: 2, 2: 1, 10: 2} {
			for _, answer := range []Response{Stop, Divert} {
				l := lettersLine(2)
				channel := &Channel{
					Place: Place{Name: "documents", At: 0}, Sheets: 30_000, Pages: sim.Always(sheets), Buffer: buffer,
					Misfeed: rate, Double: rate, Jam: rate / 2, Noticed: 0.8, Caught: 0.7, FalseCalls: rate / 4,
					Stream: Stream{Name: "documents", Tries: 1}, OnMisfeed: answer, OnDouble: answer, Clear: sim.Constant(20.3),
				}
				l.Stations[0] = channel
				reader := firstOf[*Reader](l)
				reader.Match, reader.NoRead, reader.FalseAlarm = "documents", 0.001, 0.0005
				letters := firstOf[*Feeder](l)
				letters.Misfeed, letters.Double, letters.Jam, letters.Noticed, letters.Caught = 0.002, 0.001, 0.0005, 0.9, 0.9
				skips := outcomesOf(t, l)
				pages, err := sim.NewTable([]int64{sheets}, []float64{1})
				require.NoError(t, err)
				channel.Pages = pages
				assert.Equal(t, outcomesOf(t, l), skips, "rate %v, buffer %d, %v", rate, buffer, answer)
			}
		}
	}
}

// outcomesOf returns ten replications of a line.
func outcomesOf(t *testing.T, l *Line) []Outcome {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	outs := make([]Outcome, 10)
	for i := range outs {
		require.NoError(t, s.Run(1, i, &outs[i]))
	}
	return outs
}
