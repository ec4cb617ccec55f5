package scenarios

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// personal is a file with every key of the format that speaks of personalised work.
const personal = `name: Personal
line:
  restart: 4 s
  stations:
    - kind: document channel
      name: channel
      at: 0
      sheets: 10/s
      pages: {table: {1: 60%, 2: 3/10, 4: 0.1}}
      buffer: 6
      hopper: {documents: 500, warn: 20%, refill: 30 s}
      misfeed: 1/4000
      double: 1/15000
      jam: 1/20000
      noticed: 0.999
      caught: 99.5%
      false_calls: 1/50000
      stream: {name: documents, tries: 2, realign: {lognormal: {mean: 90 s, cv: 0.6}}}
      clear: 60 s
      policy: {misfeed: stop, jam: stop}
    - {kind: reader, name: camera, at: 0, reads: documents, verifies: [presence, sequence], no_read: 1/3000, clear: 20 s, policy: {no_read: ship}}
    - kind: feeder
      name: left
      at: 2
      preset: rotary
      hopper: {pieces: 3000, warn: 20%, refill: 25 s}
      noticed: 98%
      stream: {name: letters, half: true}
      clear: 45 s
    - {kind: feeder, name: right, at: 4, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, stream: {name: letters, half: true}, clear: 45 s, policy: {double: stop}}
    - {kind: reader, name: letter reader, at: 5, reads: letters, match: documents, no_read: 0, false_alarm: 1/50000, misread: 1/8000, clear: 20 s, policy: {mismatch: stop}}
    - {kind: feeder, name: plain, at: 6, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, clear: 45 s, wrong_stock: {per_refill: 1/2000, found_by: envelope reader, found_after: 20 min, change: 2 min}}
    - {kind: envelope feeder, name: envelopes, at: 8, preset: rotary, hopper: {pieces: 900, warn: 20%, refill: 25 s}, stream: envelopes, clear: 45 s}
    - {kind: reader, name: envelope reader, at: 8, reads: envelopes, verifies: presence, match: letters, no_read: 1/4000, clear: 20 s}
    - {kind: track gate, name: track gate, at: 10}
    - {kind: inserter, name: inserter, at: 12, rated: 16000/h, flap: 1/1500, jam: 1/5000, clear: 90 s}
    - {kind: exit gate, name: exit gate, at: 15}
    - {kind: delivery, name: delivery, at: 16}
policy: {match: in line, no_read: divert, mismatch: outsort, double: ship}
crew: {operators: 2, walk: 10 s, wrong_repair: 1/900, wrong_realign: 0.5%}
work: {sets: 20000, remakes: {second_pass: {setup: 10 min}}}
`

