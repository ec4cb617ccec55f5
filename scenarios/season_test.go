package scenarios

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/formats"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// seasonal is a file with every key of the format that speaks of jobs and of the time for
// them.
const seasonal = `name: Seasonal
line:
  restart: 4 s
  stations:
    - {kind: document channel, name: channel, at: 0, sheets: 10/s, pages: 2, buffer: 6, misfeed: 1/4000, double: 1/15000, jam: 1/20000, stream: documents, clear: 60 s}
    - {kind: reader, name: camera, at: 0, reads: documents, verifies: sequence, no_read: 1/3000, clear: 20 s}
    - kind: feeder
      name: thin
      at: 2
      preset: rotary
      hopper: {stack: 300 mm, thickness: 0.3 mm, warn: 20%, refill: 25 s}
      takes: {thickness: 0.08 mm to 2 mm, height: up to 170 mm, length: from 9 cm}
    - {kind: feeder, name: thick, at: 4, preset: shuttle, hopper: {pieces: 900, warn: 200, refill: 20 s}, takes: {thickness: up to 0.25 in}}
    - {kind: envelope feeder, name: envelopes, at: 6, preset: rotary, hopper: {pieces: 900, warn: 20%, refill: 25 s}, stream: envelopes, takes: {height: up to 250 mm}}
    - {kind: reader, name: envelope reader, at: 6, reads: envelopes, match: documents, no_read: 1/4000, clear: 20 s}
    - {kind: track gate, name: track gate, at: 8}
    - kind: inserter
      name: inserter
      at: 10
      rated: 16000/h
      flap: 1/1500
      jam: 1/5000
      clear: 90 s
      takes: {thickness: up to 12 mm, height: 90 mm to 260 mm, length: 150 mm to 360 mm}
      groups:
        - {name: letters, height: 162 mm, length: 250 mm, speed: 14000/h}
        - {name: flats, height: 250 mm, length: 353 mm, speed: 8000/h}
    - {kind: delivery, name: delivery, at: 13}
crew: {operators: 2, walk: 10 s}
jobs:
  - name: Letters
    sets: 40000
    speed: 12000/h
    envelope: C5
    documents: {stream: documents, pages: {table: {1: 60%, 2: 40%}}, paper: 80 g/m2, size: A4, fold: half}
    inserts:
      - {name: leaflet, size: A5, paper: 0.1 mm, sheets: 4, feeder: thin}
      - {name: booklet, size: {height: 5 in, length: 210 mm}, fold: none, thickness: 0.9 mm, material: 1.3, share: 40%}
  - name: Flats
    envelope: {size: c4, stream: envelopes}
    inserts:
      - {name: cover, size: letter, fold: letter, paper: 20 lb bond, stream: documents}
  - {name: Odd, envelope: {name: square, height: 160 mm, length: 16 cm}}
  - {name: Plain, envelope: {height: 165 mm, length: 240 mm, throat: 25 mm}}
changeover:
  always: 5 min
  height: {time: 90 s, automatic: true}
  length: {time: {exponential: {mean: 60 s}}}
  thickness: {constant: 4 min}
  throat: 5 min
  insert: 3 min
  stream: 8 min
  reader: 2 min
calendar:
  days: 5
  shifts: [{start: "06:00", length: 8 h}, {start: 14:00, length: 8 h}]
  breaks: [{after: 4 h, length: 30 min, relief: true}]
  maintenance: [{day: 3, start: "13:30", length: 2 h}]
season:
  order: best
  hoppers: as left
  staff:
    - {name: two late, weeks: [1, 2], days: [1, 5], shifts: [2], operators: 2}
  remakes: {second_pass: {setup: 10 min}}
  weeks:
    - {name: first, sets: {Flats: 20000, Letters: 10000}}
    - {name: rest, times: 2, sets: {Odd: 500}}
variants:
  - name: longer
    changes:
      - {set: jobs.Letters.inserts.leaflet.paper, to: 24 lb bond}
      - {set: jobs.Odd.envelope, to: "#10"}
      - {set: season.weeks.rest.sets.Plain, to: 7}
      - {set: calendar.shifts.2.length, to: 6 h}
      - {set: changeover.insert, to: 1 min}
      - {set: crew.operators, to: 3}
`

