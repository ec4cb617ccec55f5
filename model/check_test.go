package model

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

func TestCheck(t *testing.T) {
	feeder := func(l *Line) *Feeder { return firstOf[*Feeder](l) }
	for _, c := range []struct {
		name    string
		spoil   func(l *Line)
		station int
		field   string
		text    string
	}{
		{"a wrong repair of 2", func(l *Line) { l.Crew.WrongRepair = 2 }, -1, "crew.wrong_repair", "crew.wrong_repair is 2, want a probability in [0, 1]"},
		{"a wrong realigning of NaN", func(l *Line) { l.Crew.WrongRealign = math.NaN() }, -1, "crew.wrong_realign", "crew.wrong_realign is NaN, want a probability in [0, 1]"},
		{"a wrong stock of -1", func(l *Line) { feeder(l).WrongStock.Chance = -1 }, 0, "wrong_stock.per_refill", "wrong_stock.per_refill is -1, want a probability in [0, 1]"},
		{"wrong envelopes of a feeder of envelopes", func(l *Line) {
			l.Stations[0].(*Feeder).Envelopes, l.Stations[0].(*Feeder).Stream = true, Stream{Name: "letters", Tries: 1}
			firstOf[*Inserter](l).WrongStock.Chance = 0.1
		}, 7, "wrong_stock", "the envelopes come from 1, each for its set: nobody loads the inserter"},
		{"a wrong stock found by nobody", func(l *Line) { feeder(l).WrongStock = Mixup{0.1, "eye", nil} }, 0, "wrong_stock.found_by", `no reader is called "eye"`},
		{"a wrong stock seen before", func(l *Line) {
			stationsOf[*Feeder](l)[1].WrongStock = Mixup{0.1, "eye", nil}
			addReader(l, &Reader{Place: Place{Name: "eye", At: 1}})
		}, 2, "wrong_stock.found_by", "eye stands before 2 feeds what it is to see"},
		{"a wrong stock in a stream", func(l *Line) {
			feeder(l).Stream, feeder(l).WrongStock.Chance = Stream{Name: "letters", Tries: 1}, 0.1
		}, 0, "wrong_stock", "1 carries a stream: each piece is for one set, so that a wrong tray is wrong from the first set on, as a reader that matches sees at once"},
		{"a reader of nothing", func(l *Line) { addReader(l, &Reader{Place: Place{Name: "eye", At: 1}}) }, 1, "reads", "eye reads no stream: want one, or a feeder whose wrong stock it sees"},
		{"a misread of 3", func(l *Line) {
			feeder(l).WrongStock = Mixup{0.1, "eye", nil}
			addReader(l, &Reader{Place: Place{Name: "eye", At: 1}, Misread: 3})
		}, 1, "misread", "misread is 3, want a probability in [0, 1]"},
		{"no shift", func(l *Line) { l.Shift = 0 }, -1, "work.shift", "the shift is 0 s long, want more than 0"},
		{"a shift of NaN", func(l *Line) { l.Shift = sim.Seconds(math.NaN()) }, -1, "work.shift", "the shift is NaN s long, want more than 0"},
		{"nobody there", func(l *Line) { l.Crew.Operators = 0 }, -1, "crew.operators", "the crew has 0 operators, want at least 1"},
		{"a misfeed of 7", func(l *Line) { feeder(l).Misfeed = 7 }, 0, "misfeed", "misfeed is 7, want a probability in [0, 1]"},
		{"a jam of NaN", func(l *Line) { feeder(l).Jam = math.NaN() }, 0, "jam", "jam is NaN, want a probability in [0, 1]"},
		{"too many faults", func(l *Line) { feeder(l).Misfeed, feeder(l).Double = 0.7, 0.7 }, 0, "misfeed", "misfeed, double and jam come to 1.4, want at most 1"},
		{"too many at this speed", func(l *Line) {
			feeder(l).Misfeed, feeder(l).Growth, feeder(l).Rated = 0.3, 2, 9000
			l.Stations[1].(*Feeder).Rated, l.Speed = 0, 9000
			feeder(l).Material = 4
		}, 0, "misfeed", "misfeed, double and jam come to 1.201 at the speed the line runs at, want at most 1"},
		{"a share of 0", func(l *Line) { feeder(l).Share = 0 }, 0, "share", "share is 0, want a share above 0, at most 1"},
		{"a warning above the capacity", func(l *Line) { feeder(l).Hopper.Warn = 4000 }, 0, "hopper.warn", "the warning comes at 4000 left, want from 0 to 3999, one less than the capacity"},
		{"no hopper", func(l *Line) { feeder(l).Hopper = Stock{} }, 0, "hopper", "the hopper holds 0, want at least 1"},
		{"two of a name", func(l *Line) { stationsOf[*Feeder](l)[1].Name = "1" }, 1, "name", `two stations are named "1"`},
		{"out of order", func(l *Line) { stationsOf[*Feeder](l)[1].At = 0 }, 1, "at", "2 stands at pitch 0, want more than 0, where 1 stands before it"},
		{"a feeder after the inserter", func(l *Line) { l.Stations[7], l.Stations[6] = l.Stations[6], l.Stations[7] }, 7, "kind", "track gate stands after the inserter: feeders and track gates come before it"},
		{"no delivery", func(l *Line) { l.Stations = l.Stations[:9] }, 8, "kind", "exit gate is the last station and no delivery: a delivery comes last"},
		{"nothing at all", func(l *Line) { l.Stations = nil }, -1, "line.stations", "the line has no inserter"},
		{"no track gate", func(l *Line) { l.Stations = append(l.Stations[:6:6], l.Stations[7:]...) }, 0, "policy.misfeed", "1 cannot answer a misfeed with divert: no track gate stands between this station and the inserter"},
		{"a flap diverted", func(l *Line) { firstOf[*Inserter](l).OnFlap = Divert }, 7, "policy.flap", "inserter cannot answer a flap with divert: the set is past the track gate when its envelope turns out to be shut"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := referenceLine()
			c.spoil(l)
			problems := l.Check()
			require.NotEmpty(t, problems)
			want := &Problem{Station: c.station, Field: c.field, Text: c.text}
			if c.station >= 0 {
				at := l.Stations[c.station]
				want.kind, want.name = at.Kind().Name, at.Where().Name
			}
			assert.Contains(t, problems, error(want))
			_, err := New(l)
			assert.ErrorContains(t, err, c.text)
		})
	}
	assert.Empty(t, referenceLine().Check())
}

