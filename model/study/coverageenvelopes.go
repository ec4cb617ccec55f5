package study

import (
	"slices"

	"netrate/model/formats"
	"netrate/model/setup"
)

// CoverageEnvelope is an envelope of some jobs, and what it is as mail of the United States by
// size and thickness, for sets of up to 3.5 oz: what a set weighs is not known.
type CoverageEnvelope struct {
	Name      string   `json:"name"`
	Height    Number   `json:"height_mm"`
	Length    Number   `json:"length_mm"`
	Least     Number   `json:"set_least_mm"` // thickness of what is in it
	Most      Number   `json:"set_most_mm"`
	AllKnown  bool     `json:"set_thickness_known"` // of all that is in it
	USMail    string   `json:"us_mail"`
	USReasons []string `json:"us_mail_reasons,omitempty"`
	Jobs      []string `json:"jobs"`

	envelope setup.Envelope
}

// envelopeOunces is what a set is taken to weigh. It is a letter's weight.
const envelopeOunces = 1

// envelopeThickness is what a set is taken for where nothing is known of its thickness: a few
// sheets, in mm. No limit of letters or flats is near.
const envelopeThickness = 0.5

// coverageEnvelopes returns the envelopes of the jobs, each once for what it is as mail.
func coverageEnvelopes(jobs []*setup.Product) []CoverageEnvelope {
	var all []CoverageEnvelope
	for _, p := range jobs {
		thickness, known := p.Thickness()
		e := p.Envelope
		e.Stream = "" // which is no matter of the post
		thick := thickness
		if thick == 0 {
			thick = envelopeThickness
		}
		class := formats.USPostal(e.Height, e.Length, thick, envelopeOunces)
		at := slices.IndexFunc(all, func(m CoverageEnvelope) bool { return m.envelope == e && m.USMail == class.Name })
		if at < 0 {
			at = len(all)
			all = append(all, CoverageEnvelope{
				e.Name, Number(e.Height), Number(e.Length), Number(thickness), Number(thickness), true, class.Name, class.Reasons, nil, e,
			})
		}
		m := &all[at]
		m.Least, m.Most = min(m.Least, Number(thickness)), max(m.Most, Number(thickness))
		m.AllKnown = m.AllKnown && known
		m.Jobs = append(m.Jobs, p.Name)
	}
	return all
}