// The jobs as the model has them. Paper of 80 g/m2 is 80 · 1.3 / 1000 mm thick, with the
// typical bulk; that of 20 lb bond 20 · 3.75973 · 1.3 / 1000 (computed). Half of A4 is
// 148.5 × 210 mm, a third of a letter sheet of 11 × 8.5 in is 93.13 × 215.9 mm.
func TestJobs(t *testing.T) {
	s, err := Load("seasonal.yaml", []byte(seasonal))
	require.NoError(t, err)
	require.Len(t, s.Products, 4)
	pages, err := sim.NewTable([]int64{1, 2}, []float64{0.6, 0.4})
	require.NoError(t, err)

	letters := s.Products[0]
	assert.Equal(t, "Letters", letters.Name)
	assert.Equal(t, int64(40_000), letters.Sets)
	assert.Equal(t, 12_000.0, letters.Speed)
	assert.Equal(t, setup.Envelope{Name: "C5", Height: 162, Length: 229}, letters.Envelope)
	d := letters.Documents
	assert.Equal(t, [2]any{"documents", pages}, [2]any{d.Stream, d.Pages})
	assert.Equal(t, [2]float64{148.5, 210}, [2]float64{d.Height, d.Length})
	assert.InDelta(t, 0.104, d.Sheet, 1e-12)
	assert.Equal(t, 2, d.Layers)
	assert.Equal(t, []setup.Insert{
		{Name: "leaflet", Height: 210, Length: 148, Thickness: 4 * 0.1, Material: 1, Share: 1, Feeder: "thin"},
		{Name: "booklet", Height: 127, Length: 210, Thickness: 0.9, Material: 1.3, Share: 0.4},
	}, letters.Inserts)

	flats := s.Products[1]
	assert.Zero(t, flats.Sets)
	assert.Nil(t, flats.Documents)
	assert.Equal(t, setup.Envelope{Name: "C4", Height: 229, Length: 324, Stream: "envelopes"}, flats.Envelope)
	cover := flats.Inserts[0]
	assert.Equal(t, [2]string{"cover", "documents"}, [2]string{cover.Name, cover.Stream})
	assert.InDelta(t, 11*25.4/3, cover.Height, 1e-9)
	assert.InDelta(t, 8.5*25.4, cover.Length, 1e-9)
	assert.InDelta(t, 3*20*3.75973*1.3/1000, cover.Thickness, 1e-5)

	assert.Equal(t, setup.Envelope{Name: "square", Height: 160, Length: 160}, s.Products[2].Envelope)
	assert.Equal(t, setup.Envelope{Name: "165 × 240 mm", Height: 165, Length: 240, Throat: 25}, s.Products[3].Envelope)
}

func TestTakes(t *testing.T) {
	s, err := Load("seasonal.yaml", []byte(seasonal))
	require.NoError(t, err)
	thin, thick := s.Line.Stations[2].(*model.Feeder), s.Line.Stations[3].(*model.Feeder)
	assert.Equal(t, model.Takes{Thickness: model.Bounds{Least: 0.08, Most: 2}, Height: model.Bounds{Most: 170}, Length: model.Bounds{Least: 90}}, thin.Takes)
	assert.Equal(t, model.Takes{Thickness: model.Bounds{Most: 6.35}}, thick.Takes)
	assert.Equal(t, [2]float64{300, 0}, [2]float64{thin.Stack, thick.Stack})
	inserter := s.Line.Stations[7].(*model.Inserter)
	assert.Equal(t, model.Takes{Thickness: model.Bounds{Most: 12}, Height: model.Bounds{Least: 90, Most: 260}, Length: model.Bounds{Least: 150, Most: 360}}, inserter.Takes)
	assert.Equal(t, []model.SizeGroup{{Name: "letters", Height: 162, Length: 250, Speed: 14_000}, {Name: "flats", Height: 250, Length: 353, Speed: 8000}}, inserter.Groups)
}

