package setup

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// Each reason why a line cannot run a product, alone. Sentences of the package formats are
// given by their beginning.
func TestFittedReasons(t *testing.T) {
	feeder := func(l *model.Line, name string) *model.Feeder {
		for _, s := range l.Stations {
			if f, ok := s.(*model.Feeder); ok && f.Name == name {
				return f
			}
		}
		return nil
	}
	leaflet := func(p *Product) *Insert { return &p.Inserts[1] }
	without := func(l *model.Line, kind func(model.Station) bool) {
		for i, s := range l.Stations {
			if kind(s) {
				l.Stations = append(l.Stations[:i:i], l.Stations[i+1:]...)
				return
			}
		}
	}
	for _, c := range []struct {
		name  string
		spoil func(l *model.Line, p *Product)
		want  string
	}{
		{"documents and no channel", func(l *model.Line, _ *Product) { without(l, modeltest.Is[*model.Channel]) }, "the product has documents, and the line has no document channel"},
		{"documents of another stream", func(_ *model.Line, p *Product) { p.Documents.Stream = "bills" }, "the documents are the stream bills, and documents carries the stream letters"},
		{"further documents of a stream that nobody carries", func(_ *model.Line, p *Product) {
			p.Further = []Documents{{Stream: "bills", Pages: sim.Always(1)}}
		}, "no document channel of the line, of 1, carries the stream \"bills\" of the documents"},
		{"two documents of one stream", func(_ *model.Line, p *Product) {
			p.Further = []Documents{*p.Documents}
		}, "two documents of the product are the stream letters"},
		{"pages not given", func(_ *model.Line, p *Product) { p.Documents.Pages = nil }, "documents: the channel does not know how many sheets make a document"},

		{"a feeder that is not there", func(_ *model.Line, p *Product) { leaflet(p).Feeder = "9" }, "the insert leaflet, 105 × 210 mm, 0.1 mm thick, is to go into the feeder 9, and the line has none of that name"},
		{"too thick for the feeder asked for", func(_ *model.Line, p *Product) { leaflet(p).Feeder, leaflet(p).Thickness = "3", 0.6 }, "the insert leaflet, 105 × 210 mm, 0.6 mm thick, does not go into the feeder asked for: 3, taking 0.1 to 0.5 mm in thickness"},
		{"too thick for any", func(_ *model.Line, p *Product) { leaflet(p).Thickness = 4 }, "the insert leaflet, 105 × 210 mm, 4 mm thick, goes into no feeder: 1 and 2, taking 0.1 to 3 mm in thickness; 3, taking 0.1 to 0.5 mm in thickness"},
		{"too high either way", func(_ *model.Line, p *Product) { leaflet(p).Height, leaflet(p).Length = 70, 105 }, "the insert leaflet, 70 × 105 mm, 0.1 mm thick, goes into no feeder: 1, 2 and 3, taking 80 to 162 mm in height and 110 to 229 mm in length"},
		{"a stream that nobody carries", func(l *model.Line, _ *Product) { feeder(l, "1").Stream.Name = "vouchers" }, "the insert card, 90 × 150 mm, 0.4 mm thick, goes into no feeder: 1, carrying the stream vouchers, want cards; 2 and 3, carrying no stream, want cards"},
		{"no feeder at all", func(l *model.Line, p *Product) {
			for range 3 {
				without(l, func(s model.Station) bool { _, ok := s.(*model.Feeder); return ok })
			}
			p.Inserts = p.Inserts[1:]
		}, "the insert leaflet, 105 × 210 mm, 0.1 mm thick, goes into no feeder: the line has none"},
		{"two for one feeder", func(_ *model.Line, p *Product) { leaflet(p).Feeder = "1" }, "no free feeder: the 2 inserts card and leaflet can go only into 1, 1"},

		{"no envelope", func(_ *model.Line, p *Product) { p.Envelope = Envelope{Name: "any"} }, "the envelope any is 0 × 0 mm, want its height and length"},
		{"an envelope of NaN", func(_ *model.Line, p *Product) { p.Envelope.Height = math.NaN() }, "the envelope C5 is NaN × 229 mm, want its height and length"},
		{"an envelope too high", func(l *model.Line, _ *Product) { modeltest.FirstOf[*model.Inserter](l).Takes.Height.Most = 125 }, "inserter takes envelopes of 90 to 125 mm in height, and C5 is 162 mm high"},
		{"an envelope too short", func(l *model.Line, _ *Product) { modeltest.FirstOf[*model.Inserter](l).Takes.Length.Least = 235 }, "inserter takes envelopes of 235 to 250 mm in length, and C5 is 229 mm long"},
		{"no size group", func(l *model.Line, _ *Product) { n := modeltest.FirstOf[*model.Inserter](l); n.Groups = n.Groups[:1] }, "inserter has no size group for the envelope C5, 162 × 229 mm"},
		{"a group without a speed", func(l *model.Line, _ *Product) { modeltest.FirstOf[*model.Inserter](l).Groups[1].Speed = 0 }, "envelopes of the group large: the speed is 0 cycles an hour, want more than 0"},
		{"personalised and no feeder of envelopes", func(_ *model.Line, p *Product) { p.Envelope.Stream = "addresses" }, "the envelopes are the stream addresses, and the line has no feeder of personalised envelopes"},
		{"personalised with another stream", func(l *model.Line, p *Product) { withEnvelopeFeeder(l); p.Envelope.Stream = "names" }, "the envelopes are the stream names, and envelopes carries the stream addresses"},
		{"personalised and no track gate", func(l *model.Line, p *Product) {
			withEnvelopeFeeder(l)
			without(l, modeltest.Is[*model.TrackGate])
			p.Envelope.Stream = "addresses"
		}, "the envelopes are personalised, and no track gate stands before the inserter: a set that is wrong must not go out in one"},
		{"too large for the feeder of envelopes", func(l *model.Line, _ *Product) {
			withEnvelopeFeeder(l)
			feeder(l, "envelopes").Takes.Length.Most = 150
		}, "envelopes takes anything in height and up to 150 mm in length, and the envelope C5 is 162 × 229 mm"},

		{"a stream that nobody reads", func(l *model.Line, _ *Product) {
			r := modeltest.FirstOf[*model.Reader](l)
			r.Reads, r.Match = "letters", ""
		}, "the stream cards has no reader: nobody would see that it is out of step"},
		{"a set too thick", func(_ *model.Line, p *Product) { p.Documents.Pages, _ = sim.NewTable([]int64{1, 40}, []float64{9, 1}) }, "inserter takes sets of 0.2 to 6 mm in thickness, and this is 8.5 mm thick"},
		{"a set too thin", func(l *model.Line, _ *Product) { modeltest.FirstOf[*model.Inserter](l).Takes.Thickness.Least = 1 }, "inserter takes sets of 1 to 6 mm in thickness, and this is 0.9 mm thick"},
		{"sheets of NaN", func(_ *model.Line, p *Product) { p.Documents.Sheet = math.NaN() }, "the set is NaN mm thick, want 0 or more"},
		{"documents too long", func(_ *model.Line, p *Product) { p.Documents.Length = 225 }, "the envelope C5, 162 × 229 mm, does not take the documents: "},
		{"an insert too long", func(_ *model.Line, p *Product) { leaflet(p).Length = 222 }, "the envelope C5, 162 × 229 mm, does not take the insert leaflet: "},
		{"a speed below 0", func(_ *model.Line, p *Product) { p.Speed = -1 }, "the speed asked for: the speed is -1 cycles an hour, want more than 0"},
		{"a speed of NaN", func(_ *model.Line, p *Product) { p.Speed = math.NaN() }, "the speed asked for: the speed is NaN cycles an hour, want more than 0"},

		{"a stack lower than a piece", func(l *model.Line, _ *Product) { feeder(l, "2").Stack = 0.05 }, "2: the hopper holds 0, want at least 1"},
		{"no material", func(_ *model.Line, p *Product) { leaflet(p).Material = 0 }, "2: material is 0, want a factor above 0, at most 1000"},
		{"no share", func(_ *model.Line, p *Product) { leaflet(p).Share = 0 }, "2: share is 0, want a share above 0, at most 1"},
		{"a card for some", func(_ *model.Line, p *Product) { p.Inserts[0].Share = 0.5 }, "1 carries a stream and feeds a share of the sets: say by only which sets have a piece of it, with an attribute of the line"},
		{"too many faults in the material", func(l *model.Line, p *Product) { feeder(l, "2").Misfeed, leaflet(p).Material = 0.002, 1000 }, "2: misfeed, double and jam come to 2.11 at the speed the line runs at, want at most 1"},
		{"a line that cannot run", func(l *model.Line, _ *Product) { l.Crew.Operators = 0 }, "the crew has 0 operators, want at least 1"},
		{"outsorted into a personalised envelope", func(l *model.Line, p *Product) {
			withEnvelopeFeeder(l)
			p.Envelope.Stream = "addresses"
			feeder(l, "2").OnMisfeed = model.Outsort
			last := len(l.Stations) - 1
			l.Stations = append(l.Stations[:last:last], &model.ExitGate{Place: model.Place{Name: "exit gate", At: 12}}, l.Stations[last])
		}, "2 cannot answer a misfeed with outsort: the envelopes are personalised: a set that is wrong must not go out in one, it needs a track gate"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := fitLine(), fitProduct()
			c.spoil(l, p)
			got, fit := Fitted(l, p)
			assert.False(t, fit.Runs)
			assert.Nil(t, got)
			require.Len(t, fit.Reasons, 1, "%q", fit.Reasons)
			assert.True(t, strings.HasPrefix(fit.Reasons[0], c.want), "got  %s\nwant %s", fit.Reasons[0], c.want)
		})
	}
}
