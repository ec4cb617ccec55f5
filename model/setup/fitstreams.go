package setup

import (
	"slices"

	"netrate/model"
)

// envelopes sets up where the envelopes come from: the feeder that carries their stream,
// or the inserter's hopper.
func (f *fitting) envelopes() {
	e := &f.product.Envelope
	i := f.line.First(model.Envelopes)
	var feeder model.Station
	if i >= 0 {
		feeder = f.line.Stations[i]
		if takes := feeder.Setting().Accepts(); !takes.EitherWay(e.Height, e.Length) {
			f.because("%s takes %s in height and %s in length, and the envelope %s is %s × %s mm", feeder.Where().Name, takes.Height, takes.Length, e.Name, model.Millimetres(e.Height), model.Millimetres(e.Length))
		}
	}
	carried := i >= 0 && model.StreamOf(feeder).Name == e.Stream
	if e.Stream != "" {
		switch {
		case i < 0:
			f.because("the envelopes are the stream %s, and the line has no feeder of personalised envelopes", e.Stream)
		case !carried:
			f.because("the envelopes are the stream %s, and %s carries the stream %s", e.Stream, feeder.Where().Name, model.StreamOf(feeder).Name)
		}
		if f.line.First(model.Diverts) < 0 {
			f.because("the envelopes are personalised, and no track gate stands before the inserter: a set that is wrong must not go out in one")
		}
	}
	if i >= 0 && !carried {
		f.hopper = feeder
		f.remove(i)
	}
}

// streams sets up the readers for the streams that the line still carries.
func (f *fitting) streams() {
	for _, i := range f.line.Lanes() {
		f.whole(i)
	}
	carried := f.line.Streams()
	f.line.Stations = slices.DeleteFunc(f.line.Stations, func(s model.Station) bool {
		r := s.Setting().Reads
		return r != nil && !f.reads(r, carried)
	})
	if len(f.line.Lanes()) < 2 {
		return // nothing is matched
	}
	for _, name := range carried {
		f.seen(name)
	}
}

// whole makes the station's stream a whole one where the product has no other half of it.
func (f *fitting) whole(i int) {
	carried := f.line.Stations[i].Carries()
	carried.Half = carried.Half && len(f.line.LanesOf(carried.Name)) > 1
}

// reads sets up a reader and reports whether anything is left for it to verify.
func (f *fitting) reads(r *model.Reader, carried []string) bool {
	if !slices.Contains(carried, r.Reads) {
		return false
	}
	if r.Match != "" && !slices.Contains(carried, r.Match) {
		f.note("%s has no pieces of %s to match", r.Name, r.Match)
		if r.Match = ""; !r.Presence && !r.Sequence {
			return false
		}
	}
	if r.Sequence && !f.line.Matched(f.line.LanesOf(r.Reads)[0]) {
		f.note("%s verifies presence: nothing is matched to %s", r.Name, r.Reads)
		r.Presence, r.Sequence = true, false
	}
	return true
}

// seen notes a stream that could be out of step and nobody would see it.
func (f *fitting) seen(stream string) {
	present := ""
	for _, s := range f.line.Stations {
		switch r := s.Setting().Reads; {
		case r == nil:
		case r.Match == stream, r.Reads == stream && (r.Match != "" || r.Sequence):
			return
		case r.Reads == stream:
			present = r.Name
		}
	}
	if present == "" {
		f.because("the stream %s has no reader: nobody would see that it is out of step", stream)
	} else {
		f.note("%s sees that a piece of %s is missing, but not that the stream is out of step", present, stream)
	}
}
