package setup

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/formats"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// fitLine returns a line with a document channel, three feeders of which the first carries
// a stream, and a reader. Its figures are invented.
func fitLine() *model.Line {
	clear := sim.Constant(40)
	l := &model.Line{Name: "fit", Shift: 3600, Restart: sim.Constant(4), Crew: model.Crew{Operators: 1, Walk: sim.Constant(10)}}
	l.Stations = []model.Station{&model.Channel{
		Place: model.Place{Name: "documents"}, Sheets: 60_000, Buffer: 4, Misfeed: 1e-4, Noticed: 1, Caught: 1,
		Stream: model.Stream{Name: "letters", Tries: 1}, Clear: clear,
	}}
	for i, name := range []string{"1", "2", "3"} {
		l.Stations = append(l.Stations, &model.Feeder{
			Place: model.Place{Name: name, At: 2 + 2*i, Rated: 18_000}, Hopper: model.Stock{Capacity: 4000, Warn: 800, Work: clear},
			Misfeed: 4e-4, Double: 1e-4, Jam: 1e-5, Material: 1, Noticed: 1, Caught: 1, Share: 1,
			Takes: model.Takes{Height: model.Bounds{Least: 80, Most: 162}, Length: model.Bounds{Least: 110, Most: 229}, Thickness: model.Bounds{Least: 0.1, Most: 3}}, Stack: 300, Clear: clear,
		})
	}
	l.Stations[1].(*model.Feeder).Stream = model.Stream{Name: "cards", Tries: 1}
	l.Stations[3].(*model.Feeder).Takes.Thickness.Most = 0.5
	l.Stations = append(
		l.Stations,
		&model.Reader{Place: model.Place{Name: "reader", At: 7}, Reads: "letters", Sequence: true, Match: "cards", Clear: clear},
		&model.TrackGate{Place: model.Place{Name: "track gate", At: 8, Rated: 20_000}},
		&model.Inserter{
			Place: model.Place{Name: "inserter", At: 10, Rated: 18_000}, Hopper: model.Stock{Capacity: 1500, Warn: 300, Work: clear}, EnvelopeMisfeed: 1e-4, Clear: clear,
			Takes:  model.Takes{Height: model.Bounds{Least: 90, Most: 176}, Length: model.Bounds{Least: 150, Most: 250}, Thickness: model.Bounds{Least: 0.2, Most: 6}},
			Groups: []model.SizeGroup{{Name: "small", Height: 125, Length: 235, Speed: 18_000}, {Name: "large", Height: 170, Length: 250, Speed: 14_000}},
		},
		&model.Delivery{Place: model.Place{Name: "delivery", At: 14, Rated: 20_000}},
	)
	return l
}

// withEnvelopeFeeder adds a feeder of personalised envelopes, and gives the reader a
// second one beside it that matches them.
func withEnvelopeFeeder(l *model.Line) {
	for i, s := range l.Stations {
		if n, ok := s.(*model.Inserter); ok {
			n.Hopper, n.EnvelopeMisfeed = model.Stock{}, 0
			e := &model.Feeder{
				Place: model.Place{Name: "envelopes", At: 9, Rated: 16_000}, Hopper: model.Stock{Capacity: 900, Warn: 90, Work: n.Clear},
				Misfeed: 2e-4, Double: 1e-4, Growth: 2, Material: 3, Noticed: 1, Caught: 1, Share: 1,
				Stream: model.Stream{Name: "addresses", Tries: 1}, Envelopes: true, Clear: n.Clear,
			}
			r := &model.Reader{Place: model.Place{Name: "second reader", At: 9}, Reads: "letters", Match: "addresses", Clear: n.Clear}
			l.Stations = append(l.Stations[:i:i], append([]model.Station{e, r}, l.Stations[i:]...)...)
			return
		}
	}
}

// fitProduct returns a product that the line can run: two pages, a personalised card and a
// leaflet in C5.
func fitProduct() *Product {
	return &Product{
		Name:      "statement",
		Sets:      10_000,
		Envelope:  Envelope{Name: "C5", Height: 162, Length: 229},
		Documents: &Documents{Stream: "letters", Pages: sim.Always(2), Height: 148, Length: 210, Sheet: 0.1, Layers: 2},
		Inserts: []Insert{
			{Name: "card", Height: 90, Length: 150, Thickness: 0.4, Material: 1, Share: 1, Stream: "cards"},
			{Name: "leaflet", Height: 105, Length: 210, Thickness: 0.1, Material: 2.5, Share: 0.4},
		},
	}
}

