package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/setup"
)

// twoChannels is a line whose job gathers documents of two channels.
const twoChannels = `name: Two channels
line:
  restart: 4 s
  speed: 9000/h
  stations:
    - {kind: document channel, name: bills, at: 0, stream: bills, sheets: 40000/h, pages: 1, buffer: 10, misfeed: 1/8000, double: 0, jam: 1/40000, clear: 60 s}
    - {kind: document channel, name: letters, at: 1, stream: letters, sheets: 40000/h, pages: 1, buffer: 10, misfeed: 1/8000, double: 0, jam: 1/40000, clear: 60 s}
    - {kind: reader, name: bill reader, at: 1, reads: bills, verifies: [sequence], no_read: 0, clear: 20 s}
    - {kind: reader, name: letter reader, at: 2, reads: letters, match: bills, no_read: 0, clear: 20 s}
    - {kind: inserter, name: press, at: 4, rated: 9000/h, hopper: {pieces: 900, warn: 90, refill: 9 s}, envelope_misfeed: 1/3000, flap: 1/700, jam: 1/800, clear: 9 s}
    - {kind: delivery, name: belt, at: 6}
crew: {operators: 1, walk: 12 s}
jobs:
  - name: both
    envelope: C5
    documents: {stream: bills, pages: 2, paper: 80 g/m2}
    further_documents: [{stream: letters, pages: 3, paper: 80 g/m2}]
`

// Each channel makes the pages that its documents of the job have.
func TestFurtherDocuments(t *testing.T) {
	sc, err := Load("two.yaml", []byte(twoChannels))
	require.NoError(t, err)
	line, fit := setup.Fitted(sc.Line, sc.Products[0])
	require.NotNil(t, line, fit.Reasons)
	require.Len(t, sc.Products[0].Further, 1)
	assert.Equal(t, "letters", sc.Products[0].Further[0].Stream)
	pages := map[string]float64{}
	for _, s := range line.Stations {
		if h, is := s.(*model.Channel); is {
			pages[h.Name] = h.Pages.Mean()
		}
	}
	assert.Equal(t, map[string]float64{"bills": 2, "letters": 3}, pages)

	_, err = Load("two.yaml", []byte(strings.Replace(twoChannels, "[{stream: letters, pages: 3, paper: 80 g/m2}]", "[{stream: letters, pages: 0}]", 1)))
	require.ErrorContains(t, err, "pages")
}
