package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/plots"
)

// A page that is sent has no folders of the machine it was made on; rates and shares stay as they are.
func TestNoFolders(t *testing.T) {
	for text, want := range map[string]string{
		"netrate run /home/jo/mail/line.yaml --seed 1":               "netrate run line.yaml --seed 1",
		"netrate run ../lines/line.yaml":                             "netrate run line.yaml",
		"netrate run ./line.yaml":                                    "netrate run line.yaml",
		"netrate run lines/a.yaml lines/b.yaml":                      "netrate run a.yaml b.yaml",
		`netrate run C:\jobs\line.yaml`:                              "netrate run line.yaml",
		"netrate fit '/tmp/x/stops.csv' --counts=/tmp/x/counts.csv":  "netrate fit 'stops.csv' --counts=counts.csv",
		"netrate sweep a.yaml --vary line.speed=12000/h:18000/h:4":   "netrate sweep a.yaml --vary line.speed=12000/h:18000/h:4",
		"netrate run a.yaml --set stations.letter.misfeed=1/5000":    "netrate run a.yaml --set stations.letter.misfeed=1/5000",
		"Rates from /data/shop/stops.csv":                            "Rates from stops.csv",
		"netrate compare --example gate-worth --max-defective 2/1e6": "netrate compare --example gate-worth --max-defective 2/1e6",
	} {
		assert.Equal(t, want, withoutFolders(text))
	}
}

// Nor has a command that stands in a section.
func TestNoFoldersInSections(t *testing.T) {
	r := &Report{Page: &plots.Report{}}
	r.Add(plots.Section{Text: "It is judged by\n\nnetrate accept /home/jo/tender.yaml --hours 64"})
	assert.Equal(t, "It is judged by\n\nnetrate accept tender.yaml --hours 64", r.Page.Sections[0].Text)
}