// one returns the station of that name, of the kind asked for.
func one[T model.Station](t *testing.T, l *model.Line, name string) T {
	t.Helper()
	for _, s := range l.Stations {
		if s, ok := s.(T); ok && s.Where().Name == name {
			return s
		}
	}
	require.Failf(t, "no such station", "%s", name)
	panic("not reached")
}

func names(l *model.Line) (list []string) {
	for _, s := range l.Stations {
		list = append(list, s.Where().Name)
	}
	return list
}

func TestFitted(t *testing.T) {
	l, p := fitLine(), fitProduct()
	got, fit := Fitted(l, p)
	require.True(t, fit.Runs, fit.Reasons)
	assert.Equal(t, &Fit{
		Runs: true, Speed: 14_000, LimitedBy: []string{"envelopes of the group large"},
		Feeders: []Loaded{{"card", "1"}, {"leaflet", "2"}},
	}, fit)
	assert.Equal(t, []string{"documents", "1", "2", "reader", "track gate", "inserter", "delivery"}, names(got))
	assert.Equal(t, sim.Always(2), one[*model.Channel](t, got, "documents").Pages)

	card, leaflet := one[*model.Feeder](t, got, "1"), one[*model.Feeder](t, got, "2")
	assert.Equal(t, "cards", card.Stream.Name)
	assert.EqualValues(t, 750, card.Hopper.Capacity, "300 mm of 0.4 mm")
	assert.EqualValues(t, 150, card.Hopper.Warn, "a fifth, as 800 of 4000")
	assert.EqualValues(t, 3000, leaflet.Hopper.Capacity, "300 mm of 0.1 mm")
	assert.Equal(t, 2.5, leaflet.Material)
	assert.Equal(t, 0.4, leaflet.Share)

	untouched := fitLine()
	assert.Equal(t, untouched, l, "the line stays as it is")
	assert.Equal(t, fitProduct(), p)
}

// A product whose documents come from two channels sets up both, by their streams; a product with documents of
// one leaves the other out. Both documents count for the thickness of the set.
func TestFittedTwoChannels(t *testing.T) {
	two := fitLine()
	second := modeltest.FirstOf[*model.Channel](two).Clone().(*model.Channel)
	second.Name, second.Stream.Name, second.At = "invoices", "invoices", 1
	reader := modeltest.FirstOf[*model.Reader](two).Clone().(*model.Reader)
	reader.Name, reader.Reads, reader.Match, reader.Sequence = "invoice reader", "invoices", "", true
	two.Stations = slices.Insert(two.Stations, two.First(model.Diverts), model.Station(reader))
	two.Stations = slices.Insert(two.Stations, 1, model.Station(second))

	p := fitProduct()
	p.Further = []Documents{{Stream: "invoices", Pages: sim.Always(3), Sheet: 0.1, Height: 100, Length: 200, Layers: 1}}
	p.Documents.Sheet = 0.1
	both, why := Fitted(two, p)
	require.NotNil(t, both, "%v", why.Reasons)
	assert.Equal(t, sim.Always(3), one[*model.Channel](t, both, "invoices").Pages)
	assert.Equal(t, p.Documents.Pages, one[*model.Channel](t, both, "documents").Pages)
	thick, _ := p.Thickness()
	p.Further = nil
	thin, _ := p.Thickness()
	assert.InDelta(t, 0.3, thick-thin, 1e-12)
	left, why := Fitted(two, p)
	require.NotNil(t, left, "%v", why.Reasons)
	assert.NotContains(t, names(left), "invoices")
	assert.NotContains(t, names(left), "invoice reader")
}

