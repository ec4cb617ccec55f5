package setup

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/formats"
)

func TestCover(t *testing.T) {
	slow, bare := fitLine(), fitLine()
	slow.Speed = 5000
	bare.Stations = bare.Stations[1:] // without the document channel
	statement, flyer := fitProduct(), fitProduct()
	flyer.Documents, flyer.Inserts[1].Thickness = nil, 0.3
	flyer.Inserts = flyer.Inserts[1:]

	table := Cover([]*model.Line{fitLine(), slow, bare}, []*Product{statement, flyer})
	require.Len(t, table, 2)
	var runs [2][3]bool
	var speeds [2][3]float64
	for i, row := range table {
		require.Len(t, row, 3)
		for k, fit := range row {
			runs[i][k], speeds[i][k] = fit.Runs, fit.Speed
		}
	}
	assert.Equal(t, [2][3]bool{{true, true, false}, {true, true, true}}, runs)
	assert.Equal(t, [2][3]float64{{14_000, 5000, 0}, {14_000, 5000, 14_000}}, speeds)

	tight := Cover([]*model.Line{fitLine()}, []*Product{statement}, formats.Clearance{Length: 30, Height: 5})
	assert.False(t, tight[0][0].Runs)
}
