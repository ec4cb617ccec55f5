package setup

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/formats"
	"netrate/model/modeltest"
	"netrate/sim"
)

// Facts of the trade: each is common practice, no source. They hold the model to what people who
// run such lines take for granted.

const inch = 25.4 // mm

// inEnvelope returns a product in an envelope of a known name, and nothing else of note.
func inEnvelope(t *testing.T, name string) *Product {
	t.Helper()
	e, known := formats.Named(name)
	require.True(t, known, name)
	p := fitProduct()
	p.Name, p.Documents, p.Inserts = name, nil, []Insert{{Name: "letter", Height: 90, Length: 200, Thickness: 0.3, Material: 1, Share: 1}}
	p.Envelope = Envelope{Name: name, Height: e.Height, Length: e.Length}
	return p
}

// plainLine returns a line without streams that takes envelopes from a No. 10 to a No. 12.
func plainLine() *model.Line {
	l := modeltest.ReferenceLine()
	for i, s := range modeltest.StationsOf[*model.Feeder](l) {
		s.Takes.Thickness = model.Bounds{Most: []float64{3.2, 6}[i%2]}
	}
	return l
}

// Common practice, no source: the slowest station sets the pace for all.
func TestOneFeederSetsThePace(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Speed = 0
	for _, f := range modeltest.StationsOf[*model.Feeder](l) {
		f.Rated = 20_000
	}
	for _, s := range []*float64{
		&modeltest.FirstOf[*model.TrackGate](l).Rated, &modeltest.FirstOf[*model.Inserter](l).Rated,
		&modeltest.FirstOf[*model.ExitGate](l).Rated, &modeltest.FirstOf[*model.Delivery](l).Rated,
	} {
		*s = 20_000
	}
	assert.Equal(t, 20_000.0, l.RunSpeed())
	modeltest.StationsOf[*model.Feeder](l)[3].Rated = 16_000
	assert.Equal(t, 16_000.0, l.RunSpeed())
}

// Common practice, no source: where only the height differs, from a No. 10 to an envelope 6 in high
// and as long, nobody moves the rails; to a No. 12, which is 11 in long, somebody does. Another
// throat may want the openers set by hand: that of a thicker set, or an envelope that is cut deeper.
func TestWhenRailsAreMoved(t *testing.T) {
	c := &Changeover{
		Height: Change{Time: sim.Constant(20), Automatic: true}, Length: Change{Time: sim.Constant(300)}, Thickness: Change{Time: sim.Constant(120)},
		Throat: Change{Time: sim.Constant(90)},
	}
	ten, twelve := inEnvelope(t, "#10"), inEnvelope(t, "#12")
	high := inEnvelope(t, "#10")
	high.Envelope.Height = 6 * inch
	thick := inEnvelope(t, "#10")
	thick.Inserts[0].Thickness = 2
	by := func(p *Product) (manual, automatic []string) {
		for _, x := range c.Items(setUp(t, plainLine(), ten), setUp(t, plainLine(), p)) {
			if x.Automatic {
				automatic = append(automatic, x.Name)
			} else {
				manual = append(manual, x.Name)
			}
		}
		return manual, automatic
	}
	manual, automatic := by(high)
	assert.Empty(t, manual)
	assert.Equal(t, []string{"height of the envelope"}, automatic)
	assert.InDelta(t, 11*inch, twelve.Envelope.Length, 1e-9)
	manual, automatic = by(twelve)
	assert.Equal(t, []string{"length of the envelope"}, manual)
	assert.Equal(t, []string{"height of the envelope"}, automatic)
	manual, _ = by(thick)
	assert.Equal(t, []string{"throat"}, manual)
	cut := inEnvelope(t, "#10")
	cut.Envelope.Name, cut.Envelope.Throat = "No. 10, a deeper throat", 32
	manual, automatic = by(cut)
	assert.Empty(t, append(manual, automatic...), "of the other it is not known")
	ten.Envelope.Throat = 25
	manual, automatic = by(cut)
	assert.Equal(t, []string{"openers"}, manual)
	assert.Empty(t, automatic)
}

// Common practice, no source: a stitched booklet of 3 mm (1/8 in) can be fed; a thicker one is
// refused by a feeder that takes no more, and goes into one that does.
func TestThickBooklets(t *testing.T) {
	booklet := func(thickness float64, feeder string) (*model.Line, *Fit) {
		p := inEnvelope(t, "9 × 12")
		p.Inserts[0].Thickness, p.Inserts[0].Feeder = thickness, feeder
		return Fitted(plainLine(), p)
	}
	_, fit := booklet(inch/8, "1")
	assert.True(t, fit.Runs, fit.Reasons)
	_, fit = booklet(4, "1")
	require.False(t, fit.Runs)
	assert.Contains(t, fit.Reasons[0], "mm")
	_, fit = booklet(4, "2")
	assert.True(t, fit.Runs, fit.Reasons)
}

