package tracing

import (
	"cmp"
	"encoding/csv"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim"
)

// example returns the line of an example.
func example(t *testing.T, name string) *model.Line {
	t.Helper()
	x, err := scenarios.ExampleNamed(name)
	require.NoError(t, err)
	sc, err := scenarios.Load(name+".yaml", x.Data)
	require.NoError(t, err)
	return sc.Line
}

func traced(t *testing.T, l *model.Line, first, last int) []*trace.Shift {
	t.Helper()
	a, err := study.Trace{Line: l, Seed: 1, First: first, Last: last}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a.Shifts()
}

// read returns what is written, each row by its headings.
func read(t *testing.T, text string) []map[string]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, cell := range row {
			m[all[0][i]] = cell
		}
		out = append(out, m)
	}
	return out
}

// log returns the log of some shifts, read from the files that are written.
func log(t *testing.T, all []*trace.Shift) *study.Log {
	t.Helper()
	var stops, counts strings.Builder
	o := &traceFlags{asked: asked{start: usualStart}, seen: true}
	require.NoError(t, o.writeStops(&stops, all))
	require.NoError(t, o.writeCounts(&counts, all))
	l := &study.Log{}
	_, err := stoplog.AddStops(l, strings.NewReader(stops.String()), stoplog.Mapping{})
	require.NoError(t, err)
	_, err = stoplog.AddCounts(l, strings.NewReader(counts.String()), stoplog.Mapping{})
	require.NoError(t, err)
	return l
}

// The logs of 20 shifts, fitted, hold the true rates and clearing times: all of them at a level
// at which one miss in a thousand such tests is to be expected. Faults are stopped for, diverted
// and outsorted, hoppers run out, and operators walk and are busy.
func TestFittedTracesHoldTheTruth(t *testing.T) {
	l := example(t, "direct-mail")
	truth := map[string]float64{}
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.Streak, s.Caught, s.FalseCalls = model.Streak{}, 1, 0
			factor := s.Material * l.Growth(s.Rated, s.Growth)
			truth[s.Name+" misfeed"], truth[s.Name+" double"], truth[s.Name+" jam"] = s.Misfeed*factor, s.Double*factor, s.Jam*factor
			truth[s.Name] = float64(s.Clear.Mean())
		case *model.Inserter:
			factor := l.Growth(s.Rated, s.Growth)
			truth[s.Name+" envelope misfeed"], truth[s.Name+" flap"], truth[s.Name+" insertion jam"] = s.EnvelopeMisfeed*factor, s.Flap*factor, s.Jam*factor
			truth[s.Name] = float64(s.Clear.Mean())
		}
	}
	level := 1 - 0.001/float64(len(truth))
	a, err := study.Fit{Log: log(t, traced(t, l, 1, 20)), Level: level, Seed: 1}.Ask(t.Context(), nil)
	require.NoError(t, err)
	seen, told := 0, 0
	holds := func(what string, low, high float64) {
		want, known := truth[what]
		require.True(t, known, what)
		seen++
		assert.True(t, low <= want && want <= high, "%s: %g to %g, want %g", what, low, high, want)
		if high < 1.6*want && low > want/1.6 {
			told++
		}
	}
	for _, s := range a.Stations {
		for _, f := range s.Faults {
			holds(s.Name+" "+f.Called, f.Rate.Low, f.Rate.High)
		}
		if c := s.Clearing.Chosen; c != nil {
			low, high := c.MeanInterval(level)
			holds(s.Name, float64(low), float64(high))
		}
	}
	assert.Len(t, truth, seen)
	assert.Greater(t, told, 20, "intervals that leave out three fifths more or less: else this test shows little")
}

// The trail adds up to the ledger of each shift, fate by fate, and its rows follow each other
// without a gap; one by one there are as many rows as sets.
func TestTrailAddsUp(t *testing.T) {
	for _, name := range []string{"direct-mail", "statements"} {
		t.Run(name, func(t *testing.T) {
			l := example(t, name)
			l.Shift = 2 * 3600
			for _, all := range []bool{false, true} {
				shifts := traced(t, l, 0, 1)
				var text strings.Builder
				o := &traceFlags{asked: asked{start: usualStart}, all: all}
				require.NoError(t, o.writeSets(&text, shifts))
				next := 1
				sums := map[string]int64{}
				count := 0
				for _, r := range read(t, text.String()) {
					first, last := integer(t, r["First"]), integer(t, r["Last"])
					if first == 1 {
						next = 1
					}
					require.Equal(t, next, first)
					require.Equal(t, last-first+1, integer(t, r["Sets"]))
					next = last + 1
					count++
					sums[r["Shift"]+" "+r["Fate"]] += int64(last - first + 1)
					if r["Fate"] == "defective" || r["Fate"] == "diverted" {
						require.NotEmpty(t, r["What happened"])
						require.NotEmpty(t, r["Lost to fault"])
					}
				}
				started := int64(0)
				for _, s := range shifts {
					n := s.Outcome.Sets
					of := func(fate string) int64 { return sums[strconv.Itoa(s.Replication)+" "+fate] }
					assert.Equal(t, model.Sets{
						Started: n.Started, Good: of("good"), Defective: of("defective"), Diverted: of("diverted"),
						Outsorted: of("outsorted"), Spoiled: of("spoiled"), OnLine: of("on line"),
					}, n)
					started += n.Started
				}
				if all {
					assert.EqualValues(t, started, count)
				} else {
					assert.Less(t, int64(count), started/5)
				}
			}
		})
	}
}

func integer(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return n
}

