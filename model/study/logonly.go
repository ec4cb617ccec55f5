package study

import (
	"slices"
	"strconv"
	"time"
)

// LogOnly says which rows of a log are taken: those of a job, at a speed, or both.
type LogOnly struct {
	Job    string `json:"job,omitempty"`         // "" of any job
	Speed  Number `json:"speed_per_h,omitempty"` // cycles per hour; 0 at any speed
	Stops  int    `json:"stops"`                 // taken
	Counts int    `json:"counts"`
}

func (o *LogOnly) takes(job string, speed float64) bool {
	return (o.Job == "" || o.Job == job) && (o.Speed == 0 || float64(o.Speed) == speed)
}

// OnlyAt reports whether only rows at this speed are taken.
func (l *Log) OnlyAt(speed float64) bool {
	return l.Only != nil && l.Only.Speed != 0 && float64(l.Only.Speed) == speed
}

// Take takes only the rows of a job, unless it is "", and at a speed, unless that is 0. The
// stops of others are set aside, as the line ran between them too; counts of others stay,
// without feeds, as they say which days there are. Of periods that hold other works too, both are others. An error is a [LogLacks] or a [LogError].
func (l *Log) Take(job string, speed float64) error {
	if job == "" && speed == 0 {
		return nil
	}
	only := &LogOnly{Job: job, Speed: Number(speed)}
	if err := l.lacks(only); err != nil {
		return err
	}
	l.Only = only
	for _, s := range l.Stations {
		kind := l.KindOf(s)
		s.taken = &kind
		var taken []LogStop
		for _, stop := range s.Stops {
			if only.takes(stop.Job, stop.Speed) && !stop.Mixed {
				taken = append(taken, stop)
			} else {
				l.Aside = append(l.Aside, stop)
			}
		}
		s.Stops, s.Feeds = taken, 0
		only.Stops += len(taken)
		for i := range s.Counts {
			c := &s.Counts[i]
			if !only.takes(c.Job, c.Speed) || c.Mixed {
				c.Feeds, c.Good = 0, 0
				continue
			}
			s.Feeds += c.Feeds
			only.Counts++
		}
	}
	l.Stations = slices.DeleteFunc(l.Stations, func(s *LogStation) bool { return len(s.Stops) == 0 && s.Feeds == 0 })
	if only.Counts == 0 {
		return LogLacks{File: l.CountFile.Name, InCounts: true, Job: job, Speed: speed}
	}
	return nil
}

// lacks returns what is wanted that a part of the log does not have.
func (l *Log) lacks(only *LogOnly) error {
	var stops, counts logMarks
	for _, s := range l.Stations {
		for _, stop := range s.Stops {
			stops.add(stop.Job, stop.Speed)
		}
		for _, c := range s.Counts {
			counts.add(c.Job, c.Speed)
		}
	}
	if err := stops.lack(only, l.StopFile, false); err != nil {
		return err
	}
	return counts.lack(only, l.CountFile, true)
}

// logMarks are the jobs and speeds of a part of a log, each once, as they were met.
type logMarks struct {
	jobs   []string
	speeds []float64
}

func (m *logMarks) add(job string, speed float64) {
	if job != "" && !slices.Contains(m.jobs, job) {
		m.jobs = append(m.jobs, job)
	}
	if speed != 0 && !slices.Contains(m.speeds, speed) {
		m.speeds = append(m.speeds, speed)
	}
}

// lack returns what is wanted and not there, nil if all is.
func (m *logMarks) lack(only *LogOnly, file LogFile, inCounts bool) error {
	without := func(column string) bool { return len(file.Columns) > 0 && !slices.Contains(file.Columns, column) }
	e := LogLacks{File: file.Name, InCounts: inCounts}
	switch speed := float64(only.Speed); {
	case only.Job != "" && without("job") && m.jobs == nil: // which stops may have of their hour
		e.Column = "job"
	case speed != 0 && without("speed") && m.speeds == nil:
		e.Column = "speed"
	case only.Job != "" && !slices.Contains(m.jobs, only.Job):
		e.Job, e.Jobs = only.Job, m.jobs
	case speed != 0 && !slices.Contains(m.speeds, speed):
		e.Speed, e.Speeds = speed, m.speeds
	default:
		return nil
	}
	return e
}

// LogLacks is the error of a log that does not have what is to be taken of it.
type LogLacks struct {
	File     string
	InCounts bool   // the file is that of the counts
	Column   string // job or speed, if the file has no such column; else:
	Job      string // no row is of this job
	Speed    float64
	Jobs     []string // that the file has
	Speeds   []float64
}

// Error returns what is not there.
func (e LogLacks) Error() string {
	switch {
	case e.Column != "":
		return e.File + " has no column of " + e.Column + "s"
	case e.Job != "" && e.Speed != 0:
		return e.File + " has no row of " + e.Job + " at " + LogSpeed(e.Speed)
	case e.Job != "":
		return e.File + " has no row of the job " + strconv.Quote(e.Job)
	}
	return e.File + " has no row at " + LogSpeed(e.Speed)
}

// LogSpeed returns a speed as a log has it, such as 12000/h; "" for 0.
func LogSpeed(speed float64) string {
	if speed == 0 {
		return ""
	}
	return strconv.FormatFloat(speed, 'f', -1, 64) + "/h"
}

// OverMidnight returns on how many nights the line was running at midnight, as far as its stops tell:
// one before and one after it lie within two hours. It is 0 where the counts give moments, which
// say themselves when a period begins.
func (l *Log) OverMidnight() (nights int) {
	late, early := map[string]bool{}, map[string]bool{}
	for _, s := range l.Stations {
		for i := range s.Counts {
			if _, dated := s.Counts[i].begins(0); !dated || s.Counts[i].Day.IsZero() {
				return 0
			}
		}
		for _, stop := range s.Stops {
			if stop.Untimed {
				continue
			}
			switch stop.When.Hour() {
			case 23:
				late[stop.When.Format(time.DateOnly)] = true
			case 0:
				early[stop.When.AddDate(0, 0, -1).Format(time.DateOnly)] = true
			}
		}
	}
	for day := range late {
		if early[day] {
			nights++
		}
	}
	return nights
}

// LogError is the error of a log that a question cannot be asked of.
type LogError struct{ Text string }

// Error returns what is wrong.
func (e LogError) Error() string { return e.Text }
