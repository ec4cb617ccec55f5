package study

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/trace"
)

// MedianShift asks how the shift went whose net rate is nearest to the median: when the line
// stood, for what, and what was waited for. The shift is run once more, to look on.
type MedianShift struct {
	Study *runs.Study // of shifts, one at least
}

// MedianShiftAnswer is one shift from its start to its end.
type MedianShiftAnswer struct {
	Seed        uint64             `json:"seed"`
	Replication int                `json:"replication"` // from 0
	NetRate     Number             `json:"net_rate_per_h"`
	Length      Number             `json:"length_s"`
	Stops       int64              `json:"stops"`
	Stood       Number             `json:"stood_s"`
	Stretches   []MedianShiftStood `json:"stretches"` // in which the line stood, in order
	Causes      []MedianShiftCause `json:"causes"`    // the costliest first
	Tasks       []MedianShiftTask  `json:"tasks"`     // of the crew, in the order of the calls
	Stocks      []MedianShiftStock `json:"stocks"`    // those that can be used up or filled, along the track

	// Hour is when the hour begins whose standing time is the median of those of its whole hours: a
	// typical one, to be looked at closely; 0 of a shift of less than two.
	Hour Number `json:"typical_hour_from_s"`
}

// MedianShiftTask is one piece of work for the crew.
type MedianShiftTask struct {
	Station  string `json:"station"`
	Repair   bool   `json:"repair"`   // for a technician
	Operator int    `json:"operator"` // who did it, from 1; 0 if nobody set off for it
	Called   Number `json:"called_s"`
	From     Number `json:"from_s"`    // when somebody set off
	Arrives  Number `json:"arrives_s"` // and was there
	To       Number `json:"to_s"`      // when it was done, or the shift ended
}

// MedianShiftStock is what was left in a stock of a station: pieces, or free places of what fills.
type MedianShiftStock struct {
	Station  string             `json:"station"`
	UsedUp   string             `json:"used_up"` // what it is called when nothing is left
	Capacity int64              `json:"capacity"`
	Warn     int64              `json:"warn"` // the crew is called when this much is left
	Levels   []MedianShiftLevel `json:"levels"`
}

// MedianShiftLevel is what was left at a moment, before something was put in and after.
type MedianShiftLevel struct {
	At     Number `json:"at_s"`
	Before int64  `json:"before"`
	After  int64  `json:"after"`
}

// Emptied returns how often nothing was left.
func (x *MedianShiftStock) Emptied() (n int) {
	for i, l := range x.Levels {
		if l.Before == 0 && (i == 0 || x.Levels[i-1].After > 0) {
			n++
		}
	}
	return n
}

// Least returns the least that was left, as a share of the capacity.
func (x *MedianShiftStock) Least() float64 {
	least := x.Capacity
	for _, l := range x.Levels {
		least = min(least, l.Before)
	}
	return float64(least) / float64(x.Capacity)
}

// MedianShiftStood is a stretch in which the line stood, all of it for one stop.
type MedianShiftStood struct {
	From    Number `json:"from_s"`
	To      Number `json:"to_s"`
	Station string `json:"station"`
	Cause   string `json:"cause"`
	Phase   string `json:"phase"` // what is waited for: waiting (for an operator), working, restarting or starved
}

// MedianShiftCause is what one cause of stops at one station came to.
type MedianShiftCause struct {
	Name  string `json:"name"` // station and cause
	Stops int64  `json:"stops"`
	Stood Number `json:"stood_s"`
}

// Name returns the station and the cause.
func (x *MedianShiftStood) Name() string { return x.Station + ", " + x.Cause }

