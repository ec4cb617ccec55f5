package study

import "netrate/model/seasons"

// SeasonsRow is how one week ended in one season, simulated in one configuration.
type SeasonsRow struct {
	Line        string // the configuration
	Replication int    // from 0
	Week        int    // from 1
	Name        string // of the week
	Sets        int64
	Work        float64 // hours
	Changeover  float64 // hours of it between jobs
	Overtime    float64 // hours
	Backlog     float64 // sets left at its end without overtime
}

// Rows returns the weeks of one season.
func (x *SeasonsLine) Rows(replication int) []SeasonsRow {
	return seasonsRows(x.Name, x.Study, replication)
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
