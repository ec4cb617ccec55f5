package lines

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

type choiceDocument struct {
	Format int `json:"netrate_strategy_json"`
	page.LineDocument
	*study.StrategiesAnswer
}

func (c *choice) Document() any {
	return choiceDocument{page.JSONVersion, page.DocumentOf(&c.Subject, c.own().Study, c.finding()), c.StrategiesAnswer}
}
