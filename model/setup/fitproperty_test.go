package setup

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"netrate/model"
	"netrate/sim"
)

// Whatever the line and the product: a line that is said to run the product passes Check
// and runs, a line that is not has a reason, and the line asked stays as it was.
func TestFittedRuns(t *testing.T) {
	runs, fails := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l, p := anyFitLine(t), anyProduct(t)
		before := l.Clone()
		got, fit := Fitted(l, p)
		if !reflect.DeepEqual(before, l) {
			t.Fatal("the line was changed")
		}
		if !fit.Runs {
			fails++
			if got != nil || len(fit.Reasons) == 0 {
				t.Fatalf("it does not run, for the reasons %q", fit.Reasons)
			}
			return
		}
		runs++
		if found := got.Check(); len(found) > 0 || len(fit.Reasons) > 0 || fit.Speed != got.RunSpeed() {
			t.Fatalf("it runs at %v with %v, %q", fit.Speed, found, fit.Reasons)
		}
		s, err := model.New(got)
		if err != nil {
			t.Fatal(err)
		}
		var o model.Outcome
		if err := s.Run(1, 0, &o); err != nil {
			t.Fatal(err)
		}
	})
	t.Logf("%d run, %d do not", runs, fails)
	assert.Greater(t, runs, 40, "hardly any product runs: the test sees nothing")
	assert.Greater(t, fails, 40, "hardly any product is refused: the test sees nothing")
}

// anyFitLine returns a line with any number of feeders, some of which carry a stream.
func anyFitLine(t *rapid.T) *model.Line {
	l := fitLine()
	l.Shift = 120
	if rapid.Bool().Draw(t, "envelope feeder") {
		withEnvelopeFeeder(l)
	}
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			if !s.Envelopes {
				s.Takes.Thickness = model.Bounds{Least: rapid.SampledFrom([]float64{0, 0.1, 0.3}).Draw(t, "least"), Most: rapid.SampledFrom([]float64{0, 0.5, 2}).Draw(t, "most")}
				s.Stack = rapid.SampledFrom([]float64{0, 0.2, 300}).Draw(t, "stack")
			}
		case *model.Reader:
			s.Presence, s.Sequence = rapid.Bool().Draw(t, "presence"), rapid.Bool().Draw(t, "sequence")
			s.OnMismatch = rapid.SampledFrom([]model.Response{model.Stop, model.Divert}).Draw(t, "response")
		case *model.Inserter:
			s.Rated = rapid.SampledFrom([]float64{0, 9000, 18_000}).Draw(t, "rated")
			if s.Growth = 2; s.Rated == 0 {
				s.Growth = 0
			}
		}
	}
	if rapid.Bool().Draw(t, "two streams") {
		l.Stations[2].(*model.Feeder).Stream = model.Stream{Name: "vouchers", Tries: 1}
	}
	return l
}

// anyProduct returns a product of which each part may be there.
func anyProduct(t *rapid.T) *Product {
	p := fitProduct()
	p.Envelope.Stream = rapid.SampledFrom([]string{"", "", "addresses"}).Draw(t, "envelopes")
	if rapid.Bool().Draw(t, "no documents") {
		p.Documents = nil
	}
	p.Inserts = nil
	for i := range rapid.IntRange(0, 4).Draw(t, "inserts") {
		n := Insert{
			Name: fmt.Sprint("insert ", i+1), Height: 100, Length: 150, Share: 1, Material: 1,
			Thickness: rapid.SampledFrom([]float64{0, 0.1, 0.3, 0.8}).Draw(t, "thickness"),
			Stream:    rapid.SampledFrom([]string{"", "", "", "cards", "vouchers"}).Draw(t, "stream"),
			Feeder:    rapid.SampledFrom([]string{"", "", "", "2"}).Draw(t, "feeder"),
		}
		p.Inserts = append(p.Inserts, n)
	}
	if rapid.Bool().Draw(t, "geometric") && p.Documents != nil {
		p.Documents.Pages, _ = sim.NewGeometric(2)
	}
	return p
}
