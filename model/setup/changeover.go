package setup

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Changeover is what it takes to set a line up for its next job. What has no time takes
// none.
type Changeover struct {
	Always    Change // at every change of job, whatever differs
	Height    Change // of the envelope
	Length    Change // of the envelope
	Thickness Change // of the set: the inserter's throat
	Throat    Change // of the envelope: what opens it
	Insert    Change // for each feeder that gets another insert
	Stream    Change // for each stream that comes, goes or is carried elsewhere
	Reader    Change // for each reader that is to verify something else
}

// Change is one piece of the work.
type Change struct {
	Time      sim.Duration // nil for none
	Automatic bool         // the line does it by itself, without an operator
}

// Setup is what a line is set up for: a product, and what [Line.Fitted] returned for it.
type Setup struct {
	Product *Product
	Line    *model.Line
	Fit     *Fit
}

// Item is something to do in one changeover.
type Item struct {
	Name    string
	Station string // that it is of: a feeder or a reader; "" for the line as a whole
	Change
}

// Items returns what there is to do from one setup of a line to the next: what is done
// always, and what really differs. From nil is a line set up for nothing, where everything
// has to be set. A feeder or reader that the next product has no use for stays as it is.
func (c *Changeover) Items(from, to *Setup) []Item {
	var items []Item
	at := func(station, name string, differs bool, change Change) {
		if differs && change.Time != nil {
			items = append(items, Item{name, station, change})
		}
	}
	add := func(name string, differs bool, change Change) { at("", name, differs, change) }
	was, is := from.settings(), to.settings()
	add("change of job", true, c.Always)
	add("height of the envelope", differ(is.height, was.height), c.Height)
	add("length of the envelope", differ(is.length, was.length), c.Length)
	add("throat", differ(is.thickness, was.thickness), c.Thickness)
	known := is.throat != 0 && was.throat != 0
	add("openers", math.IsNaN(was.throat) || known && differ(is.throat, was.throat), c.Throat)
	for _, f := range to.Fit.Feeders {
		old, loaded := was.inserts[f.Feeder]
		at(f.Feeder, "feeder "+f.Feeder, !loaded || old != is.inserts[f.Feeder], c.Insert)
	}
	streams := to.Line.Streams()
	if from != nil {
		streams = append(streams, from.Line.Streams()...)
	}
	for i, name := range streams {
		first := !slices.Contains(streams[:i], name)
		add("stream "+name, first && !slices.Equal(was.streams[name], is.streams[name]), c.Stream)
	}
	for _, s := range to.Line.Stations {
		if r := s.Setting().Reads; r != nil {
			old, used := was.readers[r.Name]
			at(r.Name, "reader "+r.Name, !used || old != is.readers[r.Name], c.Reader)
		}
	}
	return items
}

// differ reports whether two lengths differ, by more than the rounding of a sum.
func differ(a, b float64) bool { return !(math.Abs(a-b) <= 1e-6) }

// settings is how a line is set up. It knows feeders, streams and readers by their names.
type settings struct {
	height, length, thickness float64
	throat                    float64             // 0 if it is not known
	inserts                   map[string]Insert   // in each feeder
	streams                   map[string][]string // the stations that carry each
	readers                   map[string]verified
}

// verified is what a reader looks for.
type verified struct {
	reads, match       string
	presence, sequence bool
}

func (s *Setup) settings() settings {
	if s == nil {
		nothing := math.NaN() // which differs from everything
		return settings{height: nothing, length: nothing, thickness: nothing, throat: nothing}
	}
	e := &s.Product.Envelope
	v := settings{
		height: e.Height, length: e.Length, throat: e.Throat,
		inserts: map[string]Insert{}, streams: map[string][]string{}, readers: map[string]verified{},
	}
	v.thickness, _ = s.Product.Thickness()
	for i, f := range s.Fit.Feeders {
		insert := s.Product.Inserts[i]
		insert.Feeder, insert.Share, insert.Only = "", 0, "" // the same pieces, whoever asks for them and how many
		v.inserts[f.Feeder] = insert
	}
	for _, station := range s.Line.Stations {
		if name := model.StreamOf(station).Name; name != "" {
			v.streams[name] = append(v.streams[name], station.Where().Name)
		}
		if r := station.Setting().Reads; r != nil {
			v.readers[r.Name] = verified{r.Reads, r.Match, r.Presence, r.Sequence}
		}
	}
	return v
}
