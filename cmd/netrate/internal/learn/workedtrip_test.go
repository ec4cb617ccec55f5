package learn

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// A line of the tests has three jobs, with whose material its feeders fail a number of times as often as
// they are rated, and faults that grow with the speed to the power 1.5.
var workedJobs = []struct {
	name  string
	times float64
}{{"plain", 1}, {"coated", 1.8}, {"stitched", 0.6}}

const workedGrowth = 1.5

// workedScenario is the file that the estimates go into: the plain line, people enough that no stop
// waits, and the three jobs.
func workedScenario() string {
	text := strings.Replace(plainLineText, "operators: 1", "operators: 5", 1) + "jobs:\n"
	for _, j := range workedJobs {
		text += fmt.Sprintf("  - {name: %s, envelope: C5, inserts: [{name: page, feeder: letter}, {name: card, feeder: card}]}\n", j.name)
	}
	return text
}

// atWork returns the line as it truly is with a job.
func atWork(t *testing.T, job int) *model.Line {
	t.Helper()
	sc, err := scenarios.Load("worked.yaml", []byte(workedScenario()))
	require.NoError(t, err)
	l := sc.Line
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.Misfeed, s.Double, s.Jam = s.Misfeed*workedJobs[job].times, s.Double*workedJobs[job].times, s.Jam*workedJobs[job].times
			s.Growth = workedGrowth
		case *model.Inserter:
			s.Growth = workedGrowth
		}
	}
	return l
}

// worked writes the log of twelve days of four hours, each job at two speeds, twice. With a bad
// pallet the card feeder fails ten times as often for a quarter of an hour of the eighth day.
func worked(t *testing.T, seed uint64, pallet bool) (log, counts string) {
	t.Helper()
	var stops, feeds strings.Builder
	stops.WriteString("Start,Station,Cause,Duration (s),Job,Speed\n")
	feeds.WriteString("Day,Station,Job,Speed,Feeds\n")
	for day := range 12 {
		job, speed := day%3, []float64{10_000, 6000}[day/3%2]
		start := time.Date(2026, 3, 2+day, 6, 0, 0, 0, time.UTC)
		of := fmt.Sprintf(",%s,%.0f", workedJobs[job].name, speed)
		for part, hours := range []float64{2, 0.25, 1.75} {
			l := atWork(t, job)
			l.Speed, l.Shift = speed, sim.Seconds(3600*hours)
			if card := l.Stations[1].(*model.Feeder); pallet && day == 7 && part == 1 {
				card.Misfeed, card.Double, card.Jam = 10*card.Misfeed, 10*card.Double, 10*card.Jam
			}
			s, err := model.New(l)
			require.NoError(t, err)
			var o model.Outcome
			stood, _, err := s.Record(seed, 3*day+part, nil, &o)
			require.NoError(t, err)
			var rows strings.Builder
			writeStops(&rows, start, stood)
			stops.WriteString(strings.ReplaceAll(rows.String(), "\n", of+"\n"))
			for _, x := range o.Stations[:3] {
				fmt.Fprintf(&feeds, "%s,%s%s,%d\n", start.Format(time.DateOnly), x.Name, of, x.Attempts)
			}
			start = start.Add(time.Duration(hours * float64(time.Hour)))
		}
	}
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(stops.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte(feeds.String()), 0o600))
	return log, counts
}

// inMinutes writes a log of stops as one that has moments and lengths in whole minutes.
func inMinutes(t *testing.T, log string) (rounded string) {
	t.Helper()
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	head, rows, _ := strings.Cut(string(text), "\n")
	out := head + "\n"
	for row := range strings.Lines(rows) {
		cells := strings.Split(row, ",")
		when, err := time.Parse("2006-01-02 15:04:05", cells[0])
		require.NoError(t, err)
		long, err := strconv.ParseFloat(cells[3], 64)
		require.NoError(t, err)
		cells[0], cells[3] = when.Format("2006-01-02 15:04"), fmt.Sprint(60*math.Round(long/60))
		out += strings.Join(cells, ",")
	}
	rounded = filepath.Join(t.TempDir(), "minutes.csv")
	require.NoError(t, os.WriteFile(rounded, []byte(out), 0o600))
	return rounded
}

