package setup

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/formats"
)

// Fit says whether a line can run a product, and how.
type Fit struct {
	Runs      bool
	Reasons   []string // why it cannot, a sentence each
	Asked     float64  // the speed asked for, cycles an hour; 0 for as fast as can be
	Speed     float64  // cycles an hour; 0 if it cannot
	LimitedBy []string // what keeps it from being faster: stations, "the speed asked for", "envelopes of the group large"
	Feeders   []Loaded // in the order of the product's inserts
	Notes     []string // what was not known, and what the line set up leaves out
}

// Loaded is an insert and the feeder it is put into.
type Loaded struct{ Insert, Feeder string }

// Fitted returns the line set up for a product; or nil, and in the Fit every reason why
// it cannot run the product. The line itself stays as it is, and so does its work: a shift
// or a job of its own number of sets.
//
// What the product has no use for is taken out: the document channel, feeders, readers.
// A plain insert goes into any feeder that takes its size, personalised pieces only where
// their stream is carried. Inserts find a feeder whenever there is a way to place them all;
// of several ways it is the one in which the first insert goes into the first feeder, then
// the second, and so on. Envelopes that are all alike come from the feeder of personalised
// ones, where the line has one.
//
// Everything must go into the envelope with a clearance, [formats.UsualClearance] unless
// one is given.
func Fitted(l *model.Line, p *Product, clearance ...formats.Clearance) (*model.Line, *Fit) {
	f := &fitting{line: l.Clone(), product: p, fit: &Fit{}, clearance: formats.UsualClearance()}
	if len(clearance) > 0 {
		f.clearance = clearance[0]
	}
	f.documents()
	f.inserts()
	f.envelopes()
	f.streams()
	f.sizes()
	f.speed()
	f.uncertain()
	f.rates()
	if f.line.Crew.People != nil { // who is to be at what is taken out has nothing to do
		f.line.Crew = f.line.Crew.At(f.line)
	}
	for _, err := range f.line.Check() {
		f.because("%s", f.sentence(err))
	}
	if len(f.fit.Reasons) > 0 {
		return nil, &Fit{Asked: f.fit.Asked, Reasons: f.fit.Reasons, Notes: f.fit.Notes}
	}
	f.fit.Runs = true
	return f.line, f.fit
}

// uncertain inputs forgets what is uncertain of stations that the product does not use, and of materials:
// the product says what its own are.
func (f *fitting) uncertain() {
	f.line.UncertainInputs = slices.DeleteFunc(slices.Clone(f.line.UncertainInputs), func(d model.UncertainInput) bool {
		return d.Name == "material" || !f.line.Has(d)
	})
}

// rates gives stations the rates that they have with the product.
func (f *fitting) rates() {
	for _, r := range f.product.Rates {
		own := model.UncertainInput{Station: r.Station, Name: r.Name}
		if !f.line.Set(own, r.P) {
			continue // the product does not use the station
		}
		for _, s := range f.line.Stations {
			if feeds := s.Setting().Feeds; s.Where().Name == r.Station && feeds != nil && feeds.Material != nil {
				*feeds.Material = 1
			}
		}
		f.line.UncertainInputs = slices.DeleteFunc(f.line.UncertainInputs, func(d model.UncertainInput) bool {
			return d.Station == r.Station && d.Name == r.Name
		})
		if r.Uncertain != nil {
			f.line.UncertainInputs = append(f.line.UncertainInputs, *r.Uncertain)
		}
	}
}

// fitting is a line on the way to being set up for a product.
type fitting struct {
	line      *model.Line
	product   *Product
	clearance formats.Clearance
	fit       *Fit
	limits    []limit
	hopper    model.Station // the feeder of envelopes that serves as the inserter's hopper, or nil
}

// because notes a reason why the line cannot run the product, once.
func (f *fitting) because(text string, args ...any) {
	if s := fmt.Sprintf(text, args...); !slices.Contains(f.fit.Reasons, s) {
		f.fit.Reasons = append(f.fit.Reasons, s)
	}
}

func (f *fitting) note(text string, args ...any) {
	f.fit.Notes = append(f.fit.Notes, fmt.Sprintf(text, args...))
}

// sentence returns what Check found, with the name of the station.
func (f *fitting) sentence(err error) string {
	var p *model.Problem
	if !errors.As(err, &p) || p.Station < 0 {
		return err.Error()
	}
	if name := f.line.Stations[p.Station].Where().Name; !strings.HasPrefix(p.Text, name+" ") {
		return name + ": " + p.Text
	}
	return p.Text
}

// remove takes station i out of the line.
func (f *fitting) remove(i int) {
	f.line.Stations = slices.Delete(f.line.Stations, i, i+1)
}

// documents sets up the document channels that carry the streams of the documents, and takes the
// others out.
func (f *fitting) documents() {
	var channels, used []int
	for i, s := range f.line.Stations {
		if s.Kind().Role == model.Gathers {
			channels = append(channels, i)
		}
	}
	for _, d := range f.product.documents() {
		if i := f.channelOf(d, channels); slices.Contains(used, i) {
			f.because("two documents of the product are the stream %s", d.Stream)
		} else if i >= 0 {
			*f.line.Stations[i].Setting().Pages = d.Pages
			used = append(used, i)
		}
	}
	for _, i := range slices.Backward(channels) {
		if !slices.Contains(used, i) {
			f.remove(i)
		}
	}
}

// channelOf returns the channel that gathers some documents, or -1: the one that carries their stream. A product
// that has no others need not name it, where the line has no other channel.
func (f *fitting) channelOf(d *Documents, channels []int) int {
	alone := len(channels) == 1 && len(f.product.documents()) == 1
	for _, i := range channels {
		carried := model.StreamOf(f.line.Stations[i]).Name
		if alone && d.Stream != "" && d.Stream != carried {
			f.because("the documents are the stream %s, and %s carries the stream %s", d.Stream, f.line.Stations[i].Where().Name, carried)
		}
		if carried == d.Stream || alone {
			return i
		}
	}
	if len(channels) == 0 {
		f.because("the product has documents, and the line has no document channel")
	} else {
		f.because("no document channel of the line, of %d, carries the stream %q of the documents", len(channels), d.Stream)
	}
	return -1
}