// The lines of the file as the model has them, written out by hand.
func TestLoadPersonal(t *testing.T) {
	s, err := Load("personal.yaml", []byte(personal))
	require.NoError(t, err)
	table, err := sim.NewTable([]int64{1, 2, 4}, []float64{0.6, 0.3, 0.1})
	require.NoError(t, err)
	realign, err := sim.NewLognormal(90, 0.6)
	require.NoError(t, err)
	rates := presetRates(t, "rotary")
	feeds := func(name string, at int, stream model.Stream, onMisfeed, onDouble model.Response) *model.Feeder {
		return &model.Feeder{
			Place:   model.Place{Name: name, At: at, Rated: float64(*rates.Rated)},
			Hopper:  model.Stock{Capacity: 3000, Warn: 600, Work: sim.Constant(25)},
			Misfeed: float64(*rates.Misfeed), Double: float64(*rates.Double), Jam: float64(*rates.Jam), Growth: float64(*rates.Growth),
			Material: 1, Noticed: 1, Caught: 1, Share: 1, Stream: stream, OnMisfeed: onMisfeed, OnDouble: onDouble, Clear: sim.Constant(45),
		}
	}
	left := feeds("left", 2, model.Stream{Name: "letters", Half: true, Tries: 1}, model.Divert, model.Divert)
	left.Noticed = 0.98
	envelopes := feeds("envelopes", 8, model.Stream{Name: "envelopes", Tries: 1}, model.Divert, model.Divert)
	envelopes.Envelopes, envelopes.Hopper = true, model.Stock{Capacity: 900, Warn: 180, Work: sim.Constant(25)}
	plain := feeds("plain", 6, model.Stream{}, model.Stop, model.Ship)
	plain.WrongStock = model.Mixup{Chance: 1.0 / 2000, FoundBy: "envelope reader", FoundAfter: sim.Constant(1200)}
	plain.Clearings[model.WrongStock] = sim.Constant(120)
	assert.Equal(t, []model.Station{
		&model.Channel{
			Place: model.Place{Name: "channel"}, Sheets: 36_000, Pages: table, Buffer: 6,
			Hopper:  model.Stock{Capacity: 500, Warn: 100, Work: sim.Constant(30)},
			Misfeed: 1.0 / 4000, Double: 1.0 / 15000, Jam: 1.0 / 20000, Noticed: 0.999, Caught: 0.995, FalseCalls: 1.0 / 50000,
			Stream:    model.Stream{Name: "documents", Tries: 2, Realign: realign},
			OnMisfeed: model.Stop, OnDouble: model.Divert, Clear: sim.Constant(60),
		},
		&model.Reader{
			Place: model.Place{Name: "camera"}, Reads: "documents", Presence: true, Sequence: true,
			NoRead: 1.0 / 3000, OnNoRead: model.Ship, OnMismatch: model.Divert, Clear: sim.Constant(20),
		},
		left,
		feeds("right", 4, model.Stream{Name: "letters", Half: true, Tries: 1}, model.Divert, model.Stop),
		&model.Reader{
			Place: model.Place{Name: "letter reader", At: 5}, Reads: "letters", Match: "documents",
			FalseAlarm: 1.0 / 50000, Misread: 1.0 / 8000, OnNoRead: model.Divert, OnMismatch: model.Stop, Clear: sim.Constant(20),
		},
		plain,
		envelopes,
		&model.Reader{
			Place: model.Place{Name: "envelope reader", At: 8}, Reads: "envelopes", Presence: true, Match: "letters",
			NoRead: 1.0 / 4000, OnNoRead: model.Divert, OnMismatch: model.Divert, Clear: sim.Constant(20),
		},
		&model.TrackGate{Place: model.Place{Name: "track gate", At: 10}},
		&model.Inserter{Place: model.Place{Name: "inserter", At: 12, Rated: 16_000}, Flap: 1.0 / 1500, Jam: 1.0 / 5000, Clear: sim.Constant(90)},
		&model.ExitGate{Place: model.Place{Name: "exit gate", At: 15}},
		&model.Delivery{Place: model.Place{Name: "delivery", At: 16}},
	}, s.Line.Stations)
	assert.Equal(t, model.Job{Sets: 20_000, Closing: model.SecondPass, Setup: sim.Constant(600)}, s.Line.Job)
	assert.Zero(t, s.Line.Shift)
	assert.Equal(t, [2]float64{1.0 / 900, 0.005}, [2]float64{s.Line.Crew.WrongRepair, s.Line.Crew.WrongRealign})
}

// What decides where several policies speak of one fault, and what each says.
func TestMatchPolicy(t *testing.T) {
	const stop, divert = model.Stop, model.Divert
	for _, c := range []struct {
		policy                             string
		letters, plain                     [2]model.Response // to a misfeed and to a double
		mismatch, mismatchOfItsOwn, noRead model.Response
	}{
		{"{}", [2]model.Response{stop, stop}, [2]model.Response{stop, stop}, stop, stop, stop},
		{"{match: in line}", [2]model.Response{divert, divert}, [2]model.Response{stop, stop}, divert, stop, stop},
		{"{match: by hand, misfeed: divert, double: divert, mismatch: divert}", [2]model.Response{stop, stop}, [2]model.Response{divert, divert}, stop, stop, stop},
		{"{misfeed: divert, double: stop, mismatch: divert, no_read: divert}", [2]model.Response{divert, stop}, [2]model.Response{divert, stop}, divert, stop, divert},
	} {
		t.Run(c.policy, func(t *testing.T) {
			text := strings.Replace(personal, "{match: in line, no_read: divert, mismatch: outsort, double: ship}", c.policy, 1)
			require.NotEqual(t, personal, text)
			s, err := Load("x", []byte(text))
			require.NoError(t, err)
			responses := func(i int) [2]model.Response {
				f := s.Line.Stations[i].(*model.Feeder)
				return [2]model.Response{f.OnMisfeed, f.OnDouble}
			}
			assert.Equal(t, c.letters, responses(2))
			assert.Equal(t, c.plain, responses(5))
			assert.Equal(t, c.mismatch, s.Line.Stations[7].(*model.Reader).OnMismatch)
			assert.Equal(t, c.mismatchOfItsOwn, s.Line.Stations[4].(*model.Reader).OnMismatch)
			assert.Equal(t, c.noRead, s.Line.Stations[7].(*model.Reader).OnNoRead)
			assert.Equal(t, model.Ship, s.Line.Stations[1].(*model.Reader).OnNoRead, "its own policy wins")
		})
	}
}

