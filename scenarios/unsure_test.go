package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// unsureFile has every way to write a number with its uncertainty.
const unsureFile = `name: Unsure
line:
  restart: {constant: {low: 3 s, likely: 4 s, high: 6 s}}
  stations:
    - kind: feeder
      name: no. 1.5
      at: 0
      preset: rotary
      hopper: {pieces: 1000, warn: 10%, refill: {gamma: {mean: {about: 0.5 min, se: 2 s}, cv: 0.5}}}
      jam: 1/9000
      misfeed: {seen: 214, of: 520311}
      double: {of: 520311, seen: 0}
      growth: {about: 1.7, se: 0.6}
      material: {low: 1, likely: 1.2, high: 2}
      noticed: {low: 50%, likely: 9/10, high: 1}
      streak: {again: {seen: 1, of: 8, counted: 24}, stop_after: 3}
      clear: {lognormal: {mean: {about: 38.2 s, se: 1.9 s}, cv: {about: 0.81, se: 0.05}}}
    - {kind: inserter, name: inserter, at: 4, rated: 9000/h, hopper: {pieces: 1000, warn: 10%, refill: 5 s}, envelope_misfeed: 1/900, flap: 1/700, jam: 1/800, clear: {exponential: {mean: {low: 5 s, likely: 7 s, high: 1 min}}}}
    - {kind: delivery, name: delivery, at: 6, belt: {envelopes: 100, warn: 10, sweep: {weibull: {mean: 30 s, cv: {low: 0.2, likely: 0.3, high: 0.6}}}}}
crew: {operators: 1, walk: {constant: {about: 12 s, se: 3 s}}}
work: {shift: 8 h}
variants:
  - name: counted elsewhere
    changes:
      - {set: stations.inserter.flap, to: {seen: 3, of: 4000}}
      - {set: stations.no. 1.5.double, to: 1/9000}
      - {set: stations.no. 1.5.misfeed.seen, to: 215}
`

// told returns the uncertain inputs of a line, one a line of text.
func told(l *model.Line) string {
	var b strings.Builder
	for _, d := range l.UncertainInputs {
		fmt.Fprintf(&b, "%s %T%v\n", d.Path(), d.Of, d.Of)
	}
	return b.String()
}

func TestUncertainty(t *testing.T) {
	s, err := Load("unsure.yaml", []byte(unsureFile))
	require.NoError(t, err)
	assert.Equal(t, `line.restart.mean output.Between{3 4 6}
stations.no. 1.5.hopper.refill.mean output.About{30 2 0}
stations.no. 1.5.misfeed output.Counted{214 520311 0}
stations.no. 1.5.double output.Counted{0 520311 0}
stations.no. 1.5.growth output.About{1.7 0.6 20}
stations.no. 1.5.material output.Between{1 1.2 2}
stations.no. 1.5.noticed output.Between{0.5 0.9 1}
stations.no. 1.5.streak.again output.Counted{1 8 24}
stations.no. 1.5.clear.mean output.About{38.2 1.9 0}
stations.no. 1.5.clear.cv output.About{0.81 0.05 0}
stations.inserter.clear.mean output.Between{5 7 60}
stations.delivery.belt.sweep.cv output.Between{0.2 0.3 0.6}
crew.walk.mean output.About{12 3 0}
`, told(s.Line))

	f := s.Line.Stations[0].(*model.Feeder)
	assert.Equal(t, 214.0/520311, f.Misfeed)
	assert.Zero(t, f.Double)
	assert.Equal(t, [4]float64{1.7, 1.2, 0.9, 1.0 / 8}, [4]float64{f.Growth, f.Material, f.Noticed, f.Streak.Again})
	clear, err := sim.NewLognormal(38.2, 0.81)
	require.NoError(t, err)
	assert.Equal(t, clear, f.Clear)
	assert.Equal(t, sim.Constant(12), s.Line.Crew.Walk)

	v := s.Variants[0]
	assert.Equal(t, []string{
		"stations.inserter.flap: 1/700 → {seen: 3, of: 4000}",
		"stations.no. 1.5.double: {of: 520311, seen: 0} → 1/9000",
		"stations.no. 1.5.misfeed.seen: 214 → 215",
	}, v.Changes)
	assert.Contains(t, told(v.Line), "stations.inserter.flap output.Counted{3 4000 0}\n")
	assert.Contains(t, told(v.Line), "1.5.misfeed output.Counted{215 520311 0}\n")
	assert.NotContains(t, told(v.Line), "1.5.double")
	assert.Len(t, v.Line.UncertainInputs, len(s.Line.UncertainInputs))
	assert.Contains(t, v.Stated(), Statement{Station: "inserter", Key: "flap", Value: "seen: 3, of: 4000"})
}