func TestSeason(t *testing.T) {
	s, err := Load("seasonal.yaml", []byte(seasonal))
	require.NoError(t, err)
	change := func(d sim.Duration) setup.Change { return setup.Change{Time: d} }
	changeover := &setup.Changeover{
		Always: change(sim.Constant(300)), Height: setup.Change{Time: sim.Constant(90), Automatic: true}, Length: change(exponential(t, 60)),
		Thickness: change(sim.Constant(240)), Throat: change(sim.Constant(300)), Insert: change(sim.Constant(180)), Stream: change(sim.Constant(480)), Reader: change(sim.Constant(120)),
	}
	calendar := &seasons.Calendar{
		Days:        5,
		Shifts:      []seasons.ShiftTime{{Start: 6 * 3600, Length: 8 * 3600}, {Start: 14 * 3600, Length: 8 * 3600}},
		Breaks:      []seasons.Break{{After: 4 * 3600, Length: 1800, Relief: true}},
		Maintenance: []seasons.Planned{{Day: 3, Start: 13.5 * 3600, Length: 7200}},
	}
	assert.Equal(t, changeover, s.Changeover)
	assert.Equal(t, calendar, s.Calendar)
	assert.Equal(t, &seasons.Season{
		Line: s.Line, Calendar: calendar, Products: s.Products, Change: changeover, Best: true,
		Closing: model.Job{Closing: model.SecondPass, Setup: sim.Constant(600)}, Begins: model.Begins{Kept: true},
		Staff: []seasons.Staffed{{Name: "two late", Weeks: []int{1, 2}, Days: []int{1, 5}, Shifts: []int{2}, Operators: 2}},
		Weeks: []seasons.Week{
			{Name: "first", Sets: []int64{10_000, 20_000, 0, 0}},
			{Name: "rest, 1 of 2", Sets: []int64{0, 0, 500, 0}},
			{Name: "rest, 2 of 2", Sets: []int64{0, 0, 500, 0}},
		},
	}, s.Season)
	assert.Same(t, s.Line, s.Season.Line)
	assert.True(t, s.NoWork)
	assert.Equal(t, standIn, s.Line.Shift)
	assert.Empty(t, s.Line.Check(), "a line without work can still be looked at")
}

// A variant has a season of its own, with what it changes.
func TestVariantOfASeason(t *testing.T) {
	s, err := Load("seasonal.yaml", []byte(seasonal))
	require.NoError(t, err)
	v := s.Variants[0]
	assert.Equal(t, []string{
		"jobs.Letters.inserts.leaflet.paper: 0.1 mm → 24 lb bond",
		"jobs.Odd.envelope: {name: square, height: 160 mm, length: 16 cm} → #10",
		"season.weeks.rest.sets.Plain: not given → 7",
		"calendar.shifts.2.length: 8 h → 6 h",
		"changeover.insert: 3 min → 1 min",
		"crew.operators: 2 → 3",
	}, v.Changes)
	assert.InDelta(t, 4*24*3.75973*1.3/1000, v.Products[0].Inserts[0].Thickness, 1e-5)
	assert.Equal(t, "#10", v.Products[2].Envelope.Name)
	assert.Equal(t, []int64{0, 0, 500, 7}, v.Season.Weeks[2].Sets)
	assert.Equal(t, sim.Seconds(6*3600), v.Season.Calendar.Shifts[1].Length)
	assert.Equal(t, sim.Constant(60), v.Season.Change.Insert.Time)
	assert.Equal(t, 3, v.Season.Line.Crew.Operators)
	assert.Same(t, v.Line, v.Season.Line)
	assert.Equal(t, 2, s.Season.Line.Crew.Operators, "the base stays as it is")
	assert.Equal(t, []int64{0, 0, 500, 0}, s.Season.Weeks[2].Sets)
}

