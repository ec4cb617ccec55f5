package setup

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Product is what a job makes: an envelope and what goes into it.
type Product struct {
	Name      string
	Sets      int64
	Speed     float64  // asked for, cycles an hour; 0 for as fast as the line allows
	Envelope  Envelope // outer
	Documents *Documents
	Further   []Documents // of further document channels
	Inserts   []Insert
	Rates     []Rate // that stations have with it, instead of their own
}

// Rate is the probability of a fault of a station with one product.
type Rate struct {
	Station   string
	Name      string                // in the words of a scenario file: misfeed
	P         float64               // at the rated speed, with the product's own material
	Uncertain *model.UncertainInput // what else it may be; nil if it is certain
}

// Envelope is the outer envelope of a product, in mm. The length is the side parallel to
// the address.
type Envelope struct {
	Name           string // such as C5
	Height, Length float64
	Throat         float64 // how deep it is cut, in mm; 0 if not known
	Stream         string  // if it is personalised, else ""
}

// Documents are the personalised sheets that a document channel gathers and folds.
type Documents struct {
	Stream         string
	Pages          sim.IntegerDistribution
	Height, Length float64 // folded, in mm; 0 if not known
	Sheet          float64 // thickness of one sheet in mm; 0 if not known
	Layers         int     // that a sheet has when folded; 1 if it is not
}

// documents returns all documents of the product.
func (p *Product) documents() []*Documents {
	var all []*Documents
	if p.Documents != nil {
		all = append(all, p.Documents)
	}
	for i := range p.Further {
		all = append(all, &p.Further[i])
	}
	return all
}

// Personalised reports whether anything of the product is of a stream, so that a set that is lost is a remake.
func (p *Product) Personalised() bool {
	return len(p.documents()) > 0 || p.Envelope.Stream != "" || slices.ContainsFunc(p.Inserts, func(n Insert) bool { return n.Stream != "" })
}

// Insert is one kind of piece that goes into every set of a product, or into a share.
type Insert struct {
	Name           string
	Height, Length float64 // folded, in mm; 0 if not known
	Thickness      float64 // folded, in mm; 0 if not known
	Material       float64 // factor on the faults of its feeder; 1 for the material they were measured with
	Share          float64 // of the sets that get it, in (0, 1]
	Only           string  // the attribute of the sets that get it; "" if it is for all sets
	Stream         string  // if it is personalised, else ""
	Feeder         string  // the feeder that must take it; "" for any that can
}
