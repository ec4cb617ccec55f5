package stoplog

import (
	"cmp"
	"slices"
	"time"

	"netrate/model/study"
)

// Once leaves out rows that are there before, as when a file is put together of parts that overlap: a
// line does not stop twice at the same second for as long, and a station does not feed as much twice in
// the same hour or shift of a day. Where moments are in whole minutes, or counts name no hour or shift,
// rows that look the same may be several, and stay.
func Once(l *study.Log) {
	stops, counts := map[int]bool{}, map[int]bool{} // lines left out: one may be the counts of several stations
	timed := seconds(l)
	for _, s := range l.Stations {
		s.Stops = once(s.Stops, byMoment, func(x study.LogStop) (study.LogStop, bool) {
			x.Line = 0
			return x, timed && !x.Untimed && x.Seconds > 0
		}, func(x study.LogStop) { stops[x.Line] = true })
		s.Counts = once(s.Counts, byDay, func(c study.LogCount) (study.LogCount, bool) {
			c.Line = 0
			return c, c.Feeds > 0 && !c.Day.IsZero() && (c.Period != "" || c.Shift != "")
		}, func(c study.LogCount) { counts[c.Line], s.Feeds = true, s.Feeds-c.Feeds })
	}
	l.Time.TwiceStops, l.Time.TwiceCounts = len(stops), len(counts)
}

func byMoment(a, b study.LogStop) int { return a.When.Compare(b.When) }

func byDay(a, b study.LogCount) int {
	return cmp.Or(a.Day.Compare(b.Day), cmp.Compare(a.Period, b.Period), cmp.Compare(a.Shift, b.Shift), cmp.Compare(a.Feeds, b.Feeds))
}

// seconds reports whether the stops of a log have moments to the second.
func seconds(l *study.Log) bool {
	return slices.ContainsFunc(l.Stations, func(s *study.LogStation) bool {
		return slices.ContainsFunc(s.Stops, func(x study.LogStop) bool { return x.When.Truncate(time.Minute) != x.When })
	})
}

// once returns rows without those that are like one before, in their order, and hands these over. Rows are
// compared that the order finds equal, without their lines, if they tell.
func once[T comparable](rows []T, order func(a, b T) int, bare func(T) (row T, tells bool), left func(T)) (kept []T) {
	sorted := make([]int, len(rows))
	for i := range rows {
		sorted[i] = i
	}
	slices.SortStableFunc(sorted, func(i, k int) int { return order(rows[i], rows[k]) })
	again := make([]bool, len(rows))
	for i, at := range sorted {
		row, tells := bare(rows[at])
		for k := i - 1; tells && k >= 0 && order(rows[sorted[k]], rows[at]) == 0; k-- {
			if other, _ := bare(rows[sorted[k]]); other == row {
				again[at] = true
				break
			}
		}
	}
	for i, row := range rows {
		if again[i] {
			left(row)
		} else {
			kept = append(kept, row)
		}
	}
	return kept
}
