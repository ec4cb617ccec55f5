package stoplog

import (
	"slices"
	"strings"
)

// Counts may have a column for each station, headed with its name, in the place of a column of
// stations and one of feeds.

// wideColumn is the column of a station.
type wideColumn struct {
	at      int // from 0
	station string
}

// settleWide takes the columns that are nothing else for those of stations, if the counts have
// neither a column of stations nor one of feeds.
func (f *reading) settleWide(headings []string) {
	_, station := f.Columns[Station]
	_, feeds := f.Columns[Feeds]
	if f.stopLog || station || feeds || f.has(Station) || f.has(Feeds) {
		delete(f.places, Good) // a row is one of several of a time: that of which is not known
		return
	}
	taken := map[int]bool{}
	for _, at := range f.places {
		taken[at] = true
	}
	for i, h := range headings {
		if !taken[i] && h != "" {
			f.wide = append(f.wide, wideColumn{i, stationOf(h)})
		}
	}
}

// stationOf returns the station that a heading such as "feeder 1 feeds" names.
func stationOf(heading string) string {
	for _, what := range []string{" feeds", " cycles", " count", " counts"} {
		if name, is := strings.CutSuffix(strings.ToLower(heading), what); is {
			return heading[:len(name)]
		}
	}
	return heading
}

// wideCounts returns the counts in the row at hand, one for each station that has one. The columns
// that have no number in the first row are not those of stations.
func (f *reading) wideCounts(like Count) (all []Count) {
	if !f.wideSettled {
		f.wideSettled = true
		f.wide = slices.DeleteFunc(f.wide, func(w wideColumn) bool {
			_, why := f.wideCell(w)
			return why != "" && why != groupedWanted
		})
		l := &f.report.Layout
		for _, w := range f.wide {
			l.Unread = slices.DeleteFunc(l.Unread, func(h string) bool { return stationOf(h) == w.station })
			l.Columns = append(l.Columns, Reading{Feeds, w.at + 1, w.station, false})
		}
		if len(f.wide) == 0 {
			f.note(0, "no column is the feeds: give its heading or its number, head it feeds, or have one for each station")
		}
	}
	for _, w := range f.wide {
		in := cell{at: len(f.raw)}
		if w.at < len(f.cells) {
			in = f.cells[w.at]
		}
		n, why := f.wideCell(w)
		f.want(Feeds, in, why)
		if c := like; n > 0 {
			c.Station, c.Feeds = w.station, n
			all = append(all, c)
		}
	}
	if in := f.field(Good); len(in.text) > 0 && len(all) > 0 {
		var why string
		all[0].Good, why = f.counted(in.text) // of the row, so once
		f.want(Good, in, why)
	}
	return all
}

// wideCell returns the number in the cell of a station, 0 of an empty one.
func (f *reading) wideCell(w wideColumn) (n int64, why string) {
	if w.at >= len(f.cells) || len(f.cells[w.at].text) == 0 {
		return 0, ""
	}
	return f.counted(f.cells[w.at].text)
}
