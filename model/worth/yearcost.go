package worth

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// CostPart is one part of what a year of a line costs.
type CostPart int

// The parts, in the order in which they are listed.
const (
	LineHours CostPart = iota
	OperatorHours
	OvertimePay // what overtime costs beyond usual pay
	TechnicianCost
	InsertCost
	EnvelopeCost
	RemakeCost
	SpoiledCost
	DefectiveCost
	UpkeepCost
	costParts = iota
)

var costNames = [costParts]string{
	"line hours", "operators", "overtime", "technicians", "inserts, documents", "envelopes", "remakes", "spoiled sets", "defective delivered", "upkeep",
}

func (p CostPart) String() string { return costNames[p] }

// CostParts returns all parts in order.
func CostParts() []CostPart {
	var all []CostPart
	for p := range CostPart(costParts) {
		all = append(all, p)
	}
	return all
}

// What becomes of sets whose pieces are paid for. A set still on the line at the end of a
// shift is not among them: it is finished in the next one.
const (
	fateGood = iota
	fateDefective
	fateDiverted
	fateOutsorted
	fateSpoiled
	setFates
)

// tally is what some shifts came to on average.
type tally struct {
	hours, remakes float64
	sets           [setFates]float64 // good ones with those made by hand
}

func tallyOf(s *runs.Shift, shift sim.Seconds) tally {
	t := tally{hours: s.Finish, remakes: s.Remakes}
	if s.Finish == 0 {
		t.hours = float64(shift) / 3600
	}
	t.sets = [setFates]float64{s.NetRate * t.hours, s.Defective, s.Diverted, s.Outsorted, s.Spoiled}
	return t
}

// meanOf returns the mean of the shifts with the given numbers.
func meanOf(all []tally, numbers []int32) tally {
	var sum tally
	for _, i := range numbers {
		t := &all[i]
		sum.hours += t.hours
		sum.remakes += t.remakes
		for f := range sum.sets {
			sum.sets[f] += t.sets[f]
		}
	}
	n := float64(len(numbers))
	sum.hours /= n
	sum.remakes /= n
	for f := range sum.sets {
		sum.sets[f] /= n
	}
	return sum
}

// spender is a line that spends money as it works, or several that share a crew.
type spender struct {
	costs     *Costs
	operators float64
	jobs      []jobSpender // in the order of their names; one, if all work is of one kind
	beside    bool         // they are lines, each with its own volume, that run side by side
}

// jobSpender is a line at one job.
type jobSpender struct {
	volume   string  // what is made of it in a year, by its name in the costs
	lines    float64 // that run in one of its hours
	shifts   []tally
	stations []content
	calls    float64 // for a technician, in an hour of a shift, of all shifts together
	repairs  float64 // hours of technicians in such an hour
}

// content is how many pieces of a station a set of each fate holds, in all shifts together.
type content struct {
	price    string // of one, by its name in the costs; "" if it costs nothing
	envelope bool
	pieces   [setFates]float64
}

func spenderOf(s *runs.Study, c *Costs) *spender {
	p := &spender{costs: c, operators: s.Line.Crew.Mean(s.Line.Shift)}
	p.beside = sideBySide(s, c)
	of := made(s, c)
	for i, name := range c.volumeNames() {
		p.jobs = append(p.jobs, jobSpenderOf(name, of[i], c))
	}
	return p
}

// sideBySide reports whether a study is of lines that share a crew, each of which has a volume.
func sideBySide(s *runs.Study, c *Costs) bool { return s.Lines() != nil && len(c.Volumes) > 0 }

// made returns the study of what is made of each volume, in the order of their names.
func made(s *runs.Study, c *Costs) (of []*runs.Study) {
	switch {
	case s.Jobs() != nil:
		for _, j := range s.Jobs() {
			of = append(of, j.Study)
		}
		return of
	case sideBySide(s, c):
		return slices.SortedFunc(slices.Values(s.Lines()), func(a, b *runs.Study) int { return cmp.Compare(a.Line.Name, b.Line.Name) })
	}
	return []*runs.Study{s}
}

func jobSpenderOf(volume string, s *runs.Study, c *Costs) jobSpender {
	j := jobSpender{volume: volume, lines: max(1, float64(len(s.Lines())))}
	for i := range s.Shifts {
		j.shifts = append(j.shifts, tallyOf(&s.Shifts[i], s.Line.Shift))
	}
	j.breakdowns(s)
	sets := s.Total.Sets
	each := [setFates]float64{float64(sets.Good), float64(sets.Defective), float64(sets.Diverted), float64(sets.Outsorted), float64(sets.Spoiled)}
	for i, station := range s.Line.Stations {
		x := content{price: c.pieceOf(station), envelope: station.Piece().Price == envelopePrice}
		if x.price == "" {
			continue
		}
		used := s.Total.Stations[i].Pieces
		for f, n := range [setFates]int64{used.Good, used.Defective, used.Diverted, used.Outsorted, used.Spoiled} {
			if at := fateOf(f, each); each[at] > 0 {
				x.pieces[at] += float64(n) / each[at]
			}
		}
		j.stations = append(j.stations, x)
	}
	return j
}

