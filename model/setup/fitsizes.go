package setup

import (
	"math"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/formats"
)

// sizes asks whether the inserter takes the envelope and the set, and the envelope takes
// what goes into it.
func (f *fitting) sizes() {
	e := &f.product.Envelope
	if !(e.Height > 0 && e.Length > 0) {
		f.because("the envelope %s is %v × %v mm, want its height and length", e.Name, e.Height, e.Length)
		return
	}
	thickness, known := f.product.Thickness()
	if !(thickness >= 0) || math.IsInf(thickness, 1) {
		f.because("the set is %v mm thick, want 0 or more", thickness)
		return
	}
	if !known {
		f.note("the set is at least %.3g mm thick: not of everything in it the thickness is known", thickness)
	}
	if i := f.line.First(model.Inserts); i >= 0 {
		n := f.line.Stations[i]
		f.inserter(n.Where().Name, n.Setting())
		if takes := n.Setting().Accepts().Thickness; !takes.Allow(thickness) && (known || !(thickness < takes.Least)) {
			f.because("%s takes sets of %s in thickness, and this is %.3g mm thick", n.Where().Name, takes, thickness)
		}
	}
	if !slices.ContainsFunc(f.line.Stations, limitsSizes) {
		f.note("the line says nothing of the sizes that it takes: whether it can take this job was not looked at")
	}
	for n, d := range f.product.documents() {
		if _, ok := d.most(); !ok && d.Pages != nil {
			f.note("documents have no most pages: the set is counted with their mean")
		}
		what := "the documents"
		if n > 0 {
			what += " " + d.Stream
		}
		f.inside(what, d.Height, d.Length, thickness)
	}
	for i := range f.product.Inserts {
		n := &f.product.Inserts[i]
		f.inside("the insert "+n.Name, n.Height, n.Length, thickness)
	}
}

// limitsSizes reports whether a station says which sizes it takes.
func limitsSizes(s model.Station) bool {
	set := s.Setting()
	return set.Accepts() != model.Takes{} || len(set.Groups) > 0
}

// inserter asks whether the inserter takes the envelope, and finds its group.
func (f *fitting) inserter(name string, n model.Setting) {
	e, takes := &f.product.Envelope, n.Accepts()
	if !takes.Height.Allow(e.Height) {
		f.because("%s takes envelopes of %s in height, and %s is %.4g mm high", name, takes.Height, e.Name, e.Height)
	}
	if !takes.Length.Allow(e.Length) {
		f.because("%s takes envelopes of %s in length, and %s is %.4g mm long", name, takes.Length, e.Name, e.Length)
	}
	if len(n.Groups) == 0 {
		return
	}
	for _, g := range n.Groups {
		if e.Height <= g.Height && e.Length <= g.Length {
			f.limit("envelopes of the group "+g.Name, g.Speed)
			return
		}
	}
	f.because("%s has no size group for the envelope %s, %.4g × %.4g mm", name, e.Name, e.Height, e.Length)
}

// inside asks whether a piece goes into the envelope, which a set of that thickness
// bulges.
func (f *fitting) inside(what string, height, length, thickness float64) {
	e := &f.product.Envelope
	if height == 0 || length == 0 {
		f.note("the size of %s is not known, nor whether the envelope takes it", what)
		return
	}
	envelope := formats.Envelope{Name: e.Name, Height: e.Height, Length: e.Length}
	if why := formats.Fits(envelope, length, height, thickness, f.clearance); len(why) > 0 {
		f.because("the envelope %s, %.4g × %.4g mm, does not take %s: %s", e.Name, e.Height, e.Length, what, strings.Join(why, "; "))
	}
}

// Thickness returns how thick the thickest set is in mm, as far as is known, and whether
// that is all of it.
func (p *Product) Thickness() (mm float64, known bool) {
	known = true
	for _, d := range p.documents() {
		if d.Pages != nil {
			pages, _ := d.most()
			mm += float64(pages * d.Sheet * float64(max(1, d.Layers)))
			known = known && d.Sheet != 0
		}
	}
	for i := range p.Inserts {
		mm += p.Inserts[i].Thickness
		known = known && p.Inserts[i].Thickness != 0
	}
	return mm, known
}

// most returns the most pages of a document; where there is no most, the mean and false.
func (d *Documents) most() (pages float64, ok bool) {
	if d.Pages == nil {
		return 0, false
	}
	if most, ok := d.Pages.Most(); ok {
		return float64(most), true
	}
	return d.Pages.Mean(), false
}