// What a product has no use for is taken out, and what is left still makes sense.
func TestFittedLeavesOut(t *testing.T) {
	for _, c := range []struct {
		name  string
		from  func(l *model.Line, p *Product)
		check func(t *testing.T, l *model.Line, f *Fit)
	}{
		{"nothing personalised", func(_ *model.Line, p *Product) {
			p.Documents, p.Inserts = nil, p.Inserts[1:]
			p.Inserts[0].Thickness = 0.3
		}, func(t *testing.T, l *model.Line, _ *Fit) {
			t.Helper()
			assert.Equal(t, []string{"1", "track gate", "inserter", "delivery"}, names(l))
			assert.Empty(t, l.Streams(), "a plain insert in feeder 1, which then carries no stream")
		}},
		{"no cards: nothing to match", func(_ *model.Line, p *Product) {
			p.Inserts = p.Inserts[1:]
		}, func(t *testing.T, l *model.Line, f *Fit) {
			t.Helper()
			r := one[*model.Reader](t, l, "reader")
			assert.Empty(t, r.Match)
			assert.True(t, r.Sequence)
			assert.Equal(t, []string{"reader has no pieces of cards to match"}, f.Notes)
		}},
		{"no cards, and a reader that only matches", func(l *model.Line, p *Product) {
			modeltest.FirstOf[*model.Reader](l).Sequence = false
			p.Inserts = p.Inserts[1:]
		}, func(t *testing.T, l *model.Line, _ *Fit) {
			t.Helper()
			assert.NotContains(t, names(l), "reader")
		}},
		{"cards alone, read in sequence", func(l *model.Line, p *Product) {
			r := modeltest.FirstOf[*model.Reader](l)
			r.Reads, r.Match, r.Sequence = "cards", "letters", true
			p.Documents = nil
		}, func(t *testing.T, l *model.Line, f *Fit) {
			t.Helper()
			r := one[*model.Reader](t, l, "reader")
			assert.True(t, r.Presence && !r.Sequence && r.Match == "")
			assert.Contains(t, f.Notes, "reader verifies presence: nothing is matched to cards")
		}},
		{"one half of a stream", func(l *model.Line, _ *Product) {
			for i := 1; i <= 2; i++ {
				l.Stations[i].(*model.Feeder).Stream = model.Stream{Name: "cards", Half: true, Tries: 1}
			}
		}, func(t *testing.T, l *model.Line, _ *Fit) {
			t.Helper()
			assert.False(t, one[*model.Feeder](t, l, "1").Stream.Half)
		}},
		{"both halves of a stream", func(l *model.Line, p *Product) {
			for i := 1; i <= 2; i++ {
				l.Stations[i].(*model.Feeder).Stream = model.Stream{Name: "cards", Half: true, Tries: 1}
			}
			p.Inserts[1].Stream, p.Inserts[1].Share = "cards", 1
		}, func(t *testing.T, l *model.Line, _ *Fit) {
			t.Helper()
			assert.True(t, one[*model.Feeder](t, l, "1").Stream.Half && one[*model.Feeder](t, l, "2").Stream.Half)
		}},
		{"a reader of presence", func(l *model.Line, _ *Product) {
			r := modeltest.FirstOf[*model.Reader](l)
			r.Reads, r.Match = "letters", ""
			l.Stations = append(l.Stations[:5:5], append([]model.Station{&model.Reader{
				Place: model.Place{Name: "eye", At: 7}, Reads: "cards", Presence: true, Clear: r.Clear,
			}}, l.Stations[5:]...)...)
		}, func(t *testing.T, _ *model.Line, f *Fit) {
			t.Helper()
			assert.Equal(t, []string{"eye sees that a piece of cards is missing, but not that the stream is out of step"}, f.Notes)
		}},
		{"an insert turned", func(_ *model.Line, p *Product) {
			p.Inserts[1].Height, p.Inserts[1].Length = 210, 105
		}, func(t *testing.T, _ *model.Line, f *Fit) {
			t.Helper()
			assert.Equal(t, Loaded{"leaflet", "2"}, f.Feeders[1])
		}},
		{"a set that may be thick enough", func(l *model.Line, p *Product) {
			modeltest.FirstOf[*model.Inserter](l).Takes.Thickness.Least = 1
			p.Inserts[1].Thickness = 0
		}, func(t *testing.T, _ *model.Line, f *Fit) {
			t.Helper()
			assert.Len(t, f.Notes, 1)
		}},
		{"sizes that are not known", func(_ *model.Line, p *Product) {
			p.Inserts[1].Height, p.Inserts[1].Thickness = 0, 0
			p.Documents.Pages, _ = sim.NewGeometric(2)
		}, func(t *testing.T, l *model.Line, f *Fit) {
			t.Helper()
			assert.EqualValues(t, 4000, one[*model.Feeder](t, l, "2").Hopper.Capacity, "as it was")
			assert.Equal(t, []string{
				"the set is at least 0.8 mm thick: not of everything in it the thickness is known",
				"documents have no most pages: the set is counted with their mean",
				"the size of the insert leaflet is not known, nor whether the envelope takes it",
			}, f.Notes)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := fitLine(), fitProduct()
			c.from(l, p)
			got, fit := Fitted(l, p)
			require.True(t, fit.Runs, strings.Join(fit.Reasons, "\n"))
			c.check(t, got, fit)
		})
	}
}