// breakdowns takes how often technicians come, and how long they are there, from all shifts together.
func (j *jobSpender) breakdowns(s *runs.Study) {
	hours := 0.0
	for i := range j.shifts {
		hours += j.shifts[i].hours
	}
	if hours == 0 {
		return
	}
	for i := range s.Total.Stations {
		x := &s.Total.Stations[i].Repair
		j.calls += float64(x.Calls) / hours
		j.repairs += float64(x.Busy()) / 3600 / hours
	}
}

// envelopePrice is the price of a piece that is an envelope, by its name in the costs.
const envelopePrice = "envelope"

// pieceOf returns the price of a piece of a station, by its name in the costs; "" if it costs nothing.
func (c *Costs) pieceOf(station model.Station) string {
	piece, own := station.Piece(), station.Where().Name
	if _, named := c.Pieces[own]; piece.Fed && named {
		return piecesOf + own
	}
	return piece.Price
}

// fateOf returns the fate among whose sets pieces are spread: their own or, where pieces
// were lost without a set, the good ones.
func fateOf(fate int, sets [setFates]float64) int {
	if sets[fate] > 0 {
		return fate
	}
	return fateGood
}

// effort is what a good envelope takes: the hours of the line, and what it costs by parts, at
// usual pay and without upkeep.
type effort struct {
	hours float64
	parts [costParts]float64
}

// add adds another effort, times a share.
func (e *effort) add(x effort, share float64) {
	e.hours += float64(share * x.hours)
	for p := range x.parts {
		e.parts[p] += float64(share * x.parts[p])
	}
}

// effort returns what a good envelope of a job takes, if its shifts are on average like this
// and prices are as drawn:
//
//	hours = H / G
//	parts = H/G · lines · price of an hour, Σ P/G · price of a piece, M/G · price of a remake …
//	        and H/G · what technicians cost in an hour of all shifts together
//
// with the hours H, the good envelopes G, the pieces P and the remakes M of a shift. There
// must be good envelopes.
func (j *jobSpender) effort(mean *tally, drawn map[string]float64, operators float64) effort {
	good := mean.sets[fateGood]
	e := effort{hours: mean.hours / good}
	e.parts[LineHours] = e.hours * j.lines * drawn["line_hour"]
	e.parts[OperatorHours] = e.hours * operators * drawn["operator_hour"]
	e.parts[TechnicianCost] = e.hours * (float64(j.calls*drawn["technician_call"]) + float64(j.repairs*drawn["technician_hour"]))
	for i := range j.stations {
		x := &j.stations[i]
		pieces := 0.0
		for f, n := range x.pieces {
			pieces += float64(n * mean.sets[f])
		}
		part := InsertCost
		if x.envelope {
			part = EnvelopeCost
		}
		e.parts[part] += float64(pieces / good * drawn[x.price])
	}
	e.parts[RemakeCost] = mean.remakes / good * drawn["remake"]
	e.parts[SpoiledCost] = mean.sets[fateSpoiled] / good * drawn["spoiled"]
	e.parts[DefectiveCost] = mean.sets[fateDefective] / good * drawn["defective"]
	return e
}

// drawnLine is a line in one draw: what its years come to, however much is made in them.
type drawnLine struct {
	effort                  // of a good envelope, in the mean of all jobs by their volumes
	jobHours      []float64 // a year, of each job
	volume        float64   // good envelopes a year, all jobs together
	usual, extra  float64   // hours a year at usual pay, and what one beyond them costs more
	upkeep, price float64
	residual      float64
}

// in returns the line as it is in a draw, given what the shifts of each job are on average.
func (p *spender) in(means []tally, drawn map[string]float64) drawnLine {
	d := drawnLine{upkeep: drawn["upkeep"], price: drawn["price"], residual: drawn["residual"]}
	if o := p.costs.Overtime; o.Factor > 1 {
		d.usual, d.extra = o.Beyond, p.operators*drawn["operator_hour"]*(o.Factor-1)
	}
	for _, j := range p.jobs {
		d.volume += drawn[j.volume]
	}
	for i := range p.jobs {
		j := &p.jobs[i]
		e, volume := j.effort(&means[i], drawn, p.operators), drawn[j.volume]
		d.add(e, volume/d.volume)
		d.jobHours = append(d.jobHours, volume*e.hours)
	}
	if p.beside {
		d.share(p.operators * drawn["operator_hour"])
	}
	return d
}

// share makes the hours those of lines that run side by side with one crew, which is paid for each
// hour in which any of them runs: as many as the line has that takes most.
func (d *drawnLine) share(pay float64) {
	d.hours = slices.Max(d.jobHours) / d.volume
	d.parts[OperatorHours] = d.hours * pay
}

// year returns the hours and the parts of the cost of a year with V good envelopes,
// of which each job has its share s as drawn:
//
//	hours = V · Σ s · hours of an envelope
//	parts = V · Σ s · parts of an envelope, and of all hours together
//	overtime = (hours − usual hours, if more) · operators · pay · (factor − 1)
//	upkeep, however many they are
func (d *drawnLine) year(volume float64) (hours float64, parts [costParts]float64) {
	hours = float64(volume * d.hours)
	for p, each := range d.parts {
		parts[p] = volume * each
	}
	parts[OvertimePay] = max(0, hours-d.usual) * d.extra
	parts[UpkeepCost] = d.upkeep
	return hours, parts
}

// cost returns the sum of the parts.
func (d *drawnLine) cost(volume float64) float64 {
	_, parts := d.year(volume)
	sum := 0.0
	for _, x := range parts {
		sum += x
	}
	return sum
}
