package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// envelopesLine returns a line without faults that runs 1 set a second, for a job, with so many envelopes in
// its hopper, which takes 20 s to fill.
func envelopesLine(envelopes int64) *Line {
	return &Line{
		Name: "p", Speed: 3600, Job: Job{Sets: 1}, Restart: sim.Constant(5),
		Stations: []Station{
			&Inserter{Place: Place{Name: "inserter"}, Hopper: Stock{Capacity: envelopes, Work: sim.Constant(20)}, Clear: sim.Constant(1)},
			&Delivery{Place: Place{Name: "delivery", At: 1}},
		},
	}
}

// Hand cases of who may do what at jobs, on two lines x and y. All pieces of changeovers and hoppers are
// taken in the order of the lines where people choose at one moment.
func TestSkillsAtJobsByHand(t *testing.T) {
	who := func(name string, p Person) Person {
		p.Name, p.Operators = name, 1
		return p
	}
	anna, other := who("Anna", Person{Only: Changing}), who("other", Person{Only: Clearing | Filling})
	for name, c := range map[string]struct {
		people    []Person
		staff     []Staffing
		envelopes int64
		x, y      JobRun
		firstX    sim.Seconds
		firstY    sim.Seconds
		finishedX sim.Seconds
		finishedY sim.Seconds
	}{
		"shared over two lines: y waits for the one who may": {
			people: []Person{anna, other}, envelopes: 1e9,
			x: JobRun{Sets: 10, Change: []sim.Seconds{100}}, y: JobRun{Sets: 10, Change: []sim.Seconds{60}},
			firstX: 100, firstY: 160, finishedX: 111, finishedY: 171,
		},
		"she is sick until 500": {
			people: []Person{anna, other}, envelopes: 1e9, staff: []Staffing{{Operators: 2, Absent: []int{0}}, {From: 500, Operators: 2}},
			x: JobRun{Sets: 10, Change: []sim.Seconds{100}}, y: JobRun{Sets: 10},
			firstX: 600, firstY: 0, finishedX: 611, finishedY: 11,
		},
		"she goes for a break at 50, when she has finished what she is at, and is back at 150": {
			people: []Person{anna, other}, envelopes: 1e9, staff: []Staffing{{From: 50, Operators: 2, Absent: []int{0}}, {From: 150, Operators: 2}},
			x: JobRun{Sets: 10, Change: []sim.Seconds{100}}, y: JobRun{Sets: 10, Change: []sim.Seconds{60}},
			firstX: 100, firstY: 210, finishedX: 111, finishedY: 221,
		},
		"she is back from her break before she has finished, and never went": {
			people: []Person{anna, other}, envelopes: 1e9, staff: []Staffing{{From: 50, Operators: 2, Absent: []int{0}}, {From: 90, Operators: 2}},
			x: JobRun{Sets: 10, Change: []sim.Seconds{100}}, y: JobRun{Sets: 10, Change: []sim.Seconds{60}},
			firstX: 100, firstY: 160, finishedX: 111, finishedY: 171,
		},
		"she is of y alone, and nobody comes for her": {
			people: []Person{who("Anna", Person{Only: Changing, Lines: []string{"y"}}), who("Ben", Person{})}, envelopes: 1e9,
			x: JobRun{Sets: 10, Change: []sim.Seconds{100, 30}}, y: JobRun{Sets: 10, Change: []sim.Seconds{60}},
			staff:  []Staffing{{Operators: 2, Absent: []int{1}}, {From: 300, Operators: 2}},
			firstX: 430, firstY: 60, finishedX: 441, finishedY: 71,
		},
		"a piece of a station is for who stays there, one of the whole line is not": {
			people: []Person{who("stays", Person{Stays: "inserter", Lines: []string{"x"}}), who("Ben", Person{})}, envelopes: 1e9,
			x: JobRun{Sets: 10, Change: []sim.Seconds{100, 40, 30}, ChangeAt: []string{"", "inserter", ""}}, y: JobRun{Sets: 10},
			firstX: 130, firstY: 0, finishedX: 141, finishedY: 11,
		},
		"nobody fills until 500: the line stands from the tenth envelope": {
			people: []Person{anna, other}, envelopes: 10, staff: []Staffing{{Operators: 2, Absent: []int{1}}, {From: 500, Operators: 2}},
			x: JobRun{Sets: 15}, y: JobRun{Sets: 15, NotBefore: 1000},
			// x calls at 10 and is filled from 500 to 520, restarts at 525, and has 5 sets and a pitch to go. So y
			// does at 1000: filled from 1010 to 1030.
			firstX: 0, firstY: 1000, finishedX: 531, finishedY: 1041,
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := envelopesLine(c.envelopes)
			g, err := NewGroupAtJobs(&GroupAtJobs{
				Names: []string{"x", "y"}, Setups: [][]*Line{{l}, {l}},
				Crew: Crew{Operators: len(c.people), Walk: sim.Constant(0), People: c.people}, Staff: c.staff,
			})
			require.NoError(t, err)
			work := [][]JobRun{{c.x}, {c.y}}
			require.NoError(t, g.Run(1, work))
			x, y := work[0][0], work[1][0]
			assert.Equal(t, [4]sim.Seconds{c.firstX, c.firstY, c.finishedX, c.finishedY}, [4]sim.Seconds{x.First, y.First, x.Finished, y.Finished})
			slowJobs(g.spec, work, 1, 0)
			for k, want := range []sim.Seconds{c.firstX, c.firstY, c.finishedX, c.finishedY} {
				assert.InDelta(t, float64(want), float64([4]sim.Seconds{work[0][0].First, work[1][0].First, work[0][0].Finished, work[1][0].Finished}[k]), 1e-9, "in the slow model")
			}
		})
	}
}

