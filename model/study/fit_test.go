package study_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// fitOf fits a log and counts that are given as text, without a look for bursts.
func fitOf(t *testing.T, stops, counts string) *study.FitAnswer {
	t.Helper()
	a, err := study.Fit{Log: logOf(t, stops, counts), Seed: 1, Quick: true}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}

// Where each job has a speed of its own, one division serves for both, and the log says that
// they cannot be told apart. A job without feeds is outside.
func TestFitOfJobsWithASpeedEach(t *testing.T) {
	var log strings.Builder
	log.WriteString("when,station,cause,seconds,job,speed\n")
	for i := range 40 {
		log.WriteString("2026-03-02 06:10:00,letter,misfeed," + []string{"30", "41", "55"}[i%3])
		log.WriteString([]string{",plain,8000\n", ",coated,6000\n"}[i/35])
	}
	log.WriteString("2026-03-02 06:10:00,letter,misfeed,0,gone,7000\n")
	counts := "station,job,speed,feeds\nletter,plain,8000,50000\nletter,coated,6000,50000\n"
	a := fitOf(t, log.String(), counts)
	f := &a.Stations[0].Faults[0]
	require.Len(t, f.Divided(), 1)
	assert.Equal(t, "job", f.Divided()[0].By)
	assert.True(t, f.Jobs.Differs())
	assert.EqualValues(t, 1, f.Jobs.Outside)
	assert.Equal(t, 1, a.Stations[0].Clearing.Zeros)
	assert.True(t, a.Log.OneSpeedEach())
	assert.False(t, logOf(t, log.String(), counts+"letter,coated,8000,900\n").OneSpeedEach())
}

// The faults of a job are divided by feeds of the same shifts: where a shift held two jobs and its stops
// name none, both are left out of the jobs, and stay in the rate of the station. The feeds of mixed
// shifts alone once made rates by job half of what they are.
func TestFitOfMixedShifts(t *testing.T) {
	var log strings.Builder
	log.WriteString("day,shift,station,cause,seconds\n")
	for i := range 40 {
		log.WriteString("2026-03-02," + []string{"early", "late", "night", "night"}[i%4] + ",letter,misfeed,30\n")
	}
	counts := "day,shift,station,job,speed,feeds\n2026-03-02,early,letter,plain,8000,10000\n2026-03-02,late,letter,coated,8000,10000\n" +
		"2026-03-02,night,letter,plain,8000,10000\n2026-03-02,night,letter,coated,8000,10000\n"
	l := logOf(t, log.String(), counts)
	_, err := stoplog.Join(l, 0)
	require.NoError(t, err)
	a, err := study.Fit{Log: l, Seed: 1, Quick: true}.Ask(t.Context(), nil)
	require.NoError(t, err)
	f := &a.Stations[0].Faults[0]
	assert.Equal(t, [2]int64{40, 40_000}, [2]int64{f.Rate.Faults, f.Rate.Feeds})
	require.NotNil(t, f.Jobs)
	for _, g := range f.Jobs.Groups {
		assert.Equal(t, [2]int64{10, 10_000}, [2]int64{g.Faults, g.Feeds}, g.Name)
	}
	assert.Zero(t, f.Jobs.Unsaid+f.Jobs.Outside)
	require.NoError(t, l.Take("plain", 0))
	assert.Equal(t, []int64{10, 10_000}, []int64{int64(l.Stops()), l.FeedsOf("letter")})
}

// Faults that do not say their job are of each job in proportion: as many fewer feeds are those of the
// others.
func TestFitOfStopsWithoutJob(t *testing.T) {
	var log strings.Builder
	log.WriteString("when,station,cause,seconds,job\n")
	for i := range 50 {
		log.WriteString("2026-03-02 06:10:00,letter,misfeed,30," + []string{"plain", "plain", "coated", "coated", ""}[i%5] + "\n")
	}
	f := fitOf(t, log.String(), "station,job,feeds\nletter,plain,50000\nletter,coated,50000\n").Stations[0].Faults[0]
	assert.EqualValues(t, 10, f.Jobs.Unsaid)
	for _, g := range f.Jobs.Groups {
		assert.Equal(t, [2]int64{20, 40_000}, [2]int64{g.Faults, g.Feeds}, g.Name)
	}
}

