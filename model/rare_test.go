package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Rules that are met so seldom that a comparison of means does not see them, by hand.

// A jam in one lane while another is in recovery is a second fault: the operator who clears
// it puts the other in step. So is a misfeed, a double, and a false call, though nothing is wrong
// with its set, also where the line stops for them anyway. The letters
// misfeed at every set, and so are in recovery all the time; after ten misfeeds of catch-up sets in
// one recovery they stop the line themselves. The documents jam, or have one of the others, at
// three sets in ten, which stops the line at the documents, whatever the response, so that the
// recovery of the letters is ended long before: 11 sets without one in a row begin at fewer than
// 0.7¹¹ = 2 % of the sets. If it were not ended so, the letters would stop at every 11th set that
// reaches them, 6.4 % of all.
func TestFaultOfAnotherLaneDuringRecovery(t *testing.T) {
	for name, fault := range map[string]func(*Feeder){
		"jam":        func(documents *Feeder) { documents.Jam = 0.3 },
		"false call": func(documents *Feeder) { documents.FalseCalls = 0.3 },
		"misfeed":    func(documents *Feeder) { documents.Misfeed, documents.OnMisfeed = 0.3, Stop },
		"double":     func(documents *Feeder) { documents.Double, documents.OnDouble = 0.3, Stop },
	} {
		t.Run(name, func(t *testing.T) {
			l := endlessLetters(20)
			letters := l.Stations[1].(*Feeder)
			fault(l.Stations[0].(*Feeder))
			letters.Misfeed, letters.Stream.Tries = 1, 10
			require.Empty(t, l.Check())
			out := outcomeOf(t, l)
			sets := float64(out.Sets.Started)
			require.Greater(t, sets, 1000.0)
			assert.Less(t, stopsAt(&out, 1), 0.02*sets)
			assert.Greater(t, stopsAt(&out, 0), 0.2*sets)
		})
	}
}

// endlessLetters is a line of documents and letters whose hoppers never run low, in a shift of
// some hours.
func endlessLetters(hours float64) *Line {
	l := lettersLine(3)
	l.Shift = sim.Seconds(hours * 3600)
	for _, s := range l.Stations[:2] {
		s.(*Feeder).Hopper = Stock{Capacity: 1e9, Work: sim.Constant(0)}
	}
	return l
}

// A streak that is complete in a catch-up set is a second fault: letters that misfeed at every
// set, and stop the line at the third in a row, stop it at every third attempt. The tries of the
// recovery, ten, would do so at every eleventh alone.
func TestStreakCompleteInACatchUpSet(t *testing.T) {
	l := lettersLine(3)
	letters := l.Stations[1].(*Feeder)
	letters.Hopper = Stock{Capacity: 1e9, Work: sim.Constant(0)}
	letters.Misfeed, letters.Stream.Tries = 1, 10
	letters.Streak = Streak{Given: true, Again: 1, StopAfter: 3}
	require.Empty(t, l.Check())
	out := outcomeOf(t, l)
	require.Greater(t, out.Stations[1].Attempts, int64(60))
	assert.InDelta(t, float64(out.Stations[1].Attempts)/3, stopsAt(&out, 1), 1)
}

// A false call in a catch-up set is a second fault, and so is a double. Of the attempts of letters in
// step, p = 0.3 misfeed, and begin a recovery.
//
// Where every good feed is called a double, the catch-up set stops the line, whether it misfeeds
// too, for there is one try, or not: p stops for 1 + p attempts. Were the call none, p² would be left.
//
// Where q = 0.3 of the attempts are doubles, which the lane answers in line too, a recovery from a
// misfeed goes on with p, stops with q, and ends well else: p·q/(1 − p) stops for 1 + p/(1 − p)
// attempts. (The set after a double is not fed, for the lane holds.) Were they no second faults, the
// line would not stop at all.
func TestSecondFaultsOfCatchUpSets(t *testing.T) {
	const p, q = 0.3, 0.3
	for name, c := range map[string]struct {
		change func(*Feeder)
		want   float64 // stops an attempt
	}{
		"false call": {func(f *Feeder) { f.FalseCalls, f.Stream.Tries = 1, 1 }, p / (1 + p)},
		"double":     {func(f *Feeder) { f.Double, f.Stream.Tries = q, 40 }, p * q / (1 - p) / (1 + p/(1-p))},
	} {
		t.Run(name, func(t *testing.T) {
			l := endlessLetters(200)
			letters := l.Stations[1].(*Feeder)
			letters.Misfeed, letters.OnMisfeed, letters.OnDouble = p, Divert, Divert
			c.change(letters)
			require.Empty(t, l.Check())
			out := outcomeOf(t, l)
			attempts := float64(out.Stations[1].Attempts)
			require.Greater(t, attempts, 10_000.0)
			share := stopsAt(&out, 1) / attempts
			assert.InDelta(t, c.want, share, 3.29*math.Sqrt(c.want*(1-c.want)/attempts))
		})
	}
}