func TestWork(t *testing.T) {
	for text, want := range map[string]model.Line{
		"{shift: 7 h}":                         {Shift: 25_200},
		"{sets: 5}":                            {Job: model.Job{Sets: 5}},
		"{sets: 5, remakes: {beside: 90/h}}":   {Job: model.Job{Sets: 5, Closing: model.Beside, PerHour: 90}},
		"{sets: 5, remakes: {by_hand: 1/min}}": {Job: model.Job{Sets: 5, Closing: model.ByHand, PerHour: 60}},
		"{sets: 5, remakes: {second_pass: {setup: {exponential: {mean: 4 s}}}}}": {
			Job: model.Job{Sets: 5, Closing: model.SecondPass, Setup: exponential(t, 4)},
		},
	} {
		t.Run(text, func(t *testing.T) {
			s, err := Load("personal.yaml", []byte(personal))
			require.NoError(t, err)
			line, err := s.With("work", text)
			require.NoError(t, err)
			assert.Equal(t, [2]any{want.Shift, want.Job}, [2]any{line.Shift, line.Job})
		})
	}
}

func exponential(t *testing.T, mean sim.Seconds) sim.Duration {
	t.Helper()
	d, err := sim.NewExponential(mean)
	require.NoError(t, err)
	return d
}

// Single values are set as in any other line; the short form of a stream takes more keys.
func TestWithPersonal(t *testing.T) {
	s, err := Load("personal.yaml", []byte(personal))
	require.NoError(t, err)
	line, err := s.WithAll([]Setting{
		{"stations.envelopes.stream.realign", "90 s"},
		{"stations.envelopes.stream.tries", "3"},
		{"stations.channel.pages.table.3", "0.2"},
		{"stations.channel.stream.realign.lognormal.mean", "2 min"},
		{"stations.camera.verifies", "sequence"},
		{"stations.letter reader.verifies", "[presence]"},
		{"stations.left.stream", "letters of the left"},
		{"stations.right.stream.half", "false"},
		{"policy.match", "by hand"},
		{"work.sets", "500"},
		{"work.remakes", "{by_hand: 40/h}"},
		{"work.remakes.by_hand", "50/h"},
	})
	require.NoError(t, err)
	envelopes := line.Stations[6].(*model.Feeder)
	assert.Equal(t, model.Stream{Name: "envelopes", Tries: 3, Realign: sim.Constant(90)}, envelopes.Stream)
	assert.Equal(t, [2]model.Response{model.Stop, model.Stop}, [2]model.Response{envelopes.OnMisfeed, envelopes.OnDouble})
	channel := line.Stations[0].(*model.Channel)
	assert.InDelta(t, (0.6+2*0.3+4*0.1+3*0.2)/1.2, channel.Pages.Mean(), 1e-12)
	assert.InDelta(t, 120, float64(channel.Stream.Realign.Mean()), 1e-12)
	camera, letters := line.Stations[1].(*model.Reader), line.Stations[4].(*model.Reader)
	assert.Equal(t, [2]bool{false, true}, [2]bool{camera.Presence, camera.Sequence})
	assert.Equal(t, [2]bool{true, false}, [2]bool{letters.Presence, letters.Sequence})
	assert.Equal(t, model.Stream{Name: "letters", Tries: 1}, line.Stations[3].(*model.Feeder).Stream)
	assert.Equal(t, model.Job{Sets: 500, Closing: model.ByHand, PerHour: 50}, line.Job)

	for _, c := range []struct{ path, value, want string }{
		{"stations.channel.pages.geometric.mean", "2", "pages has 2 distributions, want one, or a plain number of sheets"},
		{"stations.camera.reads", "document", `no station carries the stream "document": did you mean documents?`},
		{"stations.envelopes.stream.name.last", "x", "name is envelopes, which has no last: set name as a whole"},
		{"work.remakes.by_hand", "2/h", "remakes has 2 ways to close them, want one: second_pass, by_hand or beside"},
		{"work.shift", "8 h", "work has sets as well as shift: give one of them"},
	} {
		_, err := s.With(c.path, c.value)
		require.ErrorContains(t, err, "personal.yaml: "+c.path+": "+c.want)
	}
}

