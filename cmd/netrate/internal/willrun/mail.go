package willrun

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/formats"
)

// mailpiece is an envelope of some jobs, and what it is as mail of the United States.
type mailpiece struct {
	envelope    model.Envelope
	least, most float64 // thickness of what is in it, mm
	known       bool    // all that is in it has a thickness that is known
	class       formats.Class
	jobs        []string
}

// assumedOunces is what a set is taken to weigh: files do not say. It is a letter's weight.
const assumedOunces = 1

// assumedThickness is what a set is taken for where nothing is known of its thickness: a
// few sheets, in mm. No limit of letters or flats is near.
const assumedThickness = 0.5

// mailpieces returns the envelopes of the jobs, each once for what it is as mail.
func mailpieces(jobs []*model.Product) []mailpiece {
	var all []mailpiece
	for _, p := range jobs {
		thickness, known := p.Thickness()
		e := p.Envelope
		e.Stream = "" // which is no matter of the post
		thick := thickness
		if thick == 0 {
			thick = assumedThickness
		}
		class := formats.USPostal(e.Height, e.Length, thick, assumedOunces)
		at := slices.IndexFunc(all, func(m mailpiece) bool { return m.envelope == e && m.class.Name == class.Name })
		if at < 0 {
			at = len(all)
			all = append(all, mailpiece{e, thickness, thickness, true, class, nil})
		}
		m := &all[at]
		m.least, m.most = min(m.least, thickness), max(m.most, thickness)
		m.known = m.known && known
		m.jobs = append(m.jobs, p.Name)
	}
	return all
}

// mailCaption says what the table of envelopes rests on.
const mailCaption = "By size and the thickness of the set, for sets of up to 3.5 oz: what a set weighs is not in the file. " + formats.PostalNote

// mailText returns the envelopes as a table.
func mailText(pieces []mailpiece) string {
	rows := [][]string{{"Envelope", "mm", "inches", "set thick, mm", "as US mail"}}
	for _, m := range pieces {
		rows = append(rows, []string{m.envelope.Name, m.millimetres(), m.inches(), m.thickness(), m.asMail()})
	}
	return say.Grid(rows, []int{12, 13, 15, 13, rulesWidth - 61}) +
		say.Wrapped(mailCaption, rulesWidth)
}

// asMail returns what the piece is and, if it is no letter, why, without the sources.
func (m mailpiece) asMail() string {
	var reasons []string
	for _, r := range m.class.Reasons {
		if at := strings.LastIndex(r, ": "); at > 0 {
			r = r[:at]
		}
		reasons = append(reasons, r)
	}
	if len(reasons) == 0 {
		return m.class.Name
	}
	return m.class.Name + ": " + strings.Join(reasons, "; ")
}

func (m mailpiece) millimetres() string {
	return say.Decimals(m.envelope.Height, 1) + " × " + say.Decimals(m.envelope.Length, 1)
}

func (m mailpiece) inches() string {
	const inch = 25.4 // mm, exact
	return say.Decimals(m.envelope.Height/inch, 3) + " × " + say.Decimals(m.envelope.Length/inch, 3)
}

// thickness returns how thick the sets of the jobs are.
func (m mailpiece) thickness() string {
	text := say.Decimals(m.least, 2)
	if to := say.Decimals(m.most, 2); to != text {
		text += " to " + to
	}
	switch {
	case m.known:
		return text
	case m.most == 0:
		return "not known"
	}
	return text + " or more"
}
