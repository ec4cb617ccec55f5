package study

import (
	"math"
	"slices"

	"netrate/model/seasons"
)

// SeasonsRow is how one week ended in one season, simulated in one configuration.
type SeasonsRow struct {
	Line        string // the configuration
	Replication int    // from 0
	Week        int    // from 1
	Name        string // of the week
	Sets        int64
	Work        float64  // hours
	Changeover  float64  // hours of it between jobs
	Overtime    float64  // hours
	Backlog     float64  // sets left at its end without overtime
	Cost        *float64 // of its work, overtime with it; nil if the file has no costs
}

// Rows returns the weeks of one season.
func (x *SeasonsLine) Rows(replication int) []SeasonsRow {
	rows := seasonsRows(x.Name, x.Study, replication)
	for i := range rows {
		if x.Costs != nil {
			rows[i].Cost = &x.Costs.weeks[i][replication]
		}
	}
	return rows
}

// rows returns the weeks of one season of a configuration that is run.
func (q *Seasons) rows(configuration int, s *seasons.SeasonStudy, replication int) []SeasonsRow {
	c := &q.Configurations[configuration]
	rows := seasonsRows(c.Name, s, replication)
	if c.Costs == nil {
		if slices.ContainsFunc(q.Configurations, func(c SeasonsConfiguration) bool { return c.Costs != nil }) {
			for i := range rows {
				rows[i].Cost = new(math.NaN())
			}
		}
		return rows
	}
	paid := c.Season.OperatorHoursOf()
	for i := range rows {
		spent := q.spent(c, s, paid, i, replication)
		rows[i].Cost = new(spent.Sum())
	}
	return rows
}

func seasonsRows(line string, s *seasons.SeasonStudy, replication int) []SeasonsRow {
	rows := make([]SeasonsRow, len(s.Weeks))
	for i := range s.Weeks {
		given, ended := &s.Season.Weeks[i], &s.Weeks[i]
		rows[i] = SeasonsRow{
			Line: line, Replication: replication, Week: i + 1, Name: given.Name,
			Work: ended.Work[replication], Overtime: ended.Overtime[replication], Backlog: ended.Backlog[replication],
		}
		for _, sets := range given.Sets {
			rows[i].Sets += sets
		}
	}
	for _, j := range s.Jobs {
		rows[j.Week].Changeover += j.Change[replication]
	}
	return rows
}
