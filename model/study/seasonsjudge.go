package study

import (
	"math"
	"slices"
)

// judge chooses among the configurations.
func (a *SeasonsAnswer) judge(service float64) {
	for i := range a.Lines {
		if a.Lines[i].InTime.Share > a.Lines[a.Other].InTime.Share {
			a.Other = i
		}
	}
	for i := range a.Lines {
		if a.Lines[i].InTime.Share == a.Lines[a.Other].InTime.Share {
			a.MostOften = append(a.MostOften, i)
		}
	}
	if a.Lines[a.Other].InTime.Share == 0 {
		a.Other = a.leastOvertime()
	}
	if service <= 0 {
		return
	}
	s := &SeasonsService{Asked: Number(service), Smallest: -1, Cheapest: -1}
	a.Service = s
	for i := range a.Lines {
		x := &a.Lines[i]
		if x.InTime.Share < s.Asked {
			continue
		}
		if s.Smallest < 0 || x.Operators < a.Lines[s.Smallest].Operators {
			s.Smallest = Index(i)
		}
	}
	if s.Smallest >= 0 {
		a.Other, s.Name, s.Cheapest = int(s.Smallest), a.Lines[s.Smallest].Name, s.Smallest
	}
	for i := range a.Lines {
		x := &a.Lines[i]
		if x.InTime.Share >= s.Asked && x.Paid < a.Lines[s.Cheapest].Paid {
			s.Cheapest = Index(i)
		}
		larger := s.Smallest >= 0 && x.Operators > a.Lines[s.Smallest].Operators
		if !larger && x.InTime.Low < s.Asked && x.InTime.High > s.Asked {
			s.Open = append(s.Open, i)
		}
	}
}

// leastOvertime returns the configuration that needs least overtime in the mean, the first of equals.
func (a *SeasonsAnswer) leastOvertime() (least int) {
	for i := range a.Lines {
		if a.Lines[i].Overtime.Mean < a.Lines[least].Overtime.Mean {
			least = i
		}
	}
	return least
}

// extremes finds the weeks and the season that stand for all.
func (x *SeasonsLine) extremes() {
	x.Fullest = -1
	most := Number(0)
	for i := range x.Weeks {
		a, b := &x.Weeks[i], &x.Weeks[x.Tightest]
		if a.InTime < b.InTime || a.InTime == b.InTime && a.Work.Mean > b.Work.Mean {
			x.Tightest = i
		}
		if a.Backlog.P50 > most {
			most, x.Fullest = a.Backlog.P50, Index(i)
		}
	}
	work := x.Works()
	middle := work.Quantile(0.5)
	for r := range work {
		if math.Abs(work[r]-middle) < math.Abs(work[x.Median]-middle) {
			x.Median = r
		}
	}
	for _, j := range x.Jobs {
		if j.Change.Mean > 0 {
			x.Changing += j.Change.Mean
			x.Changeovers++
		}
	}
	weeks := Number(len(x.Weeks))
	x.Changing, x.Changeovers = x.Changing/weeks, x.Changeovers/weeks
}

// Latest returns the jobs that are in time least often, no more than most of them, in the order
// in which they are done, and the one of all that is in time least often.
func (x *SeasonsLine) Latest(most int) (jobs []int, worst int) {
	for n := range x.Jobs {
		jobs = append(jobs, n)
	}
	slices.SortStableFunc(jobs, func(a, b int) int { return int(1e6 * (x.Jobs[a].InTime - x.Jobs[b].InTime)) })
	worst = jobs[0]
	jobs = jobs[:min(len(jobs), most)]
	slices.Sort(jobs)
	return jobs, worst
}
