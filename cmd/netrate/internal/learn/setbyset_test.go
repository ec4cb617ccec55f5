package learn

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// failer is a station of the plain line as the log of [setBySet] knows it.
type failer struct {
	name   string
	causes [3]string
	odds   [3]float64
	clear  sim.Duration
	lots   model.Lots
	factor float64 // of the lot that is open
	left   float64 // pieces of it
}

func (f *failer) sum() float64 { return f.odds[0] + f.odds[1] + f.odds[2] }

// open opens a lot.
func (f *failer) open(random *sim.Stream, pieces float64) {
	f.factor, f.left = gammaOf(random, f.lots.CV), pieces
}

// gammaOf returns a factor with mean 1 and a cv.
func gammaOf(random *sim.Stream, cv float64) float64 {
	if cv == 0 {
		return 1
	}
	return random.Gamma(1/(cv*cv)) * cv * cv
}

// failers returns the stations of the plain line.
func failers(l *model.Line) (all []*failer) {
	for _, s := range l.Stations[:3] {
		f := &failer{name: s.Where().Name, lots: *model.LotsOf(s)}
		switch s := s.(type) {
		case *model.Feeder:
			f.causes, f.odds, f.clear = [3]string{"misfeed", "double", "jam"}, [3]float64{s.Misfeed, s.Double, s.Jam}, s.Clear
		case *model.Inserter:
			f.causes, f.odds, f.clear = [3]string{"envelope misfeed", "flap", "insertion jam"}, [3]float64{s.EnvelopeMisfeed, s.Flap, s.Jam}, s.Clear
		}
		all = append(all, f)
	}
	return all
}

// setBySet writes the log of days of two hours on the plain line without the engine: sets are made at
// 10,000 an hour, each may be the first of the next lot, and lots go on from one day into the next, as
// pallets do.
func setBySet(t *testing.T, l *model.Line, seed uint64, days int) (log, counts string) {
	t.Helper()
	const cycle, length = 0.36, 7200.0
	random := sim.NewStream("log", "set by set")
	random.Seed(seed, 0)
	all := failers(l)
	for _, f := range all {
		f.open(random, 1+math.Floor(random.Uniform()*max(1, f.lots.Of)))
	}
	var stops, feeds strings.Builder
	stops.WriteString("Start,Station,Cause,Duration (s)\n")
	feeds.WriteString("Day,Station,Feeds\n")
	for day := range days {
		start := time.Date(2026, 3, 2+day, 6, 0, 0, 0, time.UTC)
		bad, made := gammaOf(random, l.Days.CV), 0.0
		for now := 0.0; now < length; {
			odds, sets := 0.0, math.Ceil((length-now)/cycle)
			for _, f := range all {
				odds += f.factor * f.sum() * bad
				if f.lots.Of > 0 {
					sets = min(sets, f.left)
				}
			}
			gap := math.Ceil(-math.Log(1-random.Uniform()) / odds)
			fails := gap <= sets
			sets = min(gap, sets)
			now, made = now+cycle*sets, made+sets
			if fails && now < length {
				f, cause := whatFails(random, all)
				long := min(float64(f.clear.Draw(random)), length-now)
				fmt.Fprintf(&stops, "%s,%s,%s,%.4f\n", start.Add(time.Duration(now*1e9)).Format("2006-01-02 15:04:05.000"), f.name, cause, long)
				now += long
			}
			for _, f := range all {
				if f.left -= sets; f.lots.Of > 0 && f.left <= 0 {
					f.open(random, f.lots.Of)
				}
			}
		}
		for _, f := range all {
			fmt.Fprintf(&feeds, "%s,%s,%.0f\n", start.Format(time.DateOnly), f.name, made)
		}
	}
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(stops.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte(feeds.String()), 0o600))
	return log, counts
}

// whatFails returns which station has failed, and with what.
func whatFails(random *sim.Stream, all []*failer) (*failer, string) {
	odds := 0.0
	for _, f := range all {
		odds += f.factor * f.sum()
	}
	u := random.Uniform() * odds
	for _, f := range all {
		for k, p := range f.odds {
			if u -= f.factor * p; u < 0 {
				return f, f.causes[k]
			}
		}
	}
	return all[0], all[0].causes[0]
}