// Single values of the new keys are set as any others.
func TestSetOfASeason(t *testing.T) {
	s, err := Load("seasonal.yaml", []byte(seasonal))
	require.NoError(t, err)
	for _, c := range []struct {
		path, value string
		got         func(x *Shop) any
		want        any
	}{
		{"jobs.Letters.sets", "5", func(x *Shop) any { return x.Products[0].Sets }, int64(5)},
		{"jobs.Letters.documents.pages", "3", func(x *Shop) any { return x.Products[0].Documents.Pages }, sim.Always(3)},
		{"jobs.Letters.envelope.stream", "covers", func(x *Shop) any { return x.Products[0].Envelope }, setup.Envelope{Name: "C5", Height: 162, Length: 229, Stream: "covers"}},
		{"jobs.Letters.inserts.booklet.share", "1/2", func(x *Shop) any { return x.Products[0].Inserts[1].Share }, 0.5},
		{"jobs", "[{name: Odd, envelope: DL}]", nil, nil},
		{"stations.inserter.groups.flats.speed", "9000/h", func(x *Shop) any { return x.Line.Stations[7].(*model.Inserter).Groups[1].Speed }, 9000.0},
		{"stations.thick.takes.thickness", "up to 8 mm", func(x *Shop) any { return x.Line.Stations[3].(*model.Feeder).Takes.Thickness.Most }, 8.0},
		{"season.weeks.first.sets.Letters", "0", func(x *Shop) any { return x.Season.Weeks[0].Sets[0] }, int64(0)},
		{"season.weeks.rest.times", "5", func(x *Shop) any { return len(x.Season.Weeks) }, 6},
		{"season.order", "as given", func(x *Shop) any { return x.Season.Best }, false},
		{"season.remakes", "{by_hand: 40/h}", func(x *Shop) any { return x.Season.Closing }, model.Job{Closing: model.ByHand, PerHour: 40}},
		{"calendar.days", "6", func(x *Shop) any { return x.Season.Calendar.Days }, 6},
		{"calendar.breaks.1.relief", "false", func(x *Shop) any { return x.Calendar.Breaks[0].Relief }, false},
		{"calendar.maintenance.1.start", "00:00", func(x *Shop) any { return x.Calendar.Maintenance[0].Start }, sim.Seconds(0)},
		{"changeover.stream", "{time: 1 min, automatic: true}", func(x *Shop) any { return x.Season.Change.Stream }, setup.Change{Time: sim.Constant(60), Automatic: true}},
		{"changeover.height.automatic", "false", func(x *Shop) any { return x.Changeover.Height.Automatic }, false},
		{"work", "{shift: 6 h}", func(x *Shop) any { return x.NoWork }, false},
		{"work.shift", "6 h", func(x *Shop) any { return x.Line.Shift }, sim.Seconds(6 * 3600)},
	} {
		t.Run(c.path, func(t *testing.T) {
			shop, err := s.ShopWith([]Setting{{c.path, c.value}})
			if c.got == nil {
				require.ErrorContains(t, err, `seasonal.yaml: jobs: no job is named "Flats": want Odd (line`)
				return
			}
			require.NoError(t, err)
			assert.NotEqual(t, c.want, c.got(&s.Shop), "the value is another one")
			assert.Equal(t, c.want, c.got(shop))
		})
	}
}

