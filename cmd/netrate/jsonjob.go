package main

import "netrate/model"

// jobJSON is how a job was brought to its end, means but for the quantiles.
type jobJSON struct {
	Sets    int64  `json:"sets"`
	Closing string `json:"remakes_closed"` // open, second pass or by hand
	Finish  mean   `json:"finish_h"`
	P5      number `json:"finish_p5_h"`
	P50     number `json:"finish_p50_h"`
	P95     number `json:"finish_p95_h"`
	Passes  number `json:"passes"`
	ByHand  number `json:"by_hand"` // remakes
	Setup   number `json:"setup_s"`
	Hand    number `json:"hand_s"`
}

func jobOf(s *model.Study) *jobJSON {
	n, j, times := shifts(len(s.Shifts)), &s.Total.Job, s.Sample(finish)
	e := times.Interval(level)
	return &jobJSON{
		s.Line.Job.Sets, s.Line.Job.Closing.String(),
		mean{number(e.Mean), number(e.Half)},
		number(times.Quantile(0.05)), number(times.Quantile(0.5)), number(times.Quantile(0.95)),
		n.of(j.Passes), n.of(j.ByHand), n.time(j.Setup), n.time(j.Hand),
	}
}