// Ask returns the shift. A job is none: that is an error.
func (q MedianShift) Ask() (*MedianShiftAnswer, error) {
	if q.Study == nil || len(q.Study.Shifts) == 0 {
		return nil, errors.New("of no shifts none is the median")
	}
	s, n := q.Study, medianShift(q.Study)
	running, err := model.New(s.LineOf(n))
	if err != nil {
		return nil, err
	}
	var o model.Outcome
	stood, _, err := running.Record(s.Plan.Seed, n, nil, &o)
	if err != nil {
		return nil, err
	}
	total := o.Stopped()
	a := &MedianShiftAnswer{
		Seed: s.Plan.Seed, Replication: n, NetRate: Number(o.NetRate()), Length: Number(s.Line.Shift),
		Stops: total.Count, Stood: Number(total.Total()),
	}
	for _, x := range stood {
		a.Stretches = append(a.Stretches, MedianShiftStood{Number(x.From), Number(x.To), x.Station, x.Cause, x.Phase.String()})
	}
	if err := a.traced(s.LineOf(n), s.Plan.Seed, n); err != nil {
		return nil, err
	}
	a.Hour = a.typicalHour()
	one := runs.Study{Line: s.Line, Shifts: s.Shifts[n : n+1], Total: o}
	for _, c := range one.StopCosts() {
		a.Causes = append(a.Causes, MedianShiftCause{c.Name, c.Count, Number(c.Total())})
	}
	return a, nil
}

// traced takes down what the crew did, and what was left in the stocks.
func (a *MedianShiftAnswer) traced(l *model.Line, seed uint64, n int) error {
	shift, err := trace.Of(l, seed, n)
	if err != nil {
		return err
	}
	for i := range shift.Tasks {
		t := &shift.Tasks[i]
		x := MedianShiftTask{Station: l.Stations[t.Station].Where().Name, Repair: t.Work == model.Repair, Called: Number(t.Called)}
		if t.Taken {
			x.Operator, x.From, x.Arrives, x.To = t.Operator+1, Number(t.From), Number(t.Arrives), Number(t.To)
		}
		a.Tasks = append(a.Tasks, x)
	}
	a.Stocks = stocksOf(shift)
	return nil
}

// stocksOf returns what was left in the stocks of a shift.
func stocksOf(s *trace.Shift) (all []MedianShiftStock) {
	for i, station := range s.Line.Stations {
		own := station.Stocked()
		if own.Stock == nil || own.Capacity == 0 {
			continue
		}
		x := MedianShiftStock{Station: s.Name(i), UsedUp: own.UsedUp, Capacity: own.Capacity, Warn: own.Warn}
		for _, l := range s.Levels {
			if l.Station == i {
				x.Levels = append(x.Levels, MedianShiftLevel{Number(l.At), l.Left - l.Filled, l.Left})
			}
		}
		if len(x.Levels) == 0 || x.Levels[0].At > 0 { // it begins full, of which nothing is told
			x.Levels = slices.Insert(x.Levels, 0, MedianShiftLevel{0, own.Capacity, own.Capacity})
		}
		all = append(all, x)
	}
	return all
}

// typicalHour returns when the hour begins that is in the middle of all whole hours by how long the
// line stands in it.
func (a *MedianShiftAnswer) typicalHour() Number {
	const hour = 3600
	stood := make([]float64, int(float64(a.Length)/hour))
	if len(stood) < 2 {
		return 0
	}
	for _, x := range a.Stretches {
		for h := range stood {
			from, to := max(float64(x.From), float64(h*hour)), min(float64(x.To), float64((h+1)*hour))
			stood[h] += max(0, to-from)
		}
	}
	hours := make([]int, len(stood))
	for h := range hours {
		hours[h] = h
	}
	slices.SortStableFunc(hours, func(x, y int) int { return cmp.Compare(stood[x], stood[y]) })
	return Number(hours[len(hours)/2] * hour)
}

// medianShift returns the number of the shift whose net rate is nearest to the median.
func medianShift(s *runs.Study) int {
	rates := s.NetRates()
	median, nearest := rates.Quantile(0.5), 0
	for i, rate := range rates {
		if math.Abs(rate-median) < math.Abs(rates[nearest]-median) {
			nearest = i
		}
	}
	return nearest
}