// A false call has fed what a good feed feeds, and a catch-up set keeps what was fed to it. By hand
// as above, where every good feed is called a double: of the 1 + p attempts that begin in step, 1 − p
// divert a set with its piece. The p others have a catch-up set, with the two pieces that are due in
// 1 − p of the cases, and these are diverted with it. It has none in the others, and the operator
// takes the two out.
func TestPiecesOfASecondFault(t *testing.T) {
	const p = 0.3
	l := endlessLetters(200)
	letters := l.Stations[1].(*Feeder)
	letters.Misfeed, letters.OnMisfeed, letters.OnDouble = p, Divert, Divert
	letters.FalseCalls, letters.Stream.Tries = 1, 1
	require.Empty(t, l.Check())
	out := outcomeOf(t, l)
	attempts, pieces := float64(out.Stations[1].Attempts), out.Stations[1].Pieces
	require.Greater(t, attempts, 10_000.0)
	tolerance := 2 * 3.29 / 2 / math.Sqrt(attempts) // two pieces an attempt at most, or none
	assert.InDelta(t, (1-p)*(1+2*p)/(1+p), float64(pieces.Diverted)/attempts, tolerance)
	assert.InDelta(t, 2*p*p/(1+p), float64(pieces.Spoiled)/attempts, tolerance)
}

// A noticed misfeed of a catch-up set leaves the lane in recovery until as many have come as there
// are tries: letters that misfeed at every set, with three tries, stop at every fourth.
func TestTriesOfARecovery(t *testing.T) {
	l := endlessLetters(20)
	letters := l.Stations[1].(*Feeder)
	letters.Misfeed, letters.Stream.Tries = 1, 3
	require.Empty(t, l.Check())
	out := outcomeOf(t, l)
	require.Greater(t, out.Stations[1].Attempts, int64(400))
	assert.InDelta(t, float64(out.Stations[1].Attempts)/4, stopsAt(&out, 1), 1)
}

// At a second fault the line stops whatever the response, and the set in which it arose is put
// right, condemned or not. The letters are in recovery all the time, but for the one cycle after
// each stop in which it begins anew. In it the documents, one set in 20 of which has a fault that
// they would divert, do so: with one fault for 20 stops. All other faults stop the line, and cost
// no set at the documents.
func TestSecondFaultStopsWhateverTheResponse(t *testing.T) {
	for name, fault := range map[string]func(*Feeder){
		"misfeed": func(documents *Feeder) { documents.Misfeed = 0.05 },
		"double":  func(documents *Feeder) { documents.Double = 0.05 },
	} {
		t.Run(name, func(t *testing.T) {
			l := endlessLetters(200)
			letters := l.Stations[1].(*Feeder)
			fault(l.Stations[0].(*Feeder))
			letters.Misfeed, letters.Stream.Tries = 1, 10_000
			require.Empty(t, l.Check())
			out := outcomeOf(t, l)
			documents := &out.Stations[0]
			faults := float64(documents.Faults[Misfeed] + documents.Faults[Double])
			require.Greater(t, faults, 1000.0)
			assert.Greater(t, stopsAt(&out, 0), 0.9*faults)
			assert.Less(t, float64(documents.Lost[Misfeed]+documents.Lost[Double]), 0.2*faults)
		})
	}
}

// An alarm of a reader while a lane is in recovery is a second fault, whatever the response. Half of
// the documents that do not follow a misfeed are missing, and none that do, so that a third of all
// cycles are the one after the beginning of a recovery, in which it ends. Of the alarms for letters
// that are missing and nobody knows, all answered in line, some third stops the line.
func TestAlarmDuringRecovery(t *testing.T) {
	l := endlessLetters(2000)
	documents, letters := l.Stations[0].(*Feeder), l.Stations[1].(*Feeder)
	documents.Misfeed, documents.Streak.Given = 0.5, true
	letters.Misfeed, letters.Noticed = 0.001, 0
	require.Empty(t, l.Check())
	out := outcomeOf(t, l)
	reader := &out.Stations[2]
	alarms := float64(reader.Faults[Mismatch])
	require.Greater(t, alarms, 1000.0)
	assert.InDelta(t, 1.0/3, float64(reader.Stops[CauseMismatch].Count)/alarms, 0.1)
	assert.Equal(t, reader.Stops[CauseMismatch].Count, int64(stopsAt(&out, 2)))
}