// Words and numbers of the new keys are swept like any others.
func TestSweepPersonal(t *testing.T) {
	s, err := Load("personal.yaml", []byte(personal))
	require.NoError(t, err)
	for _, text := range []string{
		"policy.match=by hand,in line",
		"policy.no_read=stop,divert,ship",
		"stations.camera.verifies=presence,sequence",
		"stations.channel.sheets=30000/h:40000/h:3",
		"stations.channel.buffer=2:6:3",
		"stations.channel.pages=2:4:3",
		"stations.channel.pages.table.1=50%:70%:3",
		"stations.envelopes.stream.realign=60 s:120 s:3",
		"stations.envelopes.noticed=99%:100%:3",
		"stations.camera.false_alarm=1/90000,1/50000",
		"stations.letter reader.misread=0.1%:1%:3",
		"stations.plain.wrong_stock.per_refill=0.1%:1%:3",
		"crew.wrong_repair=0.1%:1%:3",
		"crew.wrong_realign=0.1%:1%:3",
		"work.sets=1000,50000",
		"work.remakes.second_pass.setup=5 min,15 min",
	} {
		r, err := ParseRange(text)
		require.NoError(t, err, text)
		var lines []*model.Line
		for _, v := range r.Values {
			line, err := s.With(r.Path, v.Text)
			require.NoError(t, err, text)
			assert.NotContains(t, lines, line, "%s: each value makes another line", text)
			lines = append(lines, line)
		}
	}
}

// A variant tells the short form of a stream as it was.
func TestShortFormInWords(t *testing.T) {
	text := personal + "variants: [{name: v, changes: [{set: stations.envelopes.stream.realign, to: 90 s}, {set: stations.envelopes.stream.name, to: covers}, {set: stations.envelope reader.reads, to: covers}]}]\n"
	s, err := Load("x", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, []string{
		"stations.envelopes.stream.realign: not given → 90 s",
		"stations.envelopes.stream.name: envelopes → covers",
		"stations.envelope reader.reads: envelopes → covers",
	}, s.Variants[0].Changes)
}

// The files hold every key of the format, so that what is said of them is said of
// all of it.
func TestEveryKeyIsInAFile(t *testing.T) {
	var schema struct {
		Properties  map[string]any
		Definitions map[string]struct{ Properties map[string]any } `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(Schema(), &schema))
	have := func(key string) bool {
		return regexp.MustCompile(`\b` + regexp.QuoteMeta(key) + `:`).MatchString(everything + personal + seasonal + groupFile + sharedFile + costly(t) + voluminous(t) + stacked + ratedJobs + staffed + searched + cards + allLots + planFile + skilledFile + twoChannels)
	}
	require.False(t, have("colour"), "a key that is nowhere is missed")
	for _, family := range []string{"gamma", "weibull", "triangular", "empirical", "low", "mode", "high", "exponential", "geometric", "by_hand", "beside"} {
		delete(schema.Definitions["duration"].Properties, family) // one of several ways to write a value
		delete(schema.Definitions["triangular"].Properties, family)
		delete(schema.Definitions["pages"].Properties, family)
		delete(schema.Definitions["remakes"].Properties, family)
		delete(schema.Definitions["adjustment"].Properties, family)
	}
	for name, def := range schema.Definitions {
		for key := range def.Properties {
			assert.True(t, have(key), "%s.%s", name, key)
		}
	}
	for key := range schema.Properties {
		assert.True(t, have(key) || key == "run", key)
	}
}
