package seasons

import (
	"cmp"
	"context"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/order"
	"netrate/model/setup"
	"netrate/sim"
)

var macro = flag.Int("macro", 10, "ten times the small weeks of which all orders are simulated, at most 50 of them")

// smallWeek returns a week of some jobs on two lines, one faster than the other, that stop some 30 times an hour and
// share a crew of two or three: some of whom may change over, or are absent on a day, in two shifts of 4 h. Its dates
// are tight.
func smallWeek(r *rand.Rand, jobs int) *Plan {
	p := &Plan{
		Calendar: &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 6 * hour, Length: 4 * hour}, {Start: 10 * hour, Length: 4 * hour}}},
		Change:   &setup.Changeover{Always: setup.Change{Time: sim.Constant(300)}, Insert: setup.Change{Time: modeltest.Lognormal(600, 0.5)}},
	}
	p.Crew = model.Crew{Operators: 2, Walk: sim.Constant(15), People: []model.Person{
		{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1, Only: model.Clearing | model.Filling},
	}}
	switch r.IntN(3) {
	case 0:
		p.Crew.Operators, p.Crew.People = 1+r.IntN(3), nil
	case 1:
		p.Crew.Operators = 3
		p.Crew.People = append(p.Crew.People, model.Person{Name: "Cem", Operators: 1, Lines: []string{"b"}})
	}
	for i, name := range []string{"a", "b"} {
		l := modeltest.CalmLine()
		l.Name, l.Speed = name, []float64{7200, 5000}[i]
		for k, f := range modeltest.StationsOf[*model.Feeder](l) {
			f.Jam, f.Clear = 0.001+0.003*r.Float64(), modeltest.Lognormal(30+60*sim.Seconds(r.Float64()), 0.8)
			f.Hopper = model.Stock{Capacity: 2000, Warn: 300, Work: sim.Constant(40)}
			if k == 0 && r.IntN(2) == 0 {
				l.UncertainInputs = append(l.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "jam", Of: evenly{0.5 * f.Jam, 1.5 * f.Jam}})
			}
		}
		l.Crew = p.Crew
		p.Lines = append(p.Lines, l)
	}
	for i, inserts := range [][]string{{"bill", "form"}, {"bill", "offer"}, {"card", "offer"}} {
		x := &setup.Product{Name: string(rune('p' + i)), Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}}
		for _, n := range inserts {
			x.Inserts = append(x.Inserts, setup.Insert{Name: n, Material: 1, Share: 1})
		}
		p.Products = append(p.Products, x)
	}
	for i := range jobs {
		j := PlanJob{
			Name: string(rune('r' + i)), Product: r.IntN(len(p.Products)), Sets: 10000 + r.Int64N(30000), Priority: float64(1 + r.IntN(3)), InHand: -1,
			Due: sim.Seconds(r.IntN(1+jobs/2))*day + []sim.Seconds{10, 12, 14}[r.IntN(3)]*hour,
		}
		if r.IntN(4) == 0 {
			j.NotBefore = sim.Seconds(r.IntN(2))*day + 10*hour
		}
		if r.IntN(6) == 0 {
			j.Lines = []int{r.IntN(2)}
		}
		p.Jobs = append(p.Jobs, j)
	}
	for _, person := range p.Crew.People {
		if r.IntN(2) == 0 {
			p.Staffed = append(p.Staffed, Staffed{Name: person.Name, Days: []int{1 + r.IntN(3)}, Operators: AsElse, Absent: []string{person.Name}})
		}
	}
	if r.IntN(4) == 0 {
		p.Down = []LineDown{{r.IntN(2), Window{day + 8*hour, day + 12*hour}}}
	}
	return p
}