// A jam in a catch-up set is a second fault: the operator who clears it puts the lane in step. By
// hand as above, with j = 0.3 of the attempts jams: a recovery takes 1/(1 − p) attempts, for all but
// a misfeed end it, and of their sets 1 − j are diverted, the others spoiled. If jams did not end
// it, it would take 1/(1 − p − j).
func TestJamOfACatchUpSet(t *testing.T) {
	const p, j = 0.3, 0.3
	l := endlessLetters(200)
	letters := l.Stations[1].(*Feeder)
	letters.Misfeed, letters.OnMisfeed, letters.Jam, letters.Stream.Tries = p, Divert, j, 40
	require.Empty(t, l.Check())
	out := outcomeOf(t, l)
	diverted := func(tries float64) float64 { return (p + p*tries*(1-j)) / (1 + p*tries) }
	attempts := float64(out.Stations[1].Attempts)
	require.Greater(t, attempts, 10_000.0)
	want, share := diverted(1/(1-p)), float64(out.Sets.Diverted)/attempts
	tolerance := 3.29 / math.Sqrt(attempts) // a set of each attempt at most, or none
	assert.InDelta(t, want, share, tolerance)
	assert.Greater(t, diverted(1/(1-p-j))-share, tolerance, "the other rule would be seen")
}

// From the cycle after the one in which a recovery began up to and including the one in which it
// ended, a fault of another lane is a second fault. Two lanes that see all their misfeeds misfeed
// at every other set. Where the letters are two pitches on, both recoveries begin in one cycle and
// end in the next, and none is a second fault. One pitch on, the letters misfeed in the very cycle in
// which the recovery of the documents ends, and stop the line. That ends their streak, so that they
// misfeed again in the next cycle, as the documents do: from there on both are in step with each
// other, and it was the only stop. Were that cycle left out, the documents would stop the line, in
// the recovery of the letters.
func TestFirstAndLastCycleOfARecovery(t *testing.T) {
	for at, stops := range map[int]float64{2: 0, 1: 1} {
		l := endlessLetters(1)
		documents, letters := l.Stations[0].(*Feeder), l.Stations[1].(*Feeder)
		for _, f := range []*Feeder{documents, letters} {
			f.Misfeed, f.Streak.Given = 1, true
		}
		letters.At = at
		require.Empty(t, l.Check())
		out := outcomeOf(t, l)
		require.Greater(t, out.Stations[1].Attempts, int64(50))
		assert.Equal(t, stops, stopsAt(&out, 1), "letters at %d", at)
		assert.Zero(t, stopsAt(&out, 0), "letters at %d", at)
	}
}

// outcomeOf runs a replication of a line.
func outcomeOf(t *testing.T, l *Line) (out Outcome) {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	require.NoError(t, s.Run(1, 0, &out))
	return out
}

// stopsAt returns how often the line stopped at a station.
func stopsAt(o *Outcome, station int) float64 {
	var stops int64
	for _, total := range o.Stations[station].Stops {
		stops += total.Count
	}
	return float64(stops)
}

// Misfeeds that stop the line as the last of too many in a row are not let through. By hand:
// one attempt in 100 that does not follow a misfeed is one, and goes on; after it the next is
// one with probability 1/2, the second in a row, and stops the line, which ends the row. For
// each attempt that follows no misfeed there are so 0.01 that follow one: 0.01 of 1.01
// attempts go on, and 0.005 of 1.01 stop the line.
func TestLeakWithoutTooMany(t *testing.T) {
	l := lettersLine(3)
	f := l.Stations[1].(*Feeder)
	f.Stream, f.OnMisfeed = Stream{}, Ship
	f.Misfeed, f.Streak = 0.01, Streak{Given: true, Again: 0.5, StopAfter: 2}
	leaks := f.Leaks(l)
	require.Len(t, leaks, 1)
	assert.Equal(t, Misfeed, leaks[0].Fault)
	assert.InEpsilon(t, 0.01/1.01, leaks[0].Rate, 1e-9)
}

