package model

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// anyAbsence states at random what three operators of two lines may do, and who of them is away and which line is down when. The last of
// what is stated is all of them, of whom one may do everything.
func anyAbsence(seed uint64) (*GroupAtJobs, [][]JobRun) {
	random := rand.New(rand.NewPCG(seed, 29))
	g, work := agreeAtJobs()["the one who clears comes and goes"]()
	g.Crew.Operators, g.Crew.People, g.Staff = 3, nil, nil
	g.Crew.Technicians, g.Crew.Help = 1, []float64{0, 1.5}[random.IntN(2)]
	works := []Doing{Clearing, Filling, Changing, Clearing | Filling, Clearing | Changing, Filling | Changing, 0}
	for _, name := range []string{"anna", "ben"} {
		p := Person{Name: name, Operators: 1, Only: works[random.IntN(len(works))]}
		stays := random.IntN(2) == 0
		if stays || random.IntN(3) == 0 {
			p.Lines = []string{g.Names[random.IntN(2)]}
		}
		if stays {
			p.Stays, p.Elsewhere = firstOf[*Inserter](g.Setups[0][0]).Name, random.IntN(2) == 0
		}
		g.Crew.People = append(g.Crew.People, p)
	}
	all := Person{Name: "all", Operators: 1}
	g.Crew.People = slices.Insert(g.Crew.People, random.IntN(3), all)
	at := sim.Seconds(0)
	for range 12 {
		at += sim.Seconds(10 + 90*random.Float64())
		s := Staffing{From: at, Operators: random.IntN(4)}
		for n := range s.Operators {
			if random.IntN(3) == 0 {
				s.Absent = append(s.Absent, n)
			}
		}
		g.Staff = append(g.Staff, s)
	}
	g.Staff = append(g.Staff, Staffing{From: at + 50, Operators: 3})
	for range g.Setups {
		from := sim.Seconds(600 * random.Float64())
		to := from + sim.Seconds(1+300*random.Float64())
		g.Down = append(g.Down, []Stretch{{from, to}, {to + 100, to + 100 + sim.Seconds(100*random.Float64())}})
	}
	return g, work
}

// Whoever of them is away when, and whatever line is down, lines at jobs do what the rules say.
func TestAnyAbsenceAgrees(t *testing.T) {
	oneGoroutine(t)
	for seed := range uint64(2) {
		group := func() (*GroupAtJobs, [][]JobRun) { return anyAbsence(seed) }
		assert.Empty(t, atJobsDiffer(t, group, func(*GroupAtJobs) {}), "seed %d", seed)
	}
	never := func(g *GroupAtJobs) { g.Down[0][0].To = g.Down[0][0].From + 1 }
	assert.NotEmpty(t, atJobsDiffer(t, func() (*GroupAtJobs, [][]JobRun) { return anyAbsence(0) }, never), "a line that is down goes unseen: this test cannot fail")
}

// That the last of those who are to be there are away, one by one by name, is that so many fewer are there, to
// the bit: all of them away is nobody there.
func TestAwayByNameIsFewer(t *testing.T) {
	told := 0
	for seed := range uint64(40) {
		named, work := anyAbsence(seed)
		fewer, same := anyAbsence(seed)
		whole, other := anyAbsence(seed)
		for i, s := range named.Staff[:len(named.Staff)-1] {
			away := (int(seed) + i) % (s.Operators + 1)
			left := s.Operators - away
			named.Staff[i].Absent = nil
			for n := left; n < s.Operators; n++ {
				named.Staff[i].Absent = append(named.Staff[i].Absent, n)
			}
			fewer.Staff[i].Operators, fewer.Staff[i].Absent = left, nil
			whole.Staff[i].Absent = nil
		}
		a := jobsDone(t, named, work)
		assert.Equal(t, jobsDone(t, fewer, same), a, "seed %d", seed)
		if !assert.ObjectsAreEqual(jobsDone(t, whole, other), a) {
			told++
		}
	}
	assert.Greater(t, told, 30, "that somebody is away is not told from that nobody is: this test cannot fail")
}

// jobsDone returns all figures of all jobs.
func jobsDone(t *testing.T, g *GroupAtJobs, work [][]JobRun) (all []figure) {
	t.Helper()
	s, err := NewGroupAtJobs(g)
	require.NoError(t, err)
	require.NoError(t, s.Run(20, work))
	for _, line := range work {
		for i := range line {
			all = append(all, jobFigures(&line[i])...)
		}
	}
	return all
}