// A file without uncertain inputs has none, and a plain value takes an uncertainty away.
func TestNoUncertainty(t *testing.T) {
	s, err := Load("all.yaml", []byte(everything))
	require.NoError(t, err)
	assert.Nil(t, s.Line.UncertainInputs)

	s, err = Load("unsure.yaml", []byte(unsureFile))
	require.NoError(t, err)
	for path, value := range map[string]string{
		"stations.no. 1.5.misfeed":              "1/2000",
		"stations.no. 1.5.clear":                "45 s",
		"stations.no. 1.5.clear.lognormal.mean": "1 min",
		"stations.no. 1.5.clear.lognormal.cv":   "0.7",
		"stations.no. 1.5.material":             "1",
		"stations.no. 1.5.streak.again":         "20%",
		"stations.delivery.belt.sweep":          "30 s",
		"line.restart":                          "4 s",
		"crew.walk.constant":                    "10 s",
	} {
		t.Run(path, func(t *testing.T) {
			line, err := s.With(path, value)
			require.NoError(t, err)
			assert.Less(t, len(line.UncertainInputs), len(s.Line.UncertainInputs))
			for _, d := range line.UncertainInputs {
				assert.NotContains(t, strings.ReplaceAll(path, ".lognormal", "")+".", d.Path()+".")
			}
		})
	}
	r, err := ParseRange("stations.no. 1.5.misfeed=1/1000:1/500:3")
	require.NoError(t, err)
	for _, v := range r.Values {
		line, err := s.With(r.Path, v.Text)
		require.NoError(t, err)
		assert.Equal(t, v.Number, line.Stations[0].(*model.Feeder).Misfeed)
		assert.NotContains(t, told(line), "misfeed")
	}
}

// Every rate and every time that can be changed can be uncertain.
func TestEveryParameterCanBeUncertain(t *testing.T) {
	for name, text := range map[string]string{"everything": everything, "personal": personal, "unsure": unsureFile} {
		s, err := Load(name, []byte(text))
		require.NoError(t, err)
		uncertain := map[string]string{}
		for _, parameter := range s.Line.Parameters() {
			uncertain[parameter.Path()] = "{seen: 1, of: 9000}"
			if strings.HasSuffix(parameter.Value, " s") {
				uncertain[parameter.Path()] = "{constant: {about: 30 s, se: 2 s}}"
			}
		}
		for _, station := range s.Line.Stations {
			own := map[string]string{}
			switch station.(type) {
			case *model.Feeder:
				own = map[string]string{"noticed": "{seen: 8, of: 9}", "caught": "{seen: 8, of: 9}", "growth": "{about: 1, se: 0.5}", "material": "{low: 1, likely: 1.1, high: 1.5}"}
			case *model.Channel:
				own = map[string]string{"noticed": "{seen: 8, of: 9}", "caught": "{low: 10%, likely: 20%, high: 30%}"}
			case *model.Inserter:
				own = map[string]string{"growth": "{about: 1, se: 0.5}"}
			}
			for key, value := range own {
				uncertain["stations."+station.Where().Name+"."+key] = value
			}
		}
		for path, value := range uncertain {
			t.Run(name+" "+path, func(t *testing.T) {
				line, err := s.With(path, value)
				require.NoError(t, err)
				mean := ""
				if strings.Contains(value, "constant") {
					mean = ".mean"
				}
				assert.Contains(t, told(line), path+mean+" output.")
			})
		}
	}
}