// Common practice, no source: flats are C4 or 9 × 12 in, B4 or 10 × 13 in; small envelopes begin at a
// height of 3¾ in, the No. 7, and the No. 9 has 3⅞ in.
func TestWhatIsAFlat(t *testing.T) {
	for _, name := range []string{"C4", "9 × 12", "B4", "10 × 13"} {
		e, known := formats.Named(name)
		require.True(t, known, name)
		assert.NotEqual(t, formats.Letter, formats.USPostal(e.Height, e.Length, 3, 3).Name, name)
	}
	for name, height := range map[string]float64{"#7": 3.75, "#9": 3.875, "#10": 4.125} {
		e, known := formats.Named(name)
		require.True(t, known, name)
		assert.InDelta(t, height*inch, e.Height, 1e-9, name)
		assert.Equal(t, formats.Letter, formats.USPostal(e.Height, e.Length, 0.5, 0.5).Name, name)
	}
}

// Common practice, no source: with plain envelopes the gate on the track is a convenience, as a wrong
// set may leave in its envelope at the exit; with personalised ones it is a must.
func TestWhenATrackGateIsAMust(t *testing.T) {
	gateless := func(personalised bool) *model.Line {
		l := fitLine()
		if personalised {
			withEnvelopeFeeder(l)
		}
		var kept []model.Station
		for _, s := range l.Stations {
			switch s.(type) {
			case *model.TrackGate:
			case *model.Delivery:
				kept = append(kept, &model.ExitGate{Place: model.Place{Name: "exit", At: 12}}, s)
			default:
				kept = append(kept, s)
			}
		}
		l.Stations = kept
		return l
	}
	const feeder = 2
	assert.Empty(t, gateless(false).Refusal(feeder, model.Misfeed, model.Outsort))
	assert.Contains(t, gateless(true).Refusal(feeder, model.Misfeed, model.Outsort), "it needs a track gate")
	assert.NotEmpty(t, gateless(true).Refusal(feeder, model.Misfeed, model.Divert))
	assert.Empty(t, fitLine().Refusal(feeder, model.Misfeed, model.Divert))
}

// Common practice, no source: recovery in line loses the faulty set and the next, and stops nothing.
// Faults are so rare here that no two fall into one recovery.
func TestRecoveryInLineLosesTwo(t *testing.T) {
	l := modeltest.LettersLine(2)
	f := modeltest.FirstOf[*model.Feeder](l)
	f.Misfeed = 1.0 / 4000
	o := run(t, l)
	faults := o.Stations[0].Faults[model.Misfeed]
	require.Positive(t, faults)
	assert.Equal(t, 2*faults, o.Sets.Diverted)
	assert.Zero(t, o.Stopped().Total()-stockStops(o))
}

// Common practice, no source: a flap that sticks is sent out without a stop.
func TestStickingFlapsStopNothing(t *testing.T) {
	l := modeltest.CalmLine()
	in := modeltest.FirstOf[*model.Inserter](l)
	in.Flap, in.OnFlap = 1.0/200, model.Outsort
	last := len(l.Stations) - 1
	l.Stations = append(l.Stations[:last:last], &model.ExitGate{Place: model.Place{Name: "exit", At: 5}}, l.Stations[last])
	modeltest.FirstOf[*model.Delivery](l).At = 6
	o := run(t, l)
	require.Positive(t, o.Sets.Outsorted)
	assert.InDelta(t, float64(o.Stations[2].Faults[model.Flap]), float64(o.Sets.Outsorted), 1, "one may be on its way to the gate")
	assert.Zero(t, o.Stopped().Total())
}

// run returns what one shift of a line came to.
func run(t *testing.T, l *model.Line) *model.Outcome {
	t.Helper()
	s, err := model.New(l)
	require.NoError(t, err)
	var o model.Outcome
	require.NoError(t, s.Run(2, 0, &o))
	return &o
}

// stockStops returns how long the line stood for hoppers.
func stockStops(o *model.Outcome) (all sim.Seconds) {
	for i := range o.Stations {
		all += o.Stations[i].Stops[model.CauseStock].Total()
	}
	return all
}
