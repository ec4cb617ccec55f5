package setup

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// changes is a changeover whose times, in seconds, tell its parts apart.
func changes() *Changeover {
	by := func(time float64) Change { return Change{Time: sim.Constant(time)} }
	return &Changeover{
		Always: by(1), Height: by(10), Length: Change{sim.Constant(700), true}, Thickness: by(50),
		Insert: by(100), Stream: by(200), Reader: by(30),
	}
}

// setUp returns the line set up for a product that it can run.
func setUp(t *testing.T, l *model.Line, p *Product) *Setup {
	t.Helper()
	got, fit := Fitted(l, p)
	require.True(t, fit.Runs, "%q", fit.Reasons)
	return &Setup{p, got, fit}
}

func TestItems(t *testing.T) {
	base := func() *Setup { return setUp(t, fitLine(), fitProduct()) }
	product := func(change func(p *Product)) *Setup {
		p := fitProduct()
		change(p)
		return setUp(t, fitLine(), p)
	}
	line := func(change func(l *model.Line)) *Setup {
		l := fitLine()
		change(l)
		return setUp(t, l, fitProduct())
	}
	noCards := product(func(p *Product) { p.Inserts = p.Inserts[1:] })
	for _, c := range []struct {
		name     string
		from, to *Setup
		items    []string
		by1, by2 sim.Seconds
	}{
		// 1
		{"the same again", base(), base(), []string{"change of job"}, 1, 1},
		// One operator: 1 + 10 + 50 + 2·100 + 2·200 + 30 = 691, and 700 by itself beside it.
		{"an empty line", nil, base(), []string{
			"change of job", "height of the envelope", "length of the envelope", "throat",
			"feeder 1", "feeder 2", "stream letters", "stream cards", "reader reader",
		}, 700, 700},
		// 1 + 10; two: 10 beside 1.
		{"a higher envelope", base(), product(func(p *Product) { p.Envelope.Height = 165 }), []string{"change of job", "height of the envelope"}, 11, 10},
		// 1 beside 700.
		{"a longer envelope", base(), product(func(p *Product) { p.Envelope.Length = 235 }), []string{"change of job", "length of the envelope"}, 700, 700},
		// 1 + 50
		{"more pages", base(), product(func(p *Product) { p.Documents.Pages = sim.Always(3) }), []string{"change of job", "throat"}, 51, 50},
		// 1 + 100
		{"another leaflet", base(), product(func(p *Product) { p.Inserts[1].Name = "other" }), []string{"change of job", "feeder 2"}, 101, 100},
		{"the leaflet for more of the sets", base(), product(func(p *Product) { p.Inserts[1].Share = 0.5 }), []string{"change of job"}, 1, 1},
		{"the leaflet in another feeder", base(), product(func(p *Product) { p.Inserts[1].Feeder = "3" }), []string{"change of job", "feeder 3"}, 101, 100},
		// The leaflet goes into feeder 1: 1 + 50 + 100 + 200 + 30 = 381; two: 200, 100 + 50 + 30 + 1.
		{"the cards go", base(), noCards, []string{"change of job", "throat", "feeder 1", "stream cards", "reader reader"}, 381, 200},
		// 1 + 50 + 2·100 + 200 + 30 = 481; two: 200 + 50, 100 + 100 + 30 + 1.
		{"the cards come", noCards, base(), []string{"change of job", "throat", "feeder 1", "feeder 2", "stream cards", "reader reader"}, 481, 250},
		// 1 + 2·100 + 200; two: 200 + 1, 100 + 100.
		{"the cards change feeders", base(), line(func(l *model.Line) {
			a, b := l.Stations[1].(*model.Feeder), l.Stations[2].(*model.Feeder)
			a.Stream, b.Stream = b.Stream, a.Stream
		}), []string{"change of job", "feeder 2", "feeder 1", "stream cards"}, 401, 201},
		// 1 + 30
		{"the reader verifies less", base(), line(func(l *model.Line) { modeltest.FirstOf[*model.Reader](l).Sequence = false }), []string{"change of job", "reader reader"}, 31, 30},
	} {
		t.Run(c.name, func(t *testing.T) {
			items := changes().Items(c.from, c.to)
			var got []string
			for _, i := range items {
				got = append(got, i.Name)
			}
			assert.Equal(t, c.items, got)
			assert.Equal(t, c.by1, Total(items, 1, 0, 0), "one operator")
			assert.Equal(t, c.by2, Total(items, 2, 0, 0), "two operators")
		})
	}
}

// What has no time given is no work.
func TestItemsWithoutTime(t *testing.T) {
	to := setUp(t, fitLine(), fitProduct())
	assert.Empty(t, (&Changeover{}).Items(nil, to))
	assert.Zero(t, Total(nil, 1, 0, 0))
	only := Changeover{Insert: Change{Time: sim.Constant(60)}}
	assert.Equal(t, sim.Seconds(120), Total(only.Items(nil, to), 1, 0, 0))
	assert.Len(t, only.Items(nil, to), 2)
}