// everyOrder returns each way to do so many jobs on two lines.
func everyOrder(p *Plan) (all [][][]int) {
	var put func(orders [][]int, j int)
	put = func(orders [][]int, j int) {
		if j == len(p.Jobs) {
			all = append(all, orders)
			return
		}
		for i := range p.Lines {
			if !p.Jobs[j].may(i) || isNotTaken(p.NotTaken(), i, j) {
				continue
			}
			for k := range len(orders[i]) + 1 {
				next := slices.Clone(orders)
				next[i] = slices.Insert(slices.Clone(next[i]), k, j)
				put(next, j+1)
			}
		}
	}
	put(make([][]int, len(p.Lines)), 0)
	return all
}

// trueLate simulates an order and returns the hours of lateness, times priorities, of each replication.
func trueLate(t *testing.T, p *Plan, orders [][]int, runs int) sim.Sample {
	t.Helper()
	m := &Made{Plan: p, Horizon: p.Horizon(), Assignment: order.Assignment{Order: orders}}
	study, err := RunTogether(context.Background(), m.Together(), sim.Plan{Seed: 1234567, Min: runs, Max: runs}, nil)
	require.NoError(t, err)
	late := make(sim.Sample, study.Done)
	for j := range study.Jobs {
		for r, at := range study.Jobs[j].Finished {
			late[r] += p.late(m.Horizon)(j, sim.Seconds(at))
		}
	}
	return late
}

// simulatedRound is how often orders are simulated, and how many of them are kept.
type simulatedRound struct{ runs, keep int }

// bestOf returns the best of all orders of a plan: all are simulated a few times, the better ones more often.
func bestOf(t *testing.T, p *Plan, rounds ...simulatedRound) [][]int {
	t.Helper()
	type tried struct {
		orders [][]int
		late   float64
	}
	var all []tried
	for _, o := range everyOrder(p) {
		all = append(all, tried{orders: o})
	}
	for _, round := range rounds {
		for i := range all {
			all[i].late = trueLate(t, p, all[i].orders, round.runs).Mean()
		}
		slices.SortStableFunc(all, func(a, b tried) int { return cmp.Compare(a.late, b.late) })
		all = all[:min(round.keep, len(all))]
	}
	return all[0].orders
}

// lossOf returns by how many hours, times priorities, an order is later than another in the mean, and two standard
// errors of that.
func lossOf(t *testing.T, p *Plan, orders, than [][]int, runs int) (loss, by float64) {
	t.Helper()
	a, b := trueLate(t, p, orders, runs), trueLate(t, p, than, runs)
	for r := range a {
		a[r] -= b[r]
	}
	return a.Mean(), 2 * a.SD() / math.Sqrt(float64(runs))
}

// Of small weeks all orders are simulated: how often the plan that is found is the best, within noise, and how much
// later than that it is in the mean; and so the plan that paper alone would take.
func TestKnownTruthOfPlansFound(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 20))
	weeks := min(max(1, *macro/10), 50)
	var best, onPaper int
	var loss, lossOnPaper float64
	for k := range weeks {
		p := smallWeek(r, 4+k%3)
		for p.Check() != nil {
			p = smallWeek(r, 4+k%3)
		}
		truth := bestOf(t, p, simulatedRound{8, 40}, simulatedRound{64, 6}, simulatedRound{400, 1})
		m, err := p.Make(context.Background(), sim.Plan{Seed: uint64(k), Max: 200}, nil)
		require.NoError(t, err)
		paper := m.inTheMean(p.shop(m.Horizon, m.Times)).Assign()
		own, by := lossOf(t, p, m.Order, truth, 400)
		papers, papersBy := lossOf(t, p, paper.Order, truth, 400)
		if loss += own / float64(weeks); own <= max(by, 0.05) {
			best++
		} else {
			t.Logf("week %d: %.2f h times priorities later than the best", k, own)
		}
		if lossOnPaper += papers / float64(weeks); papers <= max(papersBy, 0.05) {
			onPaper++
		}
	}
	t.Logf("of %d weeks the plan found is the best in %d, and %.2f h times priorities later in the mean; the best on paper in %d, and %.2f h", weeks, best, loss, onPaper, lossOnPaper)
	assert.GreaterOrEqual(t, best, weeks*3/4)
	assert.LessOrEqual(t, loss, 1.0)
}
