package lines

import (
	"io"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// compareDocument is what a comparison came to.
type compareDocument struct {
	Format    int                 `json:"netrate_json"`
	Version   string              `json:"version"`
	Scenarios []page.ScenarioJSON `json:"scenarios"`
	*study.ComparisonAnswer
	Money *study.WorthAnswer `json:"money,omitempty"`
}

func writeCompareJSON(to io.Writer, version string, c *contest) error {
	doc := compareDocument{
		Format: page.JSONVersion, Version: version, ComparisonAnswer: c.ComparisonAnswer, Money: c.worth,
	}
	for _, o := range c.origins {
		doc.Scenarios = append(doc.Scenarios, page.ScenarioOf(o.Scenario, o.Text))
	}
	return page.WriteDocument(to, doc)
}
