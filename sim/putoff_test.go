package sim

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What is put off falls due so many cycles later, and nothing else moves: neither what is not set, nor
// what is due at the given cycle or before, nor what is not in the mask.
func TestPutOff(t *testing.T) {
	moved, stayed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		var a Agenda
		bits := rapid.SliceOfNDistinct(rapid.IntRange(0, 63), 0, 12, rapid.ID).Draw(t, "bits")
		want, ran := map[int]Cycles{}, map[int]Cycles{} // by the bit, from 100 on of those without
		timers := map[int]*Slot{}
		timer := func(name int) {
			timers[name] = a.Timer(func() { ran[name] = a.Now() })
		}
		for _, bit := range bits {
			timer(bit)
			timers[bit].Together(bit)
		}
		for name := range rapid.IntRange(0, 20).Draw(t, "others") {
			timer(100 + name)
		}
		cycles := rapid.OneOf(rapid.IntRange(0, 9), rapid.IntRange(0, 10_000))
		for name, timer := range timers {
			if rapid.Bool().Draw(t, "set") {
				want[name] = Cycles(cycles.Draw(t, "at"))
				timer.Set(want[name])
			}
		}
		for range rapid.IntRange(0, 300).Draw(t, "times") {
			mask, after := rapid.Uint64().Draw(t, "mask"), Cycles(cycles.Draw(t, "after"))
			a.PutOff(mask, after)
			for _, bit := range bits {
				if at, set := want[bit]; set && at > after && mask>>bit&1 != 0 {
					want[bit]++
					moved++
				} else {
					stayed++
				}
			}
		}
		for name, timer := range timers {
			by, after := Cycles(rapid.IntRange(-2, 3).Draw(t, "by")), Cycles(2+cycles.Draw(t, "after"))
			at, set := want[name]
			if require.Equal(t, set && at > after, timer.PutOff(by, after)); set && at > after {
				want[name] += by
			}
		}
		for key := a.least(); key < unset; key = a.least() {
			a.take(key)()
		}
		require.Equal(t, want, ran)
	})
	assert.Positive(t, moved)
	assert.Positive(t, stayed)
}

// What was least before timers were set, stopped and put off, and the least of those that were set, tell
// what is least now: next finds what a look at all keys finds, also where the orders start over.
func TestNextIsTheLeast(t *testing.T) {
	same, looked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a := Agenda{order: lastOrder - int64(rapid.IntRange(0, 100).Draw(t, "orders left"))}
		timers := make([]*Slot, rapid.IntRange(1, 20).Draw(t, "timers"))
		for bit := range timers {
			timers[bit] = a.Timer(func() {})
			timers[bit].Together(bit)
		}
		was := a.least()
		for range 40 {
			for range rapid.IntRange(0, 4).Draw(t, "changes") {
				timer, after := rapid.SampledFrom(timers).Draw(t, "timer"), Cycles(rapid.IntRange(1, 50).Draw(t, "after"))
				switch rapid.IntRange(0, 5).Draw(t, "change") {
				case 0:
					timer.Stop()
				case 1:
					a.PutOff(rapid.Uint64().Draw(t, "mask"), after)
				case 2:
					timer.PutOff(Cycles(rapid.IntRange(-1, 2).Draw(t, "by")), after)
				default:
					timer.Set(Cycles(rapid.IntRange(0, 50).Draw(t, "at")))
				}
			}
			stood, lately := was, a.lately
			was = a.next(was)
			if a.lately == lately && was < unset {
				same++
			} else {
				looked++
			}
			require.Equal(t, a.least(), was, "was %x", stood)
		}
	})
	assert.Positive(t, same)
	assert.Positive(t, looked)
}

// The other timers fill the places between those that are put off together.
func TestTogether(t *testing.T) {
	var a Agenda
	do := func() {}
	for _, bit := range []int{6, 1, 9} {
		a.Timer(do).Together(bit)
	}
	var numbers []int
	for range 9 {
		timer := a.Timer(do)
		timer.Set(1)
		numbers = append(numbers, int(timer.number))
	}
	assert.Equal(t, []int{0, 2, 3, 4, 5, 7, 8, 10, 11}, numbers)
	assert.Panics(t, func() { a.Timer(do).Together(4) }, "a place that is taken")
	late := a.Timer(do)
	late.Set(1)
	assert.Panics(t, func() { late.Together(20) }, "a timer that was set")
}