func TestSetWhatCannotBe(t *testing.T) {
	s, err := Load("x", []byte(seasonal))
	require.NoError(t, err)
	for _, c := range []struct{ path, value, want string }{
		{"jobs.Leters.sets", "5", `no job is named "Leters": did you mean Letters?`},
		{"jobs.Letters", "5", "Letters is a whole job: say which key of it, such as jobs.Letters.sets"},
		{"jobs.Letters.inserts.booklet", "5", "booklet is a whole insert: say which key of it, such as jobs.Letters.inserts.booklet.share"},
		{"jobs.Letters.inserts.2.share", "5", `no insert is named "2": want leaflet or booklet`},
		{"calendar.shifts.3.length", "5 h", `no shift is named "3": want 1 or 2`},
		{"calendar.shifts.2", "5 h", "2 is a whole shift: say which key of it, such as calendar.shifts.2.length"},
		{"season.weeks.last.sets.Odd", "5", `no week is named "last": want first or rest`},
		{"season.weeks.first.sets.Od", "5", `no job is named "Od": want Letters, Flats, Odd or Plain`},
		{"lines.a.speed", "5", "there is one line, in line: want line.KEY or stations.NAME.KEY"},
		{"changeover.insert.time", "5 s", "insert is 3 min, which has no time: set insert as a whole"},
		{"calendar.shifts.1.length", "9 h", "shift 2 starts before the one before it ends"},
	} {
		t.Run(c.path, func(t *testing.T) {
			_, err := s.ShopWith([]Setting{{c.path, c.value}})
			require.ErrorContains(t, err, "x: "+c.path+": "+c.want)
		})
	}
}

func TestSweepASeason(t *testing.T) {
	s, err := Load("x", []byte(seasonal))
	require.NoError(t, err)
	for _, text := range []string{
		"jobs.Letters.documents.paper=70 g/m2:100 g/m2:4",
		"jobs.Letters.inserts.booklet.thickness=0.5 mm:1.5 mm:3",
		"jobs.Letters.envelope=C5,C4",
		"season.weeks.first.sets.Letters=0:90000:4",
		"calendar.days=5,6,7",
		"changeover.insert=1 min:3 min:3",
	} {
		r, err := ParseRange(text)
		require.NoError(t, err, text)
		var shops []*Shop
		for _, v := range r.Values {
			shop, err := s.ShopWith([]Setting{{r.Path, v.Text}})
			require.NoError(t, err, text)
			assert.NotContains(t, shops, shop, "%s: each value makes another one", text)
			shops = append(shops, shop)
		}
	}
}

// How lengths and weights of paper are read: the two first are the same by definition, the
// grades by their basis weights (formats).
func TestPaper(t *testing.T) {
	for text, want := range map[string]float64{
		"0.1 mm": 0.1, "0.01 cm": 0.1, "0.004 in": 0.1016, "100 g/m2": 0.13,
		"20 lb bond": formats.Bond.Grammage(20) * formats.TypicalBulk / 1000, "60lb cover": formats.Cover.Grammage(60) * formats.TypicalBulk / 1000,
	} {
		var x paper
		require.NoError(t, x.read(text), text)
		assert.InDelta(t, want, float64(x), 1e-12, text)
	}
	for text, want := range map[string]string{
		"0 mm": "want more than 0", "80": "say the unit: 80 g/m2, lb bond or mm", "6 mm": "want at most 5 mm",
		"80 gsm": `the unit "gsm" is written g/m2`, "20 lb bnd": `the unit "lb bnd" is not known here, did you mean lb bond?`,
		"20 lb": `the unit "lb" is not known here`, "-1 mm": "it cannot be negative", "NaN": "that is not a number",
	} {
		var x paper
		require.ErrorContains(t, x.read(text), want, text)
	}
}

func TestBounds(t *testing.T) {
	for text, want := range map[string]model.Bounds{
		"1 mm to 2 mm": {Least: 1, Most: 2}, "2 mm to 2 mm": {Least: 2, Most: 2}, "up to 2 cm": {Most: 20}, "from 1 in": {Least: 25.4},
	} {
		var x bounds
		require.NoError(t, x.read(text), text)
		assert.Equal(t, want, x.Bounds, text)
	}
	for text, want := range map[string]string{
		"2 mm": "want lengths such as", "1 to 2 mm": "1: say the unit", "2 mm to 1 mm": "the lower one first", "up to 0 mm": "want more than 0",
		"from 1 mm to 2 mm": "1 mm to 2 mm: want", "": "want lengths such as", " to ": "want lengths", "up to ": "want lengths", "from ": "want lengths", "1 mm to ": "want lengths", " to 2 mm": "want lengths",
	} {
		var x bounds
		require.ErrorContains(t, x.read(text), want, text)
	}
}

