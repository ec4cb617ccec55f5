package study

import (
	"fmt"
	"math"
	"slices"
	"time"

	"netrate/model"
	"netrate/sim/fit"
)

// FitSpread is how the faults of a log differ from day to day, beyond what chance alone makes.
type FitSpread struct {
	None     string      // why nothing was looked for; "" if it was
	Days     int         // on which feeds were counted
	Shared   *fit.Shared // what the stations have in common; nil where there are not two
	Stations []FitStationSpread

	factors []float64 // of the days, as far as their faults say; nil where days are not shown to differ
}

// FitStationSpread is how the faults of one station differ from day to day.
type FitStationSpread struct {
	Name   string
	Faults int64
	Feeds  float64        // a day, in the mean
	All    fit.Dispersion // of its counts
	Own    fit.Dispersion // the same beside what a day does to the other stations; All if that is nothing
	Shown  bool           // that it has factors of its own

	// What that is taken for: lots of so many pieces. Where nobody says how many, as many as it feeds on a day.
	Lot    float64
	Stated bool
	CV, SE float64 // of the factors of such lots

	counts []fit.Count
	worked float64 // days with feeds
	days   float64 // alike that would tell as much
}

// LotCV is the CV that the mean of the factors of the lots of a day has, for a CV of 1: so many pieces
// are fed, and it begins anywhere in a lot. Of m lots in a row there are m-1 whole ones in the mean and
// two parts, whose squares come to 2/3.
func LotCV(feeds, lot float64) float64 {
	m := feeds / lot
	if m < 1 {
		return math.Sqrt(1 - m/3)
	}
	return math.Sqrt((1 - 1/(3*m)) / m)
}

// DaysShown reports whether days are shown to differ for all stations together.
func (x *FitSpread) DaysShown() bool {
	return x.Shared != nil && x.Shared.CV > 0 && x.Shared.P < ShownP
}

// Shown reports whether anything is shown to differ.
func (x *FitSpread) Shown() bool {
	return x.DaysShown() || slices.ContainsFunc(x.Stations, func(x FitStationSpread) bool { return x.Shown })
}

// Of returns how the faults of a station differ; nil if that was not looked for.
func (x *FitSpread) Of(station string) *FitStationSpread {
	for i := range x.Stations {
		if x.Stations[i].Name == station {
			return &x.Stations[i]
		}
	}
	return nil
}

// fewDays are too few to see how they differ (common practice, no source).
const fewDays = 5

// spread finds how the faults of the stations differ from day to day, and widens the intervals of
// their rates by it.
func (a *FitAnswer) spread(lots map[string]float64) {
	x := &a.Spread
	days, none := a.days()
	if x.Days, x.None = len(days), none; none != "" {
		return
	}
	for i := range a.Stations {
		if of := a.Stations[i].byDay(days); of != nil {
			x.Stations = append(x.Stations, *of)
		}
	}
	if len(x.Stations) == 0 {
		x.None = fmt.Sprintf("no station has %d faults for which the line stopped", FewFaults)
		return
	}
	x.share(a.Seed)
	x.weigh()
	a.level(days)
	for i := range x.Stations {
		of := &x.Stations[i]
		of.own(x, i, a.Level)
		of.lots(lots[of.Name])
		if of.Shown {
			a.widen(of)
		}
	}
}

// days returns on which days feeds were counted, or why that is not known.
func (a *FitAnswer) days() (days []time.Time, none string) {
	for _, s := range a.Log.Stations {
		for _, c := range s.Counts {
			if c.Day.IsZero() {
				return nil, "the counts do not say of which day they are"
			}
			if day := a.dayOf(c.Day.Add(a.ofDate(c.Day))); !slices.Contains(days, day) {
				days = append(days, day)
			}
		}
		for _, x := range s.Stops {
			if x.When.IsZero() {
				return nil, "stops do not say on which day they were"
			}
		}
	}
	if len(days) < fewDays {
		return nil, fmt.Sprintf("%d days are too few", len(days))
	}
	return days, ""
}

// ofDate returns what is to be added to the day of a count so that it lies in the day: a date alone is
// midnight, and the day begins later.
func (a *FitAnswer) ofDate(day time.Time) time.Duration {
	if _, dated := (&LogCount{Day: day}).begins(0); dated {
		return a.DayStarts
	}
	return 0
}

// dayOf returns the date of the day that a moment is of.
func (a *FitAnswer) dayOf(when time.Time) time.Time {
	when = when.Add(-a.DayStarts)
	return time.Date(when.Year(), when.Month(), when.Day(), 0, 0, 0, 0, time.UTC)
}