// What the file of the crew says adds up to its accounts.
func TestCrewAddsUp(t *testing.T) {
	shifts := traced(t, example(t, "direct-mail"), 3, 3)
	var text strings.Builder
	require.NoError(t, (&traceFlags{asked: asked{start: usualStart}}).writeCrew(&text, shifts))
	sums := map[string]float64{}
	done := int64(0)
	for _, r := range read(t, text.String()) {
		for _, name := range []string{"Waited (s)", "Walked (s)", "Worked (s)"} {
			if r[name] != "" {
				x, err := strconv.ParseFloat(r[name], 64)
				require.NoError(t, err)
				sums[name] += x
			}
		}
		if r["Done"] == "yes" {
			done++
		}
	}
	crew := shifts[0].Outcome.Crew()
	account := crew.Clearing
	account.Add(crew.Stock)
	assert.Equal(t, account.Done, done)
	assert.InDelta(t, float64(account.Waiting), sums["Waited (s)"], 0.5) // thousandths, a thousand times
	assert.InDelta(t, float64(account.Walking), sums["Walked (s)"], 0.5)
	assert.InDelta(t, float64(account.Working), sums["Worked (s)"], 0.5)
}

// The file for viewers is JSON of the shape that the format has; stretches in a lane follow each
// other, and none ends after the shift.
func TestEventsForViewers(t *testing.T) {
	l := example(t, "direct-mail")
	shifts := traced(t, l, 3, 3)
	var text strings.Builder
	require.NoError(t, (&traceFlags{}).writeEvents(&text, shifts))
	var file struct {
		Events []viewEvent `json:"traceEvents"`
	}
	require.NoError(t, json.Unmarshal([]byte(text.String()), &file))
	slices.SortStableFunc(file.Events, func(a, b viewEvent) int { return cmp.Compare(a.At, b.At) })
	until, kinds, waits := map[[2]int]int64{}, map[string]int{}, 0
	for _, e := range file.Events {
		kinds[e.Phase]++
		require.LessOrEqual(t, e.At, micros(l.Shift))
		switch e.Phase {
		case "X":
			lane := [2]int{e.Process, e.Thread}
			require.GreaterOrEqual(t, e.At, until[lane], e.Name)
			until[lane] = e.At + *e.Lasts
			require.LessOrEqual(t, until[lane], micros(l.Shift))
		case "b":
			waits++
		case "e":
			waits--
		}
	}
	assert.Zero(t, waits)
	for _, kind := range []string{"X", "i", "M", "C", "b", "e"} {
		assert.Positive(t, kinds[kind], kind)
	}
	lasts := int64(0)
	for _, e := range file.Events {
		if e.Process == lineLanes && e.Phase == "X" {
			lasts += *e.Lasts
		}
	}
	assert.InDelta(t, float64(micros(l.Shift)), float64(lasts), 1000, "the line ran or stood at every moment")
}

// A stop of whose seconds each is known: 1 s of cycles, then 3 s of walk and 10 s of work.
func TestStopsByHand(t *testing.T) {
	l := &model.Line{
		Name: "hand", Speed: 3600, Shift: 20, Restart: sim.Constant(2),
		Crew: model.Crew{Operators: 1, Walk: sim.Constant(3)},
		Stations: []model.Station{
			&model.Inserter{Place: model.Place{Name: "inserter"}, Hopper: model.Stock{Capacity: 1000, Work: sim.Constant(1)}, EnvelopeMisfeed: 1, Clear: sim.Constant(10)},
			&model.Delivery{Place: model.Place{Name: "delivery", At: 1}},
		},
	}
	var text strings.Builder
	require.NoError(t, (&traceFlags{asked: asked{start: usualStart}}).writeStops(&text, traced(t, l, 0, 0)))
	assert.Equal(t, `Start,Station,Cause,Duration (s),Arrival,Cut off,Speed
2026-01-05 06:00:01.000,inserter,envelope misfeed,13.000,2026-01-05 06:00:04.000,,3600
2026-01-05 06:00:17.000,inserter,envelope misfeed,3.000,2026-01-05 06:00:20.000,yes,3600
`, text.String())
}

// One hour by hand, as an engineer would do it with the files and a clock: the line stands from
// the first stop until the restart after the last that is open, it runs a set every fifth of a
// second, the first sets need 18 pitches, and what is not good is in the trail. The good sets of
// every hour are those that the shift counts.
func TestHoursByHand(t *testing.T) {
	const cycle, restart, pitches, hour = 0.2, 4.0, 18, 3600.0
	s := traced(t, example(t, "direct-mail"), 637, 637)[0]
	type stand struct{ from, to float64 }
	var stood []stand
	for _, r := range logRows(s, false) {
		from, to := float64(r.from)/1000, float64(r.to)/1000+restart
		if n := len(stood); n > 0 && from < stood[n-1].to {
			stood[n-1].to = max(stood[n-1].to, to)
			continue
		}
		stood = append(stood, stand{from, to})
	}
	cycles := func(until float64) (n int64) {
		begun := 0.0
		for _, x := range append(stood, stand{9 * hour, 9 * hour}) {
			n += int64(max(0, min(x.from, until)-begun)/cycle + 0.01) // whole ones only: a thousandth is a hundredth of one
			if begun = x.to; begun >= until {
				break
			}
		}
		return n
	}
	before := int64(0)
	for h := 1; h <= 8; h++ {
		last := cycles(float64(h)*hour) - pitches // the set that is delivered last
		lost := int64(0)
		for i := range s.Sets {
			if x := &s.Sets[i]; !x.Good && int64(x.Number) <= last {
				lost++
			}
		}
		want := s.Good(sim.Seconds(h)*3600) - s.Good(sim.Seconds(h-1)*3600)
		assert.Equal(t, want, last-lost-before, "hour %d", h)
		before = last - lost
	}
}
