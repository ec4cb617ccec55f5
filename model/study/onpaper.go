package study

import "netrate/model"

// OnPaper is the sum on paper of a line: the analytic estimate that stands beside what was
// simulated.
type OnPaper struct {
	Speed      Number           `json:"speed"` // cycles an hour
	Efficiency Number           `json:"efficiency"`
	Good       Number           `json:"good"`
	NetRate    Number           `json:"net_rate"`
	Defective  Number           `json:"defective"` // share of the sets delivered
	Remakes    Number           `json:"remakes"`   // for each set
	Stations   []OnPaperStation `json:"stations"`

	Difference *PaperGap `json:"difference,omitempty"` // of what was simulated at nominal values, from that; not of a job
}

// OnPaperStation is what one station adds to the sum.
type OnPaperStation struct {
	Name  string `json:"name"`
	Reach Number `json:"reach"`
	Stops Number `json:"stops"` // in each set it handles
	Down  Number `json:"down_s"`
	Lost  Number `json:"lost"`
	// Defective for each set it handles, remakes, and seconds in each cycle that a channel is too slow.
	Flawed  Number `json:"flawed"`
	Remakes Number `json:"remakes"`
	Starved Number `json:"channel_too_slow_s"`
	Broken  Number `json:"breakdowns_s,omitempty"` // seconds in each cycle that it is broken down
}

// OnPaperOf returns the sum on paper of a line.
func OnPaperOf(l *model.Line) OnPaper {
	h := l.Analytic()
	doc := OnPaper{
		Speed: Number(h.Speed), Efficiency: Number(h.Efficiency), Good: Number(h.Good), NetRate: Number(h.NetRate),
		Defective: Number(h.Defective), Remakes: Number(h.Remakes),
	}
	for _, t := range h.Terms {
		doc.Stations = append(doc.Stations, OnPaperStation{
			t.Station, Number(t.Reach), Number(t.Stops), Number(t.Down), Number(t.Lost),
			Number(t.Flawed), Number(t.Remakes), Number(t.Starved), Number(t.Broken),
		})
	}
	return doc
}