func TestClock(t *testing.T) {
	for text, want := range map[string]clock{"00:00": 0, "06:30": 23_400, "23:59": 86_340} {
		var x clock
		require.NoError(t, x.read(text), text)
		assert.Equal(t, want, x, text)
	}
	for text, want := range map[string]string{"24:00": "want a time of day", "6:00": "write 06:00", "06:60": "want a time of day", "6 h": "want a time of day"} {
		var x clock
		require.ErrorContains(t, x.read(text), want, text)
	}
}

// The season of the examples can be run: its line runs every job, the thick ones slower.
func TestFlatsSeasonRuns(t *testing.T) {
	x, err := ExampleNamed("flats-season")
	require.NoError(t, err)
	s, err := Load(x.Name, x.Data)
	require.NoError(t, err)
	var speeds []float64
	for _, p := range s.Products {
		_, fit := setup.Fitted(s.Line, p)
		assert.Empty(t, fit.Reasons, p.Name)
		speeds = append(speeds, fit.Speed)
	}
	assert.Equal(t, []float64{14_000, 14_000, 11_000, 8000, 8000}, speeds)
	assert.Len(t, s.Season.Weeks, 6)
	for _, v := range s.Variants {
		assert.NotEqual(t, [2]any{*s.Season.Calendar, s.Season.Line.Crew}, [2]any{*v.Season.Calendar, v.Season.Line.Crew}, v.Name)
	}
}

// An envelope may have a throat of its own, of a standard size too, and a changeover what it takes to set
// the openers.
func TestThroat(t *testing.T) {
	x, err := ExampleNamed("flats-season")
	require.NoError(t, err)
	s, err := Load("x", x.Data)
	require.NoError(t, err)
	assert.Zero(t, s.Products[0].Envelope.Throat)
	text := strings.Replace(string(x.Data), "envelope: DL\n", "envelope: {size: DL, throat: 32 mm}\n", 1)
	text = strings.Replace(text, "  thickness: 4 min\n", "  thickness: 4 min\n  throat: {time: 90 s, automatic: true}\n", 1)
	s, err = Load("x", []byte(text))
	require.NoError(t, err)
	assert.InDelta(t, 32, s.Products[0].Envelope.Throat, 1e-12)
	assert.Equal(t, setup.Change{Time: sim.Constant(90), Automatic: true}, s.Changeover.Throat)
	for _, bad := range []string{"0 mm", "-1 mm", "32", "NaN mm"} {
		_, err = Load("x", []byte(strings.Replace(text, "throat: 32 mm", "throat: "+bad, 1)))
		assert.ErrorContains(t, err, "throat is "+strings.Fields(bad)[0])
	}
}

// Flats fill about six weeks of a year: common practice, no source. The example has four of them in
// a row, as its header says, with a week of letters alone before and after: no more than the six.
func TestFlatsSeasonIsShort(t *testing.T) {
	x, err := ExampleNamed("flats-season")
	require.NoError(t, err)
	s, err := Load(x.Name, x.Data)
	require.NoError(t, err)
	c4, known := formats.Named("C4")
	require.True(t, known)
	var flats []bool
	for _, w := range s.Season.Weeks {
		any := false
		for i, p := range s.Products {
			any = any || w.Sets[i] > 0 && p.Envelope.Height == c4.Height
		}
		flats = append(flats, any)
	}
	assert.Equal(t, []bool{false, true, true, true, true, false}, flats)
	assert.Contains(t, string(x.Data), "In four of these six\n# weeks thick sets in C4")
}

