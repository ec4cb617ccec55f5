package lines

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// jobJSON is how a job was brought to its end, means but for the quantiles.
type jobJSON struct {
	Sets    int64         `json:"sets"`
	Closing string        `json:"remakes_closed"` // open, second pass or by hand
	Finish  page.MeanJSON `json:"finish_h"`
	P5      page.Number   `json:"finish_p5_h"`
	P50     page.Number   `json:"finish_p50_h"`
	P95     page.Number   `json:"finish_p95_h"`
	Passes  page.Number   `json:"passes"`
	ByHand  page.Number   `json:"by_hand"` // remakes
	Setup   page.Number   `json:"setup_s"`
	Hand    page.Number   `json:"hand_s"`
}

func jobOf(s *model.Study) *jobJSON {
	n, j, times := shifts(len(s.Shifts)), &s.Total.Job, s.Sample(finish)
	e := times.Interval(say.Level)
	return &jobJSON{
		s.Line.Job.Sets, s.Line.Job.Closing.String(),
		page.MeanOf(e),
		page.Number(times.Quantile(0.05)), page.Number(times.Quantile(0.5)), page.Number(times.Quantile(0.95)),
		n.of(j.Passes), n.of(j.ByHand), n.time(j.Setup), n.time(j.Hand),
	}
}
