package learn

import (
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim"
	"netrate/sim/output"
)

// lottedLine is the plain line with a quarter of its faults, bad lots of letters and bad days.
func lottedLine(t *testing.T) *model.Line {
	t.Helper()
	l := failing(plainScenario(t).Line, 0.25)
	l.Shift = 2 * 3600
	l.Stations[0].(*model.Feeder).Lots = model.Lots{Of: 3000, CV: 0.8}
	l.Days.CV = 0.3
	return l
}

// intoLotted returns the plain scenario with what was learnt of a log; it knows how many letters a lot
// has, and nothing else of lots and days.
func intoLotted(t *testing.T, log study.Log) (*study.FitAnswer, *model.Line) {
	t.Helper()
	text := strings.Replace(plainLineText, "name: letter, ", "name: letter, lots: {of: 3000, cv: 0.001}, ", 1)
	require.NotEqual(t, plainLineText, text)
	target, err := stoplog.ReadTarget("plain.yaml", []byte(text), "")
	require.NoError(t, err)
	require.Equal(t, map[string]float64{"letter": 3000}, target.Lots())
	a, err := study.Fit{Log: &log, Seed: 1, Quick: true, Lots: target.Lots()}.Ask(t.Context(), nil)
	require.NoError(t, err)
	edited, _, err := target.Take(a)
	require.NoError(t, err)
	sc, err := scenarios.Load("plain.yaml", edited)
	require.NoError(t, err)
	sc.Line.Shift = 2 * 3600
	return a, sc.Line
}

// undated returns a log whose counts do not say of which day they are, so that its days cannot be
// compared.
func undated(log *study.Log) study.Log {
	l := *log
	l.Stations = nil
	for _, s := range log.Stations {
		own := *s
		own.Counts = slices.Clone(s.Counts)
		for i := range own.Counts {
			own.Counts[i].Day = time.Time{}
		}
		l.Stations = append(l.Stations, &own)
	}
	return l
}

// From lots and days to a log, to a fit, to a forecast, and back: the log of 30 shifts of a line with
// bad lots of letters and bad days is written, read and fitted, and the 95 % interval of the net rate in
// the long run holds that of the line. Where the days of the counts are not said, so that lots and days
// are ignored, it does not.
func TestKnownTruthOfLots(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	rounds := max(4, *macro/5) // each takes as long as some of the others
	settled, err := runs.Run(t.Context(), lottedLine(t), sim.Plan{Seed: 77, Min: 5000, Max: 5000}, nil)
	require.NoError(t, err)
	truth := settled.NetRates().Mean()
	held, ignored, days, lots := int64(0), int64(0), 0, 0
	spread := [2]float64{}
	for round := range rounds {
		log, counts := daysWritten(t, uint64(900_000+round), 30, func(int) *model.Line { return lottedLine(t) })
		l, err := (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, log, counts, new(dayTime))
		require.NoError(t, err)
		for k, given := range []study.Log{*l.Log, undated(l.Log)} {
			a, line := intoLotted(t, given)
			studies, _, err := runs.RunUncertain(t.Context(), []*model.Line{line}, sim.Plan{Seed: uint64(round), Max: 2000}, 40, nil)
			require.NoError(t, err)
			low, high := studies[0].Of(func(s *runs.Shift) float64 { return s.NetRate }).Interval(say.Level)
			switch holds := low <= truth && truth <= high; {
			case k == 0 && holds:
				held++
			case k == 1 && holds:
				ignored++
			}
			if k == 0 {
				if a.Spread.DaysShown() {
					days++
					spread[0] += a.Spread.Shared.CV
				}
				if of := a.Spread.Of("letter"); of.Shown {
					lots++
					spread[1] += of.CV
				}
			}
		}
	}
	all := int64(rounds)
	t.Logf("%.1f %% of %d intervals held, with lots and days ignored %.1f %%; days shown in %d, cv %.3f; lots in %d, cv %.3f",
		100*float64(held)/float64(all), all, 100*float64(ignored)/float64(all), days, spread[0]/float64(max(1, days)), lots, spread[1]/float64(max(1, lots)))
	low, high := output.ExactInterval(held, all, 0.999)
	assert.True(t, low <= 0.97 && high >= 0.93, "%d of %d", held, all)
	assert.GreaterOrEqual(t, min(days, lots), rounds*9/10, "days or lots are not seen")
	if rounds >= 50 { // make validate
		_, high = output.ExactInterval(ignored, all, 0.999)
		assert.Less(t, high, 0.93, "with lots and days ignored %d of %d: this test cannot fail", ignored, all)
	}
}