// Lists that are too long are refused as a whole.
func TestTooMany(t *testing.T) {
	good, err := os.ReadFile("testdata/good_season.yaml")
	require.NoError(t, err)
	many := func(n int, item string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(strings.ReplaceAll(item, "#", strconv.Itoa(i)))
		}
		return b.String()
	}
	for _, c := range []struct{ old, with, want string }{
		{"jobs:\n", "jobs:\n" + many(maxJobs, "  - {name: j#, envelope: DL}\n"), "jobs has 202 items, want at most 200"},
		{"    inserts:\n", "    inserts:\n" + many(maxInserts, "      - {name: i#, size: A5}\n"), "inserts has 66 items, want at most 64"},
		{"  weeks:\n", "  weeks:\n" + many(maxWeeks, "    - {name: w#, sets: {Letters: 1}}\n"), "weeks has 106 items, want at most 104"},
		{"  breaks: [{after: 4 h", "  breaks: [{after: 40 h", "break 1 is in no shift"},
		{"length: 8 h", "length: 8 h, breaks: [{after: 7.9 h, length: 10 min}]", "shift 1 ends before its break 1 is over"},
		{"  breaks: [", "  breaks: [" + many(maxOfDay, "{after: 1 h, length: 1 s}, "), "breaks has 25 items, want at most 24"},
		{"      groups:\n", "      groups:\n" + many(maxGroups, "        - {name: g#, height: 1# mm, length: 2# mm, speed: 1/s}\n"), "groups has 22 items, want at most 20"},
	} {
		text := strings.Replace(string(good), c.old, c.with, 1)
		_, err := Load("x", []byte(text))
		require.ErrorContains(t, err, c.want)
	}
	_, err = Load("x", []byte(goodFile(t)+"variants:\n"+many(51, "- {name: v#, changes: [{set: crew.operators, to: 2}]}\n")))
	require.ErrorContains(t, err, "the scenario has 51 variants, want at most 50")
	good, err = os.ReadFile("testdata/good_lines.yaml")
	require.NoError(t, err)
	_, err = Load("x", []byte(strings.Replace(string(good), "lines:\n", "lines:\n"+many(maxLines, "  - {name: l#, restart: 4 s, stations: []}\n"), 1)))
	require.ErrorContains(t, err, "lines has 22 items, want at most 20")
}

// An insert that fits no feeder is no fault of the file.
func TestJobThatCannotRun(t *testing.T) {
	text := strings.Replace(seasonal, "thickness: 0.9 mm, material: 1.3", "thickness: 40 mm", 1)
	s, err := Load("x", []byte(text))
	require.NoError(t, err)
	_, fit := setup.Fitted(s.Line, s.Products[0])
	assert.False(t, fit.Runs)
}

// With jobs, but neither work nor a season, there is something to look at.
func TestJobsAlone(t *testing.T) {
	text, _, _ := strings.Cut(seasonal, "changeover:")
	s, err := Load("x", []byte(text))
	require.NoError(t, err)
	assert.True(t, s.NoWork)
	assert.Nil(t, s.Season)
	assert.Nil(t, s.Calendar)
	assert.Nil(t, s.Changeover)
	assert.Len(t, s.Products, 4)

	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	s, err = Load("x", data)
	require.NoError(t, err)
	assert.False(t, s.NoWork)
	assert.Nil(t, s.Products)
	assert.Nil(t, s.LineGroup)
}

// What stands in a plan and not in a season is refused with where a season says it.
func TestSeasonSaysWhereAPlanDiffers(t *testing.T) {
	for key, want := range map[string]string{
		"down: [{day: 1, start: \"08:00\", length: 2 h}]": "unknown key down in season: it is of a plan; of a season say maintenance under calendar",
		"zone: Europe/Paris":                              "unknown key zone in season: it is of a plan; the times of a season are in no zone",
	} {
		_, err := Load("x", []byte(strings.Replace(seasonal, "  order: best\n", "  order: best\n  "+key+"\n", 1)))
		assert.ErrorContains(t, err, want)
	}
}
