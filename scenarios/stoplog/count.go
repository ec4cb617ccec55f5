package stoplog

import (
	"io"

	"netrate/model/study"
)

// Count is one row of the counts beside a stop log.
type Count = study.LogCount

// ReadCounts reads a file of counts and calls each for every one of them. All else is as
// with [Read].
func ReadCounts(r io.Reader, m Mapping, each func(Count) error) (Report, error) {
	return read(r, m, countKinds, func(f *reading) error {
		if f.wide != nil {
			all := f.wideCounts(f.countOf(Count{Line: f.line}))
			for i := 0; i < len(all) && !f.bad; i++ {
				if err := each(all[i]); err != nil {
					return err
				}
			}
			return nil
		}
		c := f.count()
		if f.bad {
			return nil
		}
		return each(c)
	})
}

// count returns the count in the row at hand and notes what is wrong with it.
func (f *reading) count() Count {
	c := Count{Line: f.line, Station: f.name(Station, true)}
	in := f.field(Feeds)
	var why string
	c.Feeds, why = f.counted(in.text)
	f.want(Feeds, in, why)
	return f.countOf(c)
}

// countOf returns a count with what the row at hand says of its work.
func (f *reading) countOf(c Count) Count {
	c.Job, c.Period, c.Shift, c.Speed = f.name(Job, false), f.period(), f.name(Shift, false), f.speed()
	if in := f.field(Day); len(in.text) > 0 {
		var why string
		c.Day, why = f.moment(in.text)
		f.want(Day, in, why)
	}
	return c
}
