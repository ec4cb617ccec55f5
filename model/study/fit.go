package study

import (
	"cmp"
	"context"
	"time"

	"netrate/sim/fit"
)

// Fit asks what a log and its counts say of the stations: how often each fault comes, how
// long the line stands for it, and whether that is all that there is to say.
type Fit struct {
	Log       *Log
	Level     float64            // confidence of the intervals, above 0.5; 0 for [Level]
	Draws     int                // of each test of how well a distribution fits; 0 for no test
	Seed      uint64             // of the tests by simulation
	Lots      map[string]float64 // pieces of a lot of each station, where that is known
	DayStarts time.Duration      // when a day of the counts begins, from midnight
	Quick     bool               // bursts are not looked for, which takes most of the time
}

// FitAnswer is what a log and its counts say.
type FitAnswer struct {
	Level     float64
	Seed      uint64
	Draws     int
	Log       *Log
	Partial   bool          // it was cancelled, or is an answer so far
	Spread    FitSpread     // how days differ; of a partial answer not looked for
	Stations  []FitStation  // in the order of the log; of a partial answer the first of them
	DayStarts time.Duration // when a day of the counts begins, from midnight
}

// FitStation is what is known of one station.
type FitStation struct {
	*LogStation
	As       LogKind     // what it was taken for; without a name if that is not known
	Faults   []FitFault  // of its kind, in its order; none without feeds
	Others   int         // stops for what is no fault of its kind
	Nameless FitNameless // its stops without a cause: shared out among its causes in proportion
	Clearing FitClearing
	ByFault  FitByFault
	Bursts   *fit.Bursts // nil if they were not looked for
	NoBursts string      // why not
	ByPeriod *FitPeriods // in which they were looked for, where stops name no moments; nil otherwise
	Found    []FitBurst  // where they were, in order; may be none though there are bursts

	Growth     *fit.Growth // of all its faults with the speed, within jobs; nil if none is shown
	JobsDiffer bool        // its faults are shown to differ between jobs

	burstP float64       // below which a P shows bursts
	dense  bool          // there is a cluster of stops whose P is
	placed []fit.Stretch // in which they were looked for
	byWork []workRow
	said   float64       // share of its faults that say their work: those of this share of the feeds
	starts time.Duration // of a day of the counts, from midnight
	worth  float64       // as of its faults
}

// FitFault is what is known of one fault of a station.
type FitFault struct {
	Called   string       // the fault; "any fault" of a station without stops whose kind is not known
	Rate     fit.Rate     // its interval allows for bursts
	Like     fit.Group    // of the interval, where bursts are shown: the independent faults and feeds of the same share that are as uncertain
	Varies   float64      // how many times as much as that of independent faults their number varies; 0 if neither bursts nor lots are shown
	ByDay    bool         // lots are shown
	together float64      // Varies that it is written with where lots are shown: enough for all faults of the station together
	worth    float64      // of its feeds, how many of a day of the mean factor each is; 0 for 1
	Jobs     *FitDivision // nil where no jobs are given, or there is too little
	Speeds   *FitDivision
	Growth   *fit.Growth // with the speed; nil if there are no speeds, or it cannot be fitted
	NoGrowth string      // why there is none though there are speeds
}

// FewFaults is how many faults are too few to be divided or to be given a distribution (common
// practice, no source).
const FewFaults = 10

// ShownP is the P below which something is said to be shown.
const ShownP = 0.05

// Ask answers the question. After each station told, unless it is nil, hears how far it has
// come. If ctx is done before the end the answer has the stations until then, and comes with
// its error; a [LogError] says what of the log cannot be.
func (q Fit) Ask(ctx context.Context, told func(Sofar[FitAnswer])) (*FitAnswer, error) {
	if len(q.Log.Kinds) == 0 {
		return nil, LogError{"the log does not know which kinds of stations there are"}
	}
	a := &FitAnswer{Level: cmp.Or(q.Level, Level), Seed: q.Seed, Draws: q.Draws, Log: q.Log, DayStarts: q.DayStarts, Partial: true}
	divided := a.divide()
	tested := 0
	for i, s := range q.Log.Stations {
		if (&FitStation{LogStation: s}).testable(divided[i]) == "" {
			tested++
		}
	}
	for i, s := range q.Log.Stations {
		if ctx.Err() != nil {
			return a, context.Cause(ctx)
		}
		f := FitStation{LogStation: s, As: q.Log.KindOf(s), starts: q.DayStarts}
		stops, others := s.faultStops(f.As)
		f.Others = others
		f.Nameless = s.namelessOf(func(LogStop) bool { return true })
		if err := a.rates(&f, stops); err != nil {
			return nil, err
		}
		f.Clearing = clearing(stops, q.Draws, q.Seed)
		f.ByFault = byFault(&f, stops, len(q.Log.Stations), q.Seed)
		if !q.Quick {
			a.look(&f, divided[i], tested)
		}
		if err := a.divisions(&f, stops); err != nil {
			return nil, err
		}
		if f.Feeds > 0 {
			f.work(stops, a.Level, q.Seed)
		}
		a.Stations = append(a.Stations, f)
		if told != nil {
			told(Sofar[FitAnswer]{Done: i + 1, Most: len(q.Log.Stations), Answer: func() *FitAnswer { so := *a; return &so }})
		}
	}
	a.spread(q.Lots)
	a.Partial = false
	return a, nil
}

// Worst returns the most frequent fault and its station, nil if there is none.
func (a *FitAnswer) Worst() (at *FitStation, most *FitFault) {
	for i := range a.Stations {
		s := &a.Stations[i]
		for k := range s.Faults {
			if f := &s.Faults[k]; f.Rate.Faults > 0 && (most == nil || f.Rate.P > most.Rate.P) {
				at, most = s, f
			}
		}
	}
	return at, most
}

// Slowest returns the station whose stops last longest on average, nil if none has a
// distribution.
func (a *FitAnswer) Slowest() (slow *FitStation) {
	for i := range a.Stations {
		s := &a.Stations[i]
		if s.Clearing.Chosen != nil && (slow == nil || s.Clearing.Chosen.Mean() > slow.Clearing.Chosen.Mean()) {
			slow = s
		}
	}
	return slow
}
