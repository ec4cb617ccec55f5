package sim

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Machines that share nothing do on one floor what each does by itself.
func TestFloorRunsEachMachineAsAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var alone, together []*machine
		floor := &Floor{}
		for i := range rapid.IntRange(1, 3).Draw(t, "machines") {
			cycle := Seconds(rapid.SampledFrom([]float64{0.3, 1, 2.5}).Draw(t, "cycle"))
			shop := rapid.SliceOfN(rapid.Float64Range(0, 60), 0, 6).Draw(t, fmt.Sprint("shop ", i))
			track := rapid.SliceOfN(rapid.Int64Range(1, 40), 0, 6).Draw(t, fmt.Sprint("track ", i))
			a, b := busyMachine(cycle, shop, track), busyMachine(cycle, shop, track)
			alone, together = append(alone, a), append(together, b)
			floor.Machines = append(floor.Machines, &b.Clocks)
		}
		for _, m := range alone {
			m.Run(50)
			m.Run(70)
		}
		floor.Run(50)
		floor.Run(70)
		for i := range alone {
			assert.Equal(t, alone[i].history, together[i].history)
			assert.Equal(t, alone[i].Events(), together[i].Events())
			assert.Equal(t, alone[i].Cycle(), together[i].Cycle())
		}
	})
}

// busyMachine is a machine that stops and starts at the given times, and stops in the
// given cycles.
func busyMachine(cycle Seconds, shop []float64, track []int64) *machine {
	m := &machine{}
	m.Reset(cycle)
	turn := func() {
		if m.Running() {
			m.Halt()
		} else {
			m.Start()
		}
	}
	for _, at := range shop {
		m.atShop(Seconds(at), "turned", turn)
	}
	for _, at := range track {
		m.atTrack(Cycles(at), "stopped", func() {
			if m.Running() {
				m.Halt()
				m.Shop.Timer(func() { m.say("again"); turn() }).Set(m.Shop.Now() + 3)
			}
		})
	}
	m.Start()
	return m
}

// Of one moment, the cycles of all machines are completed first, then the timers of each
// machine run, then those of the floor.
func TestFloorOrderOfOneMoment(t *testing.T) {
	var history []string
	say := func(what string) func() { return func() { history = append(history, what) } }
	floor := &Floor{}
	for _, name := range []string{"a", "b"} {
		m := newMachine() // cycles of 2 s
		m.Shop.Timer(say(name + " timer")).Set(4)
		m.Track.Timer(say(name + " cycle")).Set(2)
		m.AfterCycle = say(name + " after")
		m.Start()
		floor.Machines = append(floor.Machines, &m.Clocks)
	}
	floor.Shop.Timer(say("floor")).Set(4)
	floor.Run(10)
	assert.Equal(t, []string{"a cycle", "a after", "b cycle", "b after", "a timer", "b timer", "floor"}, history)
	assert.Equal(t, Seconds(10), floor.Shop.Now())
}
