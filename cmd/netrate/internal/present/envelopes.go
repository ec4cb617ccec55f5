package present

import (
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/formats"
	"netrate/model/study"
	"netrate/plots"
)

// envelopesCaption says what the table of envelopes rests on.
const envelopesCaption = "By size and the thickness of the set, for sets of up to 3.5 oz: what a set weighs is not in the file. " + formats.PostalNote

// envelopesText returns the envelopes as a table on the screen.
func envelopesText(a *study.CoverageAnswer) string {
	rows := [][]string{{"Envelope", "mm", "inches", "set thick, mm", "as US mail"}}
	for i := range a.Envelopes {
		e := &a.Envelopes[i]
		rows = append(rows, []string{e.Name, millimetres(e), inches(e), thickness(e), asMail(e)})
	}
	return say.Grid(rows, []int{12, 13, 15, 13, CoverageWidth - 61}) +
		say.Wrapped(envelopesCaption, CoverageWidth)
}

// envelopesTable returns the envelopes of the jobs.
func envelopesTable(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Envelopes", Caption: envelopesCaption,
		Columns: []plots.Column{{Title: "Envelope"}, {Title: "Size", Unit: "mm"}, {Title: "Size", Unit: "in"}, {Title: "Set", Unit: "mm thick"}, {Title: "As US mail"}, {Title: "Why"}, {Title: "Jobs"}},
	}
	for i := range a.Envelopes {
		e := &a.Envelopes[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(e.Name), page.Words(millimetres(e)), page.Words(inches(e)), page.Words(thickness(e)),
			page.Words(e.USMail), page.Words(strings.Join(e.USReasons, "; ")), page.Words(say.List(e.Jobs)),
		})
	}
	return t
}

// asMail returns what the piece is and, if it is no letter, why, without the sources.
func asMail(e *study.CoverageEnvelope) string {
	var reasons []string
	for _, r := range e.USReasons {
		if at := strings.LastIndex(r, ": "); at > 0 {
			r = r[:at]
		}
		reasons = append(reasons, r)
	}
	if len(reasons) == 0 {
		return e.USMail
	}
	return e.USMail + ": " + strings.Join(reasons, "; ")
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