func TestLoad(t *testing.T) {
	for _, c := range []struct {
		name             string
		stack, thickness float64
		was, want        model.Stock
	}{
		{"the number known alone", 0, 0.1, model.Stock{Capacity: 40, Warn: 10}, model.Stock{Capacity: 40, Warn: 10}},
		{"a piece not known", 300, 0, model.Stock{Capacity: 40, Warn: 10}, model.Stock{Capacity: 40, Warn: 10}},
		{"more than there were", 300, 0.25, model.Stock{Capacity: 400, Warn: 100}, model.Stock{Capacity: 1200, Warn: 300}},
		{"not a whole number", 300, 0.7, model.Stock{Capacity: 400, Warn: 100}, model.Stock{Capacity: 428, Warn: 107}},
		{"a whole number, but for rounding", 0.3, 0.1, model.Stock{Capacity: 3, Warn: 2}, model.Stock{Capacity: 3, Warn: 2}},
		{"a single piece", 300, 200, model.Stock{Capacity: 400, Warn: 399}, model.Stock{Capacity: 1, Warn: 0}},
		{"no number before", 300, 3, model.Stock{}, model.Stock{Capacity: 100}},
		{"thinner than anything", 300, 1e-300, model.Stock{}, model.Stock{Capacity: mostPieces}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := model.Feeder{Stack: c.stack, Hopper: c.was}
			(&Insert{Thickness: c.thickness}).load(&f)
			assert.Equal(t, c.want, f.Hopper)
		})
	}
}

func TestFittedSpeed(t *testing.T) {
	for _, c := range []struct {
		name  string
		set   func(l *model.Line, p *Product)
		speed float64
		by    []string
	}{
		{"the group", func(*model.Line, *Product) {}, 14_000, []string{"envelopes of the group large"}},
		{"stations", func(_ *model.Line, p *Product) { small(p) }, 18_000, []string{"envelopes of the group small", "1", "2", "inserter"}},
		{"a feeder in use", func(l *model.Line, _ *Product) { l.Stations[1].(*model.Feeder).Rated = 9000 }, 9000, []string{"1"}},
		{"a feeder not in use", func(l *model.Line, _ *Product) { l.Stations[3].(*model.Feeder).Rated = 9000 }, 14_000, []string{"envelopes of the group large"}},
		{"asked for by the product", func(_ *model.Line, p *Product) { p.Speed = 8000 }, 8000, []string{"the speed asked for"}},
		{"asked for of the line", func(l *model.Line, p *Product) { l.Speed, p.Speed = 7000, 8000 }, 7000, []string{"the speed asked for"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := fitLine(), fitProduct()
			c.set(l, p)
			got, fit := Fitted(l, p)
			require.True(t, fit.Runs, strings.Join(fit.Reasons, "\n"))
			assert.Equal(t, c.speed, fit.Speed)
			assert.Equal(t, c.speed, got.RunSpeed())
			assert.Equal(t, c.by, fit.LimitedBy)
		})
	}
}

// small puts the product into DL, with pieces that fit.
func small(p *Product) {
	p.Envelope = Envelope{Name: "DL", Height: 110, Length: 220}
	p.Documents.Height = 99
	p.Inserts[1].Height = 99
}