// A line built by hand says what was forgotten: with these at 0 nobody would notice a fault,
// and nobody would say so.
// A pointer to nothing is no duration: it is an error like any other, not a panic.
func TestTimesThatAreNotThere(t *testing.T) {
	var nothing *sim.Constant
	for field, spoil := range map[string]func(l *Line){
		"clear":         func(l *Line) { firstOf[*Feeder](l).Clear = nothing },
		"clear.jam":     func(l *Line) { firstOf[*Feeder](l).Clearings[Jam] = nothing },
		"hopper.refill": func(l *Line) { firstOf[*Feeder](l).Hopper.Work = nothing },
		"line.restart":  func(l *Line) { l.Restart = nothing },
		"crew.walk":     func(l *Line) { l.Crew.Walk = nothing },
	} {
		l := referenceLine()
		spoil(l)
		_, err := New(l)
		assert.ErrorContains(t, err, field+" is a pointer to nothing: want a time", field)
	}
}

// A fault that never stops the line takes no time to clear, and none is asked for; but then no
// strategy may answer it with a stop.
func TestNoTimeForWhatNeverStops(t *testing.T) {
	never := func() (*Line, *Feeder) {
		l := referenceLine()
		f := firstOf[*Feeder](l)
		f.Misfeed, f.Double, f.FalseCalls, f.Jam, f.Streak = 0.001, 0, 0, 0, Streak{}
		f.OnMisfeed, f.Clear, f.Clearings = Divert, nil, Clearings{}
		return l, f
	}
	l, _ := never()
	require.Empty(t, l.Check())
	for _, d := range l.Decisions() {
		assert.False(t, d.Station == 0 && slices.Contains(d.Responses, Stop), "a stop of no time is no answer")
	}
	s, err := New(l)
	require.NoError(t, err)
	var o Outcome
	require.NoError(t, s.Run(1, 0, &o))
	assert.Positive(t, o.Stations[0].Faults[Misfeed])
	assert.Zero(t, o.Stations[0].Stops[CauseMisfeed].Count)
	for name, stops := range map[string]func(f *Feeder){
		"a jam":                     func(f *Feeder) { f.Jam = 1e-5 },
		"a double that stops":       func(f *Feeder) { f.Double, f.OnDouble = 1e-5, Stop },
		"a false call":              func(f *Feeder) { f.FalseCalls, f.OnDouble = 1e-5, Stop },
		"a misfeed that stops":      func(f *Feeder) { f.OnMisfeed = Stop },
		"too many misfeeds in line": func(f *Feeder) { f.Streak.StopAfter = 3 },
	} {
		l, f := never()
		stops(f)
		_, err := New(l)
		assert.ErrorContains(t, err, "there is no time for clearing a fault", name)
	}
}

func TestForgottenIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		forget func(f *Feeder)
		want   string
	}{
		"nothing":                 {func(*Feeder) {}, ""},
		"noticed":                 {func(f *Feeder) { f.Noticed = 0 }, "noticed is 0, so that nobody would notice a misfeed: give the share that is noticed, 1 as a rule, or say Unwatched"},
		"caught":                  {func(f *Feeder) { f.Caught = 0 }, "caught is 0, so that nobody would notice a double: give the share that is noticed, 1 as a rule, or say Unwatched"},
		"meant":                   {func(f *Feeder) { f.Noticed, f.Caught, f.Unwatched = 0, 0, true }, ""},
		"there is nothing to see": {func(f *Feeder) { f.Noticed, f.Misfeed = 0, 0 }, ""},
		"material":                {func(f *Feeder) { f.Material = 0 }, "material is 0, want a factor above 0, at most 1000"},
		"share":                   {func(f *Feeder) { f.Share = 0 }, "share is 0, want a share above 0, at most 1"},
	} {
		t.Run(name, func(t *testing.T) {
			l := handLine(60, func(_ *Line, a, _ *Feeder) { a.Misfeed, a.Double, a.Caught, a.Unwatched = 0.01, 0.01, 1, false })
			c.forget(l.Stations[handA].(*Feeder))
			var said []string
			for _, err := range l.Check() {
				said = append(said, err.Error())
			}
			want := c.want
			if want != "" {
				want = "feeder " + firstOf[*Feeder](l).Name + ": " + want
			}
			assert.Equal(t, want, strings.Join(said, "\n"))
		})
	}
}