// byDay returns the counts of a station by day; nil if it has too few faults, or they are not such
// that lots and days multiply.
func (s *FitStation) byDay(days []time.Time) *FitStationSpread {
	stops, _ := s.faultStops(s.As)
	if len(stops) < FewFaults || s.Feeds == 0 || s.As.Role == model.Reads {
		return nil
	}
	of := &FitStationSpread{Name: s.Name, Faults: int64(len(stops)), counts: make([]fit.Count, len(days))}
	a := FitAnswer{DayStarts: s.starts}
	weight := s.weights()
	feeds := make([]float64, len(days))
	for _, c := range s.Counts {
		feeds[slices.Index(days, a.dayOf(c.Day.Add(a.ofDate(c.Day))))] += float64(float64(c.Feeds) * weight(c.Job, c.Speed))
	}
	for i, n := range feeds {
		of.counts[i].Feeds = int64(math.Round(n))
	}
	for _, x := range stops {
		if i := slices.Index(days, a.dayOf(x.When)); i >= 0 && of.counts[i].Feeds > 0 {
			of.counts[i].Faults++
		}
	}
	sum, squares, worked := 0.0, 0.0, 0.0
	for _, c := range of.counts {
		if n := float64(c.Feeds); n > 0 {
			sum, squares, worked = sum+n, squares+float64(n*n), worked+1
		}
	}
	if seen := slices.ContainsFunc(of.counts, func(c fit.Count) bool { return c.Faults > 0 }); worked < fewDays || !seen {
		return nil // perhaps the days of its faults are not those of its feeds
	}
	of.Feeds, of.worked, of.days = sum/worked, worked, sum*sum/squares
	return of
}

// weights returns how many times as often the faults of a work come as those of all: 1 unless jobs are
// shown to differ. Days with another job are not bad days.
func (s *FitStation) weights() func(job string, speed float64) float64 {
	workOf := s.divider()
	faults, feeds := 0.0, 0.0
	of := map[logWork]float64{}
	for _, r := range s.byWork {
		if !r.mixed {
			faults, feeds = faults+float64(r.all()), feeds+float64(r.feeds)
			of[r.logWork] = float64(r.all()) / float64(r.feeds)
		}
	}
	return func(job string, speed float64) float64 {
		each, known := of[workOf(job, speed)]
		if !s.JobsDiffer && s.Growth == nil || faults == 0 || !known {
			return 1
		}
		return each * feeds / faults
	}
}

// share finds what the stations have in common.
func (x *FitSpread) share(seed uint64) {
	var all [][]fit.Count
	for _, of := range x.Stations {
		all = append(all, of.counts)
	}
	if s, err := fit.Share(all, seed); err == nil {
		x.Shared = &s
	}
}

// weigh finds the factor of each day. A bad day has fewer feeds, as the line stands for longer, so that
// the faults of all days by the feeds of all days are less than the mean over days: each count is
// compared with the feeds of its day times its factor. That is found by turns with the rates, as the
// expectation that the maximum of the likelihood has of it; a station counts for less where it has
// factors of its own.
//
// Source: Dempster, Laird and Rubin, J. Royal Statistical Society B 39 (1977) 1–38 (from memory).
func (x *FitSpread) weigh() {
	if !x.DaysShown() {
		return
	}
	k := 1 / (x.Shared.CV * x.Shared.CV)
	x.factors = make([]float64, x.Days)
	for day := range x.factors {
		x.factors[day] = 1
	}
	for range 50 {
		seen, expected := make([]float64, x.Days), make([]float64, x.Days)
		for i := range x.Stations {
			of := &x.Stations[i]
			rate := float64(of.Faults) / of.level(x.factors)
			for day, c := range of.counts {
				s, e := x.telling(i, day, rate*float64(c.Feeds))
				seen[day], expected[day] = seen[day]+s, expected[day]+e
			}
		}
		mean := 0.0
		for day := range x.factors {
			x.factors[day] = (k + seen[day]) / (k + expected[day])
			mean += x.factors[day] / float64(x.Days)
		}
		for day := range x.factors { // at the maximum the mean is 1: so it is reached sooner
			x.factors[day] /= mean
		}
	}
}

// level returns the feeds of a station on its days times their factors.
func (of *FitStationSpread) level(factors []float64) float64 {
	sum := 0.0
	for day, c := range of.counts {
		sum += float64(float64(c.Feeds) * factors[day])
	}
	return sum
}