// palletFound reports whether bursts are found, and whether one is that of the bad pallet.
func palletFound(x *fitting) (bursts, pallet bool) {
	for _, s := range x.Stations {
		bursts = bursts || s.InBursts()
	}
	return bursts, slices.ContainsFunc(x.Stations[1].Found, func(b study.FitBurst) bool { return b.From.Day() == 9 && b.Job == workedJobs[1].name })
}

// forecasts returns for each job at 8,000 an hour between what the net rate on paper lies in 95 % of
// the draws of what is uncertain, and what it truly is.
func forecasts(t *testing.T, sc *scenarios.Scenario) (low, high, truth []float64) {
	t.Helper()
	for i, p := range sc.Products {
		own := atWork(t, i)
		own.Speed = 8000
		line, fit := setup.Fitted(sc.Line, p)
		require.NotNil(t, line, fit.Reasons)
		line.Speed = 8000
		var rates sim.Sample
		for draw := range 400 {
			drawn, _ := line.Drawn(1, draw)
			rates = append(rates, drawn.Analytic().NetRate)
		}
		low, high, truth = append(low, rates.Quantile(0.025)), append(high, rates.Quantile(0.975)), append(truth, own.Analytic().NetRate)
	}
	return low, high, truth
}

// Of logs of three jobs and two speeds one in twenty shows bursts where there are none, also of those in
// whole minutes, which once did all; the bad pallet is found in its station, on its day, and in whole
// minutes, which are longer than this line runs between stops, now and then; and forecasts of each job lie in their intervals as
// often as these say. With one rate for all jobs most would not.
func TestKnownTruthOfWorkedLogs(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	logs := min(100, max(10, *macro/2))
	var alarms, found [2]int64 // of the logs as they are, and in whole minutes
	held, pooled, all := int64(0), int64(0), int64(0)
	for i := range logs {
		log, counts := worked(t, uint64(1000+i), false)
		x := learntFrom(t, log, counts, false)
		minutes := learntFrom(t, inMinutes(t, log), counts, false)
		sc := workedWith(t, x)
		held += heldOf(t, sc)
		for _, p := range sc.Products {
			p.Rates = nil
		}
		pooled += heldOf(t, sc)
		all += int64(len(workedJobs))

		log, counts = worked(t, uint64(1000+i), true)
		for k, pair := range [2][2]*fitting{
			{x, learntFrom(t, log, counts, false)}, {minutes, learntFrom(t, inMinutes(t, log), counts, false)},
		} {
			if bursts, _ := palletFound(pair[0]); bursts {
				alarms[k]++
			}
			if _, pallet := palletFound(pair[1]); pallet {
				found[k]++
			}
		}
	}
	t.Logf("of logs, and of logs in whole minutes: bursts in %d of %d without, the pallet found in %d; %.1f %% of %d forecasts held, %.1f %% with one rate for all jobs",
		alarms, logs, found, 100*float64(held)/float64(all), all, 100*float64(pooled)/float64(all))
	for k := range alarms {
		least, most := output.ExactInterval(alarms[k], int64(logs), 0.999)
		assert.True(t, least <= 0.05 && 0.05 <= most, "bursts in %d of %d", alarms[k], logs)
		assert.GreaterOrEqual(t, float64(found[k]), [2]float64{0.9, 0.15}[k]*float64(logs), "the pallet found in %d of %d", found[k], logs)
	}
	least, most := output.ExactInterval(held, all, 0.999)
	assert.True(t, least <= 0.97 && 0.93 <= most, "%d of %d", held, all)
	assert.Less(t, float64(pooled), 0.7*float64(all), "the old answer: one rate for all jobs")
}