// A preset's time can be uncertain in a part, and stays as the preset has it otherwise.
func TestUncertaintyOverAPreset(t *testing.T) {
	text := strings.NewReplacer("rated: 20000/h", "preset: rotary", "      clear: 45 s\n", "").Replace(goodFile(t))
	s, err := Load("good.yaml", []byte(text))
	require.NoError(t, err)
	line, err := s.With("stations.letter.clear.lognormal.mean", "{about: 38 s, se: 2 s}")
	require.NoError(t, err)
	assert.Equal(t, "stations.letter.clear.mean output.About{38 2 0}\n", told(line))
	clear, err := sim.NewLognormal(38, float64(*presetRates(t, "rotary").Clear.Others.Lognormal.CV))
	require.NoError(t, err)
	assert.Equal(t, clear, line.Stations[0].(*model.Feeder).Clear)
}

// Each of several lines has its own uncertain inputs and those of the crew.
func TestUncertaintyOfSeveralLines(t *testing.T) {
	text := strings.NewReplacer("walk: 10 s", "walk: {constant: {about: 10 s, se: 1 s}}", "restart: 5 s", "restart: {constant: {low: 4 s, likely: 5 s, high: 6 s}}", "flap: 1/1200", "flap: {seen: 4, of: 4800}").Replace(groupFile)
	s, err := Load("group.yaml", []byte(text))
	require.NoError(t, err)
	crew := "crew.walk.mean output.About{10 1 0}\n"
	assert.Equal(t, crew+"stations.inserter.flap output.Counted{4 4800 0}\n", told(s.LineGroup.Lines[0]))
	assert.Equal(t, crew+"line.restart.mean output.Between{4 5 6}\n", told(s.LineGroup.Lines[1]))

	_, err = Load("group.yaml", []byte(strings.Replace(groupFile, "walk: 10 s", "walk: {gamma: {mean: 10 s, cv: {low: 1, likely: 2, high: 30}}}", 1)))
	var problems Problems
	require.ErrorAs(t, err, &problems)
	assert.Len(t, problems, 1, "what is wrong with the crew is said once")
	assert.Contains(t, err.Error(), "group.yaml:21:53: crew.walk.cv is not possible: ")
}

// What slow cycles and lots are like may be a guess: how many cycles and at what speed, after what time,
// how many pieces. A number of cycles that is no whole one is taken to the next.
func TestUncertainSlowCycles(t *testing.T) {
	text := strings.Replace(unsureFile, "  stations:\n", `  slow:
    starting: {cycles: {low: 10, likely: 20, high: 40}, at: {low: 40%, likely: 50%, high: 60%}}
    after_jam: {cycles: {about: 200, se: 50}, at: 70%}
    repeated: {stops: 3, within: {low: 5 min, likely: 10 min, high: 20 min}, at: 80%, for: {about: 10 min, se: 2 min}}
  stations:
`, 1)
	text = strings.Replace(text, "streak: {again", "lots: {of: {low: 3000, likely: 4000, high: 6000}, cv: 0.5}\n      streak: {again", 1)
	s, err := Load("unsure.yaml", []byte(text))
	require.NoError(t, err)
	for _, said := range []string{
		"line.slow.starting.cycles output.Between{10 20 40}\n", "line.slow.starting.at output.Between{0.4 0.5 0.6}\n",
		"line.slow.after_jam.cycles output.About{200 50 0}\n", "line.slow.repeated.within output.Between{300 600 1200}\n",
		"line.slow.repeated.for output.About{600 120 0}\n", "lots.of output.Between{3000 4000 6000}\n",
	} {
		assert.Contains(t, told(s.Line), said)
	}
	assert.Equal(t, model.Slowly{Cycles: 20, Share: 0.5}, s.Line.Slow.Starting)
	drawn, _ := s.Line.Drawn(1, 1)
	assert.NotEqual(t, s.Line.Slow, drawn.Slow)
	assert.Empty(t, drawn.Check())
	assert.NotEqual(t, 4000.0, drawn.Stations[0].(*model.Feeder).Lots.Of)
	_, err = Load("unsure.yaml", []byte(strings.Replace(text, "cycles: {low: 10, likely: 20, high: 40}", "cycles: 2.5", 1)))
	assert.ErrorContains(t, err, "cycles is 2.5, want a whole number")
}