// Stops without a cause are shared out among the causes of their station in proportion: those that have
// one are then of as many fewer feeds. To leave them out made every rate too low. Words that are not known
// are no such stops.
func TestFitOfStopsWithoutCause(t *testing.T) {
	var log strings.Builder
	log.WriteString("when,station,cause,seconds,job\n")
	for i := range 100 {
		log.WriteString("2026-03-02 06:10:00,letter," + []string{"misfeed", "double", "misfeed", "", "hopper empty"}[i%5] + ",30," + []string{"plain", "coated"}[i/60] + "\n")
	}
	log.WriteString("2026-03-02 06:10:00,letter,?,30,plain\n2026-03-02 06:10:00,letter,sparks,30,plain\n2026-03-02 06:10:00,letter,lunch,3000,plain\n")
	log.WriteString("2026-03-02 06:10:00,card,,30,plain\n")
	a := fitOf(t, log.String(), "station,job,feeds\nletter,plain,60000\nletter,coated,42000\ncard,plain,9000\n")
	letter, card := a.Stations[0], a.Stations[1]
	assert.Equal(t, study.FitNameless{Stops: 21, Of: 102}, letter.Nameless)
	assert.Equal(t, [2]int64{40, 81_000}, [2]int64{letter.Faults[0].Rate.Faults, letter.Faults[0].Rate.Feeds}, "of 102 stops 81 have a cause")
	assert.Equal(t, [2]int64{20, 81_000}, [2]int64{letter.Faults[1].Rate.Faults, letter.Faults[1].Rate.Feeds})
	coated := letter.Faults[0].Jobs.Groups[1]
	assert.Equal(t, [2]int64{16, 33_600}, [2]int64{coated.Faults, coated.Feeds}, "of this job, 32 of 40")
	assert.EqualValues(t, 1, card.Faults[0].Rate.Faults, "of whatever it was")
	assert.Equal(t, study.FitNameless{Stops: 22, Of: 103}, a.Nameless())
}

// What people call a jam is the fault that the station has.
func TestFitKnowsKinds(t *testing.T) {
	log := "when,station,cause,seconds\n" +
		"2026-03-02 06:10:00,press,flap,30\n2026-03-02 06:20:00,press,jam,30\n2026-03-02 06:30:00,press,flap,30\n" +
		"2026-03-02 06:40:00,press,double,30\n" +
		"2026-03-02 06:50:00,camera,no-read,30\n2026-03-02 07:10:00,camera,mismatch,30\n2026-03-02 07:20:00,belt,belt full,30\n"
	a := fitOf(t, log, "station,feeds\npress,900\ncamera,900\n")
	require.Len(t, a.Stations, 3)
	press, camera, belt := a.Stations[0], a.Stations[1], a.Stations[2]
	assert.Equal(t, "inserter", press.As.Name)
	var seen []int64
	for _, f := range press.Faults {
		seen = append(seen, f.Rate.Faults)
	}
	assert.Equal(t, []int64{0, 2, 1}, seen) // envelope misfeed, flap, insertion jam
	assert.Equal(t, 1, press.Others, "no inserter feeds two")
	assert.Equal(t, "reader", camera.As.Name)
	assert.EqualValues(t, 1, camera.Faults[0].Rate.Faults)
	assert.Empty(t, belt.As.Name)
	assert.Equal(t, 1, belt.Others)
}

// A station that is declared to be of a kind is of that kind, whatever its stops say.
func TestFitIsTold(t *testing.T) {
	log := logOf(t, "when,station,cause,seconds\n2026-03-02 06:10:00,covers,misfeed,30\n", "station,feeds\ncovers,900\n")
	assert.Equal(t, "feeder", log.KindOf(log.Stations[0]).Name)
	log.Stations[0].Kind = "inserter"
	a, err := study.Fit{Log: log}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, "envelope misfeed", a.Stations[0].Faults[0].Called)
	assert.EqualValues(t, 1, a.Stations[0].Faults[0].Rate.Faults)
}

// The callback can have the stations so far; a context that is done ends the work with those.
func TestFitTells(t *testing.T) {
	log := logOf(t, sixStops, "station,feeds\nletter,900\ncard,900\ninserter,900\n")
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var so []int
	a, err := study.Fit{Log: log, Quick: true}.Ask(ctx, func(s study.Sofar[study.FitAnswer]) {
		assert.Equal(t, 3, s.Most)
		so = append(so, s.Done, len(s.Answer().Stations))
		if s.Done == 2 {
			stop()
		}
	})
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, []int{1, 1, 2, 2}, so)
	assert.Len(t, a.Stations, 2)
}

// More faults than feeds are an error of the log that names both, whether or not stops say what they are for.
func TestFitRefuses(t *testing.T) {
	_, err := study.Fit{Log: logOf(t, sixStops, "station,feeds\nletter,1\n")}.Ask(t.Context(), nil)
	require.ErrorAs(t, err, &study.LogError{})
	assert.ErrorContains(t, err, "letter, misfeed: ")

	nameless := "start,station,cause,seconds\n2026-03-02 06:01:00,stacker,,9\n2026-03-02 06:02:00,stacker,,9\n"
	_, err = study.Fit{Log: logOf(t, nameless, "station,feeds\nstacker,1\n")}.Ask(t.Context(), nil)
	require.ErrorAs(t, err, &study.LogError{})
	assert.ErrorContains(t, err, "stacker, any fault: there are 2 faults in 1 feeds")
}
