package setup

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
)

// What stays is told by the names of the stations, on the line of TestItems: documents, feeders 1 and 2.
func TestStays(t *testing.T) {
	product := func(change func(p *Product)) *Setup {
		p := fitProduct()
		change(p)
		return setUp(t, fitLine(), p)
	}
	base := product(func(*Product) {})
	stays := func(from, to *Setup) (names []string) {
		for i, k := range Stays(from, to) {
			if name := to.Line.Stations[i].Where().Name; k >= 0 && to.Line.Stations[i].Stocked().Pieces && model.StreamOf(to.Line.Stations[i]).Name == "" {
				assert.Equal(t, name, from.Line.Stations[k].Where().Name)
				names = append(names, name)
			}
		}
		return names
	}
	assert.Equal(t, []string{"2", "inserter"}, stays(base, base))
	assert.Equal(t, []string{"2", "inserter"}, stays(base, product(func(p *Product) { p.Inserts[1].Share = 0.5 })), "the same pieces in half of the sets")
	assert.Equal(t, []string{"inserter"}, stays(base, product(func(p *Product) { p.Inserts[1].Name = "other" })))
	assert.Equal(t, []string{"inserter"}, stays(base, product(func(p *Product) { p.Inserts[1].Feeder = "3" })))
	assert.Equal(t, []string{"2"}, stays(base, product(func(p *Product) { p.Envelope.Height = 165 })))
	assert.Empty(t, stays(nil, base))
	assert.Equal(t, []string{"inserter"}, stays(product(func(p *Product) { p.Inserts = p.Inserts[1:] }), base), "the leaflet comes back into feeder 2")
}