// A range without its likeliest value is refused with what to write, of rates, times and sums alike.
func TestRangeOfEndsAlone(t *testing.T) {
	example, err := ExampleNamed("gate-worth")
	require.NoError(t, err)
	for old, with := range map[string]string{
		"operator_hour: {low: 26, likely: 29, high: 34}": "operator_hour: {low: 26, high: 34}",
		"walk: 10 s": "walk: {constant: {low: 5 s, high: 30 s}}",
	} {
		require.Contains(t, string(example.Data), old)
		_, err := Load("x", []byte(strings.Replace(string(example.Data), old, with, 1)))
		assert.ErrorContains(t, err, "has low and high: add the likeliest value between them, such as {low: 1, likely: 2, high: 3}; where none is likelier than another, write the middle")
	}
}

// A comma ends a text without quotes in braces: what follows it was called an unknown key.
func TestCommaInAText(t *testing.T) {
	good := "{kind: delivery, name: delivery, at: 8}"
	for text, want := range map[string]string{
		"source: log of May, lines 4 to 9":  `the comma before "lines 4 to 9" ends the source: put a text with commas in quotes`,
		"source: Smith, 2024: table 3":      "the comma before 2024 ends the source: put a text with commas in quotes",
		"source: log of May, misfed: 1/200": "unknown key misfed in delivery: ",
	} {
		_, err := Load("x", []byte(strings.Replace("name: x\nline:\n  restart: 0 s\n  stations:\n    - "+good+"\n", "at: 8", "at: 8, "+text, 1)))
		assert.ErrorContains(t, err, want)
	}
}

// The trials that were counted are no fewer than the independent ones they are worth, and stand with
// both seen and of.
func TestTrialsThatTellLess(t *testing.T) {
	load := func(misfeed string) (*Scenario, error) {
		return Load("x.yaml", []byte(strings.Replace(unsureFile, "misfeed: {seen: 214, of: 520311}", "misfeed: "+misfeed, 1)))
	}
	s, err := load("{counted: 520311, seen: 14, of: 18894}")
	require.NoError(t, err)
	assert.Contains(t, told(s.Line), "1.5.misfeed output.Counted{14 18894 520311}\n")
	assert.Equal(t, 14.0/18894, s.Line.Stations[0].(*model.Feeder).Misfeed)

	const place = "x.yaml:11:16: "
	for text, want := range map[string]string{
		"{seen: 14, of: 18894, counted: 18893}":    place + "misfeed is counted in 18893, want at least the 18894 that these are worth",
		"{seen: 15, of: 14, counted: 20}":          place + "misfeed was seen 15 times in 14, want at most 14",
		"{seen: 14, counted: 20}":                  place + "misfeed has seen and counted, want a plain value, or with its uncertainty seen, of and counted, or else low, likely and high",
		"{seen: 14, of: 18894, counted: 0}":        "x.yaml:11:47: counted is 0, want ",
		"{seen: 14, of: 18894, counted: 1e300}":    "x.yaml:11:47: counted is 1e300, want ",
		"{low: 0, likely: 0, high: 1, counted: 9}": place + "misfeed has low, likely, high and counted, want a plain value, ",
	} {
		_, err := load(text)
		assert.ErrorContains(t, err, want, text)
	}

	twice, err := Load("x.yaml", []byte(strings.NewReplacer(
		"misfeed: {seen: 214, of: 520311}", "misfeed: {seen: 14, of: 18000, counted: 520312}",
		"set: stations.no. 1.5.misfeed.seen, to: 215", "set: stations.no. 1.5.misfeed, times: 2").Replace(unsureFile)))
	require.NoError(t, err)
	assert.Contains(t, told(twice.Variants[0].Line), "1.5.misfeed output.Counted{14 9000 260156}\n", "measuring it takes no longer for it")
}