// A lane out of step comes into step by a reader that sees a piece missing, not by one that
// does not: of unnoticed misfeeds, one set in 1,000, the reader sees all but those it cannot
// read, 3 in 10. What the lane itself notices comes besides: as many.
func TestMendsOfReaders(t *testing.T) {
	l := lettersLine(3)
	f, r := l.Stations[1].(*Feeder), l.Stations[2].(*Reader)
	f.Misfeed, f.Noticed = 0.002, 0.5
	r.NoRead = 0.3
	assert.InEpsilon(t, 0.001+0.001*0.7, l.mends(1), 1e-9)
	r.OnNoRead = Stop // what it cannot read it stops for, and somebody sees
	assert.InEpsilon(t, 0.002, l.mends(1), 1e-9)
}

// Sets that left the line do not reach what stands after: where the letters of every tenth
// set are missing and it is taken off, nine in ten reach the feeder behind.
func TestHandReach(t *testing.T) {
	l := plainLine()
	first := l.Stations[0].(*Feeder)
	first.Misfeed, first.OnMisfeed = 0.1, Divert
	l.Stations[1].(*Feeder).Jam = 0.01 // its stops are counted by the sets that reach it
	l.Stations = append(l.Stations[:2:2], append([]Station{&TrackGate{Place: Place{Name: "gate", At: 3}}}, l.Stations[2:]...)...)
	require.Empty(t, l.Check())
	h := l.Analytic()
	assert.Equal(t, 1.0, h.Terms[0].Reach)
	assert.InEpsilon(t, 0.9, h.Terms[1].Reach, 1e-9)
	// 0.9 of 0.01 jams a cycle of a second, each 15 s of walking, 60 s of clearing and 4 s of
	// restarting.
	assert.InEpsilon(t, 1/(1+0.009*79), h.Efficiency, 1e-9)
}

// Lines of one crew are ranked by when their stocks run out, in seconds. By hand: while the
// operator clears a jam of a third line, for 186 s from its start, the belts of the other two
// call at 180 s: the slow one has 10 places left, of 4 s each, the fast one 20, of 1 s each. So
// the fast one is swept first, though it has more places left, and the slow one waits 30 s more.
func TestUrgencyBetweenLines(t *testing.T) {
	line := func(name string, speed float64, capacity, left int64) *Line {
		l := plainLine()
		l.Name, l.Speed, l.Shift, l.Restart, l.Crew = name, speed, 700, sim.Constant(0), Crew{}
		l.Stations[3].(*Delivery).Belt = Stock{Capacity: capacity, Warn: left, Work: sim.Constant(30)}
		return l
	}
	slow, fast, busy := line("slow", 900, 40+10, 10), line("fast", 3600, 175+20, 20), line("busy", 3600, 1e9, 0)
	busy.Stations[0].(*Feeder).Jam, busy.Stations[0].(*Feeder).Clear = 1, sim.Constant(186)
	s, err := NewLineGroup(&LineGroup{Lines: []*Line{slow, fast, busy}, Crew: Crew{Operators: 1, Walk: sim.Constant(0)}})
	require.NoError(t, err)
	outs := make([]Outcome, 3)
	require.NoError(t, s.Run(1, 0, outs))
	slowSweep, fastSweep := outs[0].Stations[3].Stock, outs[1].Stations[3].Stock
	require.Positive(t, slowSweep.Calls)
	require.Positive(t, fastSweep.Calls)
	assert.Less(t, float64(fastSweep.Waiting), float64(slowSweep.Waiting), "the fast line is first")
}

// plainLine is a line on which nothing goes wrong: two feeders, an inserter and a delivery at
// pitch 5, at 3,600 cycles an hour, with hoppers that never run low.
func plainLine() *Line {
	feeder := func(name string, at int) *Feeder {
		return &Feeder{
			Unwatched: true,
			Place:     Place{Name: name, At: at}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(10)},
			Material: 1, Noticed: 1, Caught: 1, Share: 1, Clear: sim.Constant(60),
		}
	}
	return &Line{
		Name: "plain", Speed: 3600, Shift: 3600, Restart: sim.Constant(4), Crew: Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []Station{
			feeder("first", 0), feeder("second", 2),
			&Inserter{Place: Place{Name: "inserter", At: 4}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(10)}, Clear: sim.Constant(60)},
			&Delivery{Place: Place{Name: "delivery", At: 5}},
		},
	}
}
