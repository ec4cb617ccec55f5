package learn

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios/stoplog"
)

// only says which rows of both files are taken: those of a job, at a speed, or all.
type only struct {
	speed speedFlag // cycles per hour; 0: at any speed
	job   string    // "": of any job
}

// at reports whether only rows at this speed are taken.
func (o only) at(speed float64) bool { return o.speed != 0 && float64(o.speed) == speed }

func (o only) everything() bool { return o.speed == 0 && o.job == "" }

func (o only) takes(job string, speed float64) bool {
	return (o.job == "" || o.job == job) && (o.speed == 0 || float64(o.speed) == speed)
}

// words returns which rows are taken, such as " of spring letter at 12,000/h".
func (o only) words() string {
	text := ""
	if o.job != "" {
		text = " of " + plainLine(o.job)
	}
	if o.speed != 0 {
		text += " at " + say.Exact(float64(o.speed)) + "/h"
	}
	return text
}

// narrow takes only the rows that are wanted. The stops of others are set aside, as the line
// ran between them too; counts of others stay, without feeds, as they say which days there are.
func (r *records) narrow() error {
	if r.everything() {
		return nil
	}
	if err := r.both(); err != nil {
		return err
	}
	for _, s := range r.stations {
		kind := r.kindOf(s)
		s.kind = &kind
		var taken []stoplog.Stop
		for _, stop := range s.stops {
			if r.takes(stop.Job, stop.Speed) {
				taken = append(taken, stop)
			} else {
				r.aside = append(r.aside, stop)
			}
		}
		s.stops, s.feeds = taken, 0
		r.takenStops += len(taken)
		for i := range s.counts {
			c := &s.counts[i]
			if !r.takes(c.Job, c.Speed) {
				c.Feeds = 0
				continue
			}
			s.feeds += c.Feeds
			r.takenCounts++
		}
	}
	r.stations = slices.DeleteFunc(r.stations, func(s *stationRecord) bool { return len(s.stops) == 0 && s.feeds == 0 })
	if r.takenCounts == 0 {
		return desk.Wrong("%s has no row%s", desk.ShownFile(r.countFile), r.words())
	}
	return nil
}

// both says what is wanted that one of the files does not have.
func (r *records) both() error {
	var inLog, inCounts marks
	for _, s := range r.stations {
		for _, stop := range s.stops {
			inLog.add(stop.Job, stop.Speed)
		}
		for _, c := range s.counts {
			inCounts.add(c.Job, c.Speed)
		}
	}
	if err := r.among(inLog, desk.ShownFile(r.logFile), "column", r.log.Layout); err != nil {
		return err
	}
	return r.among(inCounts, desk.ShownFile(r.countFile), "counts-column", r.counts.Layout)
}

// marks are the jobs and speeds of a file, each once, as they were met.
type marks struct {
	jobs   []string
	speeds []float64
}

func (m *marks) add(job string, speed float64) {
	if job != "" && !slices.Contains(m.jobs, job) {
		m.jobs = append(m.jobs, job)
	}
	if speed != 0 && !slices.Contains(m.speeds, speed) {
		m.speeds = append(m.speeds, speed)
	}
}

// among says what is wanted that a file does not have.
func (o only) among(m marks, file, flag string, l stoplog.Layout) error {
	has := func(c stoplog.Column) bool {
		return slices.ContainsFunc(l.Columns, func(r stoplog.Reading) bool { return r.Column == c })
	}
	switch speed := float64(o.speed); {
	case o.job != "" && !has(stoplog.Job):
		return desk.Wrong("--job is about both files, and %s has no column of jobs: --%s job=HEADING says which it is", file, flag)
	case o.speed != 0 && !has(stoplog.Speed):
		return desk.Wrong("--speed is about both files, and %s has no column of speeds: --%s speed=HEADING says which it is", file, flag)
	case o.job != "" && !slices.Contains(m.jobs, o.job):
		return desk.Wrong("%s has no row of the job %q%s", file, o.job, nearestJob(o.job, m.jobs))
	case o.speed != 0 && !slices.Contains(m.speeds, speed):
		return desk.Wrong("%s has no row at %s%s", file, speedText(speed), nearestSpeed(speed, m.speeds))
	}
	return nil
}

// shownJobs is how many jobs are named if none is near.
const shownJobs = 5

// nearestJob returns a hint at the job that was probably meant, or at some that there are.
func nearestJob(to string, jobs []string) string {
	if near := desk.Meant(to, jobs, ""); near != "" || len(jobs) == 0 {
		return near
	}
	if more := len(jobs) - shownJobs; more > 0 {
		jobs = append(slices.Clone(jobs[:shownJobs]), fmt.Sprintf("%d more", more))
	}
	return ": there are " + say.List(jobs)
}

// nearestSpeed returns a hint at the speed that is nearest, "" if there is none.
func nearestSpeed(to float64, speeds []float64) string {
	if len(speeds) == 0 {
		return ""
	}
	off := func(v float64) float64 { return math.Abs(v - to) }
	return ": did you mean " + speedText(slices.MinFunc(speeds, func(a, b float64) int {
		return cmp.Compare(off(a), off(b))
	})) + "?"
}

// narrowed says how many rows were taken, "" if all were.
func (r *records) narrowed() string {
	if r.everything() {
		return ""
	}
	return fmt.Sprintf("Only rows%s were taken: %s of %s and %s of %s.", r.words(),
		say.Thousands(r.takenStops), say.Plural(r.log.Used, "stop"), say.Thousands(r.takenCounts), say.Plural(r.counts.Used, "count"))
}

// speedFlag is a flag that is a speed, in cycles per hour.
type speedFlag float64

// Set reads a speed such as 12000/h or 200/min; a number alone is per hour, as in the files.
func (s *speedFlag) Set(text string) error {
	number, unit, _ := strings.Cut(text, "/")
	times, known := map[string]float64{"": 1, "h": 1, "min": 60, "s": 3600}[strings.TrimSpace(unit)]
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if x *= times; err != nil || !known || !(x > 0 && x <= 1e6) {
		return errors.New("want a speed such as 12000/h or 200/min")
	}
	*s = speedFlag(x)
	return nil
}

func (s *speedFlag) String() string { return speedText(float64(*s)) }

func (s *speedFlag) Type() string { return "SPEED" }
