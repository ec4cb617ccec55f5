package lines

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// doubtJSON is how far an answer is known where numbers of the file are in doubt.
type doubtJSON struct {
	Draws   int          `json:"draws"`
	Each    int          `json:"replications_each"`
	Figure  string       `json:"figure"` // what all that follows is of
	Unit    string       `json:"unit"`
	LongRun betweenJSON  `json:"long_run"`
	P5      page.Number  `json:"p5"` // of single replications
	P95     page.Number  `json:"p95"`
	Share   chanceJSON   `json:"share_of_variance"` // of single replications that is not chance
	Twice   page.Number  `json:"half_with_twice_the_data"`
	Sources []sourceJSON `json:"sources"` // the largest share first; empty if the draws were too few
}

type betweenJSON struct {
	Level page.Number `json:"level"`
	Low   page.Number `json:"low"`
	High  page.Number `json:"high"`
}

type sourceJSON struct {
	Path   string      `json:"path"`
	Given  page.Number `json:"given"`
	Range  betweenJSON `json:"range"`
	Learnt bool        `json:"learnt"` // more observations would narrow it
	Share  page.Number `json:"share"`  // of the doubt of the long run
	Slope  page.Number `json:"slope"`  // of the figure, for each unit
}

// doubtDocument returns nil where there is nothing to tell.
func doubtDocument(s *model.DoubtStudy) *doubtJSON {
	if s == nil {
		return nil
	}
	return doubtIn(s).document()
}

func (d *doubtOf) document() *doubtJSON {
	doc := &doubtJSON{
		Figure: "net_rate", Unit: "envelopes/h", Draws: d.study.Draws(), Each: d.study.Each, LongRun: betweenOf(d.Interval(say.Level)),
		P5: page.Number(d.All.Quantile(0.05)), P95: page.Number(d.All.Quantile(0.95)),
		Share:   d.share(),
		Twice:   page.Number(d.half() * d.Narrowed(2, func(model.Doubt) bool { return true })),
		Sources: []sourceJSON{},
	}
	if d.job {
		doc.Figure, doc.Unit = "finish", "h"
	}
	for _, s := range d.Sources {
		of := s.Doubt.Of
		doc.Sources = append(doc.Sources, sourceJSON{
			s.Doubt.Path(), page.Number(of.Given()), betweenOf(of.Quantile((1-say.Level)/2), of.Quantile((1+say.Level)/2)), of.Learnt(), page.Number(s.Share), page.Number(s.Slope),
		})
	}
	return doc
}

// share returns how much of the variance is not chance.
func (d *doubtOf) share() chanceJSON {
	low, high := d.Parts.ShareInterval(say.Level)
	return chanceJSON{page.Number(d.Parts.Share()), page.Number(low), page.Number(high), say.Level}
}

func betweenOf(low, high float64) betweenJSON {
	return betweenJSON{say.Level, page.Number(low), page.Number(high)}
}
