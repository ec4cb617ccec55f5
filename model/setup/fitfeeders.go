package setup

import (
	"fmt"
	"slices"
	"strings"

	"netrate/model"
)

// inserts puts each insert into a feeder of its own and takes the other feeders out.
func (f *fitting) inserts() {
	var feeders []model.Station
	for _, s := range f.line.Stations {
		if model.TakesInserts(s) {
			feeders = append(feeders, s)
		}
	}
	inserts := f.product.Inserts
	can := make([][]int, len(inserts))
	for i := range inserts {
		for k, feeder := range feeders {
			if inserts[i].unfit(feeder) == "" {
				can[i] = append(can[i], k)
			}
		}
	}
	assigned := assign(can)
	f.unplaced(feeders, can, assigned)
	used := map[model.Station]bool{}
	for i, k := range assigned {
		if k >= 0 {
			inserts[i].load(feeders[k])
			used[feeders[k]] = true
			f.fit.Feeders = append(f.fit.Feeders, Loaded{inserts[i].Name, feeders[k].Where().Name})
		}
	}
	f.line.Stations = slices.DeleteFunc(f.line.Stations, func(s model.Station) bool { return model.TakesInserts(s) && !used[s] })
}

// unplaced says of every insert without a feeder why it has none.
func (f *fitting) unplaced(feeders []model.Station, can [][]int, assigned []int) {
	for i, k := range assigned {
		switch n := &f.product.Inserts[i]; {
		case k >= 0:
		case len(can[i]) == 0:
			f.because("%s, %s", n, n.refusals(feeders))
		default:
			rows, columns := shortage(can, assigned, i)
			var inserts, names []string
			for _, i := range rows {
				inserts = append(inserts, f.product.Inserts[i].Name)
			}
			for _, k := range columns {
				names = append(names, feeders[k].Where().Name)
			}
			f.because("no free feeder: the %d inserts %s can go only into %d, %s", len(rows), model.Listed(inserts), len(columns), model.Listed(names))
		}
	}
}

// refusals returns why none of the feeders can take the insert, as the rest of a sentence;
// those that say the same stand together.
func (n *Insert) refusals(feeders []model.Station) string {
	var whys []string
	names := map[string][]string{}
	for _, feeder := range feeders {
		if n.Feeder != "" && feeder.Where().Name != n.Feeder {
			continue
		}
		why := n.unfit(feeder)
		if names[why] == nil {
			whys = append(whys, why)
		}
		names[why] = append(names[why], feeder.Where().Name)
	}
	switch {
	case len(whys) == 0 && n.Feeder != "":
		return fmt.Sprintf("is to go into the feeder %s, and the line has none of that name", n.Feeder)
	case len(whys) == 0:
		return "goes into no feeder: the line has none"
	}
	for i, why := range whys {
		whys[i] = model.Listed(names[why]) + ", " + why
	}
	if n.Feeder != "" {
		return "does not go into the feeder asked for: " + whys[0]
	}
	return "goes into no feeder: " + strings.Join(whys, "; ")
}

// String names the insert, with what is known of its size.
func (n *Insert) String() string {
	s := "the insert " + n.Name
	if n.Height != 0 || n.Length != 0 {
		s += fmt.Sprintf(", %s × %s mm", model.Millimetres(n.Height), model.Millimetres(n.Length))
	}
	if n.Thickness != 0 {
		s += fmt.Sprintf(", %s mm thick", model.Millimetres(n.Thickness))
	}
	return s
}

// unfit returns why a feeder cannot take the insert, to follow its name; "" if it can.
func (n *Insert) unfit(feeder model.Station) string {
	takes, carried := feeder.Setting().Accepts(), model.StreamOf(feeder).Name
	switch {
	case n.Feeder != "" && n.Feeder != feeder.Where().Name:
		return "not the feeder asked for"
	case n.Stream != "" && carried == "":
		return fmt.Sprintf("carrying no stream, want %s", n.Stream)
	case n.Stream != "" && n.Stream != carried:
		return fmt.Sprintf("carrying the stream %s, want %s", carried, n.Stream)
	case !takes.Thickness.Allow(n.Thickness):
		return fmt.Sprintf("taking %s in thickness", takes.Thickness)
	case !takes.EitherWay(n.Height, n.Length):
		return fmt.Sprintf("taking %s in height and %s in length", takes.Height, takes.Length)
	}
	return ""
}

// mostPieces is what a hopper that is measured by its stack may come to.
const mostPieces = 1e9

// load puts the insert into a feeder. A hopper measured by its stack holds what is as high,
// and calls at the same share of it.
func (n *Insert) load(feeder model.Station) {
	feeds := feeder.Setting().Feeds
	*feeds.Material, *feeds.Share, *feeds.Only = n.Material, n.Share, n.Only
	if carried := feeder.Carries(); n.Stream == "" && carried != nil {
		*carried = model.Stream{}
	}
	if !(feeds.Stack > 0 && n.Thickness > 0) {
		return
	}
	was := *feeds.Hopper
	feeds.Hopper.Capacity = int64(min(feeds.Stack/n.Thickness+1e-9, mostPieces)) // 0.3 mm hold three of 0.1 mm
	if was.Capacity > 0 {
		share := float64(was.Warn) / float64(was.Capacity)
		feeds.Hopper.Warn = int64(share * float64(feeds.Hopper.Capacity))
	}
}
