package study

import (
	"errors"
	"math"

	"netrate/model"
	"netrate/model/runs"
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
	one := runs.Study{Line: s.Line, Shifts: s.Shifts[n : n+1], Total: o}
	for _, c := range one.StopCosts() {
		a.Causes = append(a.Causes, MedianShiftCause{c.Name, c.Count, Number(c.Total())})
	}
	return a, nil
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