func TestFittedEnvelopes(t *testing.T) {
	t.Run("personalised", func(t *testing.T) {
		l, p := fitLine(), fitProduct()
		withEnvelopeFeeder(l)
		p.Envelope.Stream = "addresses"
		got, fit := Fitted(l, p)
		require.True(t, fit.Runs, strings.Join(fit.Reasons, "\n"))
		assert.Equal(t, []string{"letters", "cards", "addresses"}, got.Streams())
		assert.Equal(t, "addresses", one[*model.Reader](t, got, "second reader").Match)
	})
	// 2e-4 × 3 for the material × (8/16)² = 1.5e-4 of its sets have no envelope at 8000 an
	// hour. The inserter's own growth from 16 000 would quarter that again, so it gets four
	// times as much.
	t.Run("plain", func(t *testing.T) {
		l, p := fitLine(), fitProduct()
		withEnvelopeFeeder(l)
		n := modeltest.FirstOf[*model.Inserter](l)
		n.Rated, n.Growth, p.Speed = 16_000, 2, 8000
		got, fit := Fitted(l, p)
		require.True(t, fit.Runs, strings.Join(fit.Reasons, "\n"))
		assert.Equal(t, []string{"letters", "cards"}, got.Streams())
		n = modeltest.FirstOf[*model.Inserter](got)
		assert.EqualValues(t, 900, n.Hopper.Capacity)
		assert.InDelta(t, 6e-4, n.EnvelopeMisfeed, 1e-12)
		assert.InDelta(t, 1.5e-4, n.EnvelopeMisfeed*math.Pow(got.RunSpeed()/n.Rated, n.Growth), 1e-12)
		assert.Contains(t, strings.Join(fit.Notes, "\n"), "envelopes feeds plain envelopes: its misfeeds are counted as the inserter's")
		assert.Contains(t, fit.Notes, "second reader has no pieces of addresses to match")
	})
	t.Run("plain and slow", func(t *testing.T) {
		l, p := fitLine(), fitProduct()
		withEnvelopeFeeder(l)
		small(p)
		got, fit := Fitted(l, p)
		require.True(t, fit.Runs, strings.Join(fit.Reasons, "\n"))
		assert.Equal(t, 16_000., got.RunSpeed(), "no faster than the feeder of envelopes")
		assert.Equal(t, []string{"envelopes"}, fit.LimitedBy)
	})
}

// The clearance decides, and everything that is wrong is said at once.
func TestFittedClearance(t *testing.T) {
	l, p := fitLine(), fitProduct()
	_, fit := Fitted(l, p, formats.Clearance{Length: 30, Height: 5})
	assert.False(t, fit.Runs)
	assert.Len(t, fit.Reasons, 2, "documents and leaflet are 210 mm long")

	l, p = fitLine(), fitProduct()
	p.Envelope.Name, p.Envelope.Height = "tall", 300
	p.Inserts[1].Feeder = "9"
	p.Speed = -1
	got, fit := Fitted(l, p)
	assert.Nil(t, got)
	assert.False(t, fit.Runs)
	assert.Zero(t, fit.Speed)
	assert.Len(t, fit.Reasons, 4, "feeder, height of the envelope, group, speed: %q", fit.Reasons)
}

// What is uncertain of a feeder that the product leaves empty is not uncertain of the line that
// is set up, and a product brings its own materials.
func TestFittedForgetsUncertainty(t *testing.T) {
	l, counted := fitLine(), output.Counted{Seen: 4, Of: 10_000}
	l.UncertainInputs = []model.UncertainInput{
		{Line: "", Station: "2", Name: "misfeed", Part: model.NoPart, Of: counted},
		{Line: "", Station: "2", Name: "material", Part: model.NoPart, Of: output.About{Mean: 1, Error: 0.1}},
		{Line: "", Station: "3", Name: "misfeed", Part: model.NoPart, Of: counted},
		{Line: "", Station: "inserter", Name: "flap", Part: model.NoPart, Of: counted},
	}
	p := fitProduct()
	p.Inserts = p.Inserts[:2] // a card and a leaflet: one of the plain feeders has nothing
	set, fit := Fitted(l, p)
	require.True(t, fit.Runs, "%v", fit.Reasons)
	require.Len(t, l.UncertainInputs, 4)
	var left []string
	for _, d := range set.UncertainInputs {
		left = append(left, d.Path())
	}
	assert.Len(t, left, 2)
	assert.Contains(t, left, "stations.inserter.flap")
	assert.NotContains(t, left, "stations.2.material")
}