// A piece that nobody may do who ever comes is an error, whichever came before it.
func TestSkillsAtJobsNobody(t *testing.T) {
	l := envelopesLine(1e9)
	g, err := NewGroupAtJobs(&GroupAtJobs{
		Names: []string{"x"}, Setups: [][]*Line{{l}},
		Crew: Crew{Operators: 1, Walk: sim.Constant(0), People: []Person{{Name: "all but that", Operators: 1, Only: Clearing | Filling}}},
	})
	require.NoError(t, err)
	assert.ErrorContains(t, g.Run(1, [][]JobRun{{{Sets: 10, Change: []sim.Seconds{5}}}}), "nobody may do who is there in the end")
	assert.NoError(t, g.Run(1, [][]JobRun{{{Sets: 10}}}), "it can be run again")
}

// People who may each do all are as operators who are not told apart: every job to the last bit, as no
// random number depends on who does what.
func TestSkillsAtJobsOfAll(t *testing.T) {
	ends := func(people []Person) (all []sim.Seconds) {
		a, b := jobLine("p"), jobLine("q")
		g, err := NewGroupAtJobs(&GroupAtJobs{
			Names: []string{"north", "south"}, Setups: [][]*Line{{a, b}, {b}}, Crew: Crew{Operators: 2, Walk: sim.Constant(10), People: people},
			Staff: []Staffing{{From: 500}, {From: 900, Operators: 2}, {From: 4000, Operators: 1}},
		})
		require.NoError(t, err)
		work := [][]JobRun{
			{{Sets: 3000, Change: []sim.Seconds{60, 60}}, {Setup: 1, Sets: 5000, Replication: 1, Change: []sim.Seconds{300}}},
			{{Sets: 8000, Change: []sim.Seconds{200}, Automatic: 100}, {Sets: 1, Replication: 1}},
		}
		run := func() { require.NoError(t, g.Run(7, work)) }
		run()
		assert.Zero(t, testing.AllocsPerRun(2, run), "a replication allocates nothing")
		for _, line := range work {
			for k := range line {
				all = append(all, line[k].First, line[k].Finished)
			}
		}
		return all
	}
	assert.Equal(t, ends(nil), ends([]Person{{Name: "one", Operators: 1}, {Name: "two", Operators: 1, Only: Clearing | Filling | Changing}}))
	assert.NotEqual(t, ends(nil), ends([]Person{{Name: "one", Operators: 1}, {Name: "two", Operators: 1, Only: Filling}}))
}
