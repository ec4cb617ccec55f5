package present

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/formats"
	"netrate/model/study"
	"netrate/plots"
)

// envelopesCaption says what the table of envelopes rests on.
const envelopesCaption = "By size and the thickness of the set, for sets of up to 3.5 oz: what a set weighs is not in the file. " + formats.PostalNote

// envelopesTable returns the envelopes of the jobs.
func envelopesTable(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Envelopes", Caption: envelopesCaption,
		Columns: []plots.Column{
			{Title: "Envelope", Brief: "Envelope"},
			{Title: "Size", Unit: "mm", Brief: "mm"},
			{Title: "Size", Unit: "in", Brief: "inches"},
			{Title: "Set", Unit: "mm thick", Brief: "set thick, mm"},
			{Title: "As US mail", Brief: "as US mail"},
			{Title: "Source"},
			{Title: "Jobs"},
		},
	}
	for i := range a.Envelopes {
		e := &a.Envelopes[i]
		mail, sources := asMail(e)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(e.Name), page.Words(millimetres(e)), page.Words(inches(e)), page.Words(thickness(e)),
			page.Words(mail), page.Words(sources), page.Words(say.List(e.Jobs)),
		})
	}
	return t
}

// asMail returns what the piece is and, if it is no letter, why; and the sources of that.
func asMail(e *study.CoverageEnvelope) (mail, sources string) {
	var why, from []string
	for _, r := range e.USReasons {
		if at := strings.LastIndex(r, ": "); at > 0 {
			if source := r[at+2:]; !slices.Contains(from, source) {
				from = append(from, source)
			}
			r = r[:at]
		}
		why = append(why, r)
	}
	mail = e.USMail
	if len(why) > 0 {
		mail += ": " + strings.Join(why, "; ")
	}
	return mail, strings.Join(from, "; ")
}

func millimetres(e *study.CoverageEnvelope) string {
	return say.Decimals(float64(e.Height), 1) + " × " + say.Decimals(float64(e.Length), 1)
}

func inches(e *study.CoverageEnvelope) string {
	const inch = 25.4 // mm, exact
	return say.Decimals(float64(e.Height)/inch, 3) + " × " + say.Decimals(float64(e.Length)/inch, 3)
}

// thickness returns how thick the sets of the jobs are.
func thickness(e *study.CoverageEnvelope) string {
	text := say.Decimals(float64(e.Least), 2)
	if to := say.Decimals(float64(e.Most), 2); to != text {
		text += " to " + to
	}
	switch {
	case e.AllKnown:
		return text
	case e.Most == 0:
		return "not known"
	}
	return text + " or more"
}