// level notes of each station how many feeds of a day that is neither good nor bad its feeds are
// worth, for each that it has.
func (a *FitAnswer) level(days []time.Time) {
	if a.Spread.factors == nil {
		return
	}
	for i := range a.Stations {
		s := &a.Stations[i]
		all, worth := 0.0, 0.0
		for _, c := range s.Counts {
			day := slices.Index(days, a.dayOf(c.Day.Add(a.ofDate(c.Day))))
			all += float64(c.Feeds)
			worth += float64(float64(c.Feeds) * a.Spread.factors[day])
		}
		if all > 0 {
			s.worth = worth / all
		}
		for k := range s.Faults {
			s.Faults[k].worth = s.worth
		}
	}
}

// own finds what station i of a log has for itself, beside what its days did to the others: their
// faults say how bad a day was. As far as they leave that open its own may differ, and nothing is
// shown by it: the factor of a gamma day after so many faults is gamma again. Where days differ more than
// can be allowed for, all that it has is taken for its own.
func (of *FitStationSpread) own(x *FitSpread, i int, level float64) {
	var err error
	if of.All, err = fit.Disperse(of.counts, level); err != nil {
		panic(fmt.Sprintf("study: the counts of %s by day: %v", of.Name, err)) // byDay returns none such
	}
	of.Own = of.All
	if x.DaysShown() {
		counts, unsure := slices.Clone(of.counts), make([]float64, len(of.counts))
		k := 1 / (x.Shared.CV * x.Shared.CV)
		for day := range counts {
			seen, expected := x.others(i, day)
			counts[day].Feeds = int64(math.Round(float64(counts[day].Feeds) * (k + seen) / (k + expected)))
			unsure[day] = 1 / (k + seen)
		}
		if own, err := fit.DisperseBeside(counts, unsure, level); err == nil {
			of.Own = own
		}
	}
	of.Shown = of.Own.CV > 0 && of.Own.P < ShownP/float64(len(x.Stations))
	if of.Shown {
		n := of.worked // the rate is of the same days, which lie closer about it than about the true one
		of.CV = of.Own.CV * math.Sqrt(n/(n-1))
		of.SE = min(of.Own.SE, 0.9*of.CV)
	}
}

// others returns the faults of all other stations on a day, and how many were expected, as far as they
// tell of the day.
func (x *FitSpread) others(i, day int) (seen, expected float64) {
	for k := range x.Stations {
		of := &x.Stations[k]
		if k == i {
			continue
		}
		feeds := int64(0)
		for _, c := range of.counts {
			feeds += c.Feeds
		}
		s, e := x.telling(k, day, float64(of.Faults)*float64(of.counts[day].Feeds)/float64(feeds))
		seen, expected = seen+s, expected+e
	}
	return seen, expected
}

// telling returns the faults of station i on a day, of which so many were expected, and these: if it has
// factors of its own, as many of both as would tell as much of the day without them.
func (x *FitSpread) telling(i, day int, expected float64) (faults, of float64) {
	weight := 1 / (1 + float64(expected*x.Shared.Own[i]*x.Shared.Own[i]))
	return float64(weight * float64(x.Stations[i].counts[day].Faults)), float64(weight * expected)
}

// lots takes what a station has for itself for lots, of so many pieces if that is known.
func (of *FitStationSpread) lots(pieces float64) {
	of.Lot, of.Stated = pieces, pieces > 0
	if !of.Stated {
		of.Lot = max(1, math.Round(of.Feeds))
	}
	each := LotCV(of.Feeds, of.Lot)
	of.CV, of.SE = min(model.MostCV, of.CV/each), of.SE/each
}

// widen lets the intervals of the rates of a station allow for lots: the mean of their factors is not
// known better than from so many days. As it is one factor for all faults of the station, and a scenario
// takes its rates as independent, each is written as uncertain enough for all of them together.
func (a *FitAnswer) widen(of *FitStationSpread) {
	day := of.CV * LotCV(of.Feeds, of.Lot) * fit.Uncertain(of.CV, of.SE)
	mean := day * day / of.days // squared standard error of the mean factor
	for i := range a.Stations {
		s := &a.Stations[i]
		if s.Name != of.Name {
			continue
		}
		shares := 0.0
		for k := range s.Faults {
			share := float64(s.Faults[k].Rate.Faults) / float64(of.Faults)
			shares += float64(share * share)
		}
		for k := range s.Faults {
			f := &s.Faults[k]
			if n := float64(f.Rate.Faults); n > 0 {
				f.ByDay, f.together = true, max(f.Varies, 1+float64(n*mean/shares))
				f.varies(max(f.Varies, 1+float64(n*mean)), a.Level)
			}
		}
	}
}
