package tracing

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/browser"
	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
	"netrate/scenarios"
	"netrate/sim"
)

// subject returns an example as a trace is asked of it.
func subject(t *testing.T, name string) study.Trace {
	t.Helper()
	slow := name == "slow cycles"
	if slow {
		name = "direct-mail"
	}
	x, err := scenarios.ExampleNamed(name)
	require.NoError(t, err)
	sc, err := scenarios.Load(name+".yaml", x.Data)
	require.NoError(t, err)
	if slow {
		sc.Line.Slow = model.Slow{
			Starting: model.Slowly{Cycles: 40, Share: 0.3}, Repeated: model.Repeated{Stops: 3, Within: 900, Share: 0.8, For: 600},
		}
	}
	if sc.LineGroup != nil {
		return study.Trace{Group: sc.LineGroup, Seed: 1, First: 5, Last: 5}
	}
	return study.Trace{Line: sc.Line, Seed: 1, First: 5, Last: 5}
}

// one returns one shift, or one job, of an example.
func one(t *testing.T, name string) *study.Traced {
	t.Helper()
	a, err := subject(t, name).Ask(t.Context(), nil)
	require.NoError(t, err)
	return &a.Traced[0]
}

// filmed returns the page of a shift.
func filmed(t *testing.T, x *study.Traced) string {
	t.Helper()
	page, err := present.FilmOf("an example", x, usualStart.Time).Page()
	require.NoError(t, err)
	return string(page)
}

// shown opens a page in a tab and waits until the film is there.
func shown(t *testing.T, tab *browser.Tab, page string) {
	t.Helper()
	tab.Show(t, page)
	ask[bool](t, tab, `new Promise(done => { const look = () => globalThis.player ? done(true) : setTimeout(look, 10); look(); })`)
}

// ask returns what an expression is on the page.
func ask[T any](t *testing.T, tab *browser.Tab, expression string) T {
	t.Helper()
	got, err := chromedp.Run(tab.Context, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	return got
}

// momentShown is what the page shows of a moment.
type momentShown struct {
	Counts map[string]int64 // of all lines, and passes
	Lines  []struct {
		Cycle  int64
		Counts map[string]int64
		Levels []int64 // of each station
		Stands bool
	}
}

// look returns what the page shows of some moments.
func look(t *testing.T, tab *browser.Tab, times []sim.Seconds) []momentShown {
	t.Helper()
	list, err := json.Marshal(times)
	require.NoError(t, err)
	return ask[[]momentShown](t, tab, fmt.Sprintf(`%s.map(time => {
		const {lines, counts, t} = player.show.view(time)
		return {counts, lines: lines.map(({track, now, stop}) => ({
			cycle: now.cycle, counts: track.counts(now.cycle), stands: Boolean(stop),
			levels: track.stations.map((s, i) => s.capacity ? track.level(i, now.cycle, t) : 0),
		}))}
	})`, list))
}

// moments returns some moments of a shift: any, and those at which something happens.
func moments(s *trace.Shift, n int) []sim.Seconds {
	random := rand.New(rand.NewPCG(1, 2))
	at := []sim.Seconds{0, s.Lasts()}
	for len(at) < n {
		run := s.Runs[random.IntN(len(s.Runs))]
		at = append(at, s.Lasts()*sim.Seconds(random.Float64()), run.From, s.Moment(run.Cycle+sim.Cycles(random.IntN(40))))
	}
	for i := range at {
		at[i] = min(at[i], s.Lasts())
	}
	return at[:n]
}

// The film counts what the trace counts, at any moment, of shifts, of lines that share a crew, and of
// the passes of a job.
func TestFilmCountsAreThoseOfTheTrace(t *testing.T) {
	tab := browser.NewTab(browser.Start(t), t)
	for _, name := range []string{"direct-mail", "statements", "flats", "window-letters", "two-lines", "slow cycles"} {
		t.Run(name, func(t *testing.T) {
			x := one(t, name)
			shown(t, tab, filmed(t, x))
			for i, s := range x.Shifts {
				line := i
				if s.Pass > 0 {
					line = 0
				}
				times := moments(s, 200)
				var onClock []sim.Seconds
				for _, at := range times {
					onClock = append(onClock, s.Begins+at)
				}
				for k, got := range look(t, tab, onClock) {
					if s.Begins > 0 { // the sum rounds
						times[k] = onClock[k] - s.Begins
						if onClock[k] >= s.Begins+s.Lasts() {
							times[k] = s.Lasts()
						}
					}
					want := s.Counts(times[k])
					require.Equal(t, int64(s.Completed(times[k])), got.Lines[line].Cycle, "at %v", times[k])
					require.Equal(t, want.Begun, got.Lines[line].Counts["begun"], "at %v", times[k])
					require.Equal(t, want.Good, got.Lines[line].Counts["good"], "at %v", times[k])
					for fate, n := range want.Ended {
						require.Equal(t, n, got.Lines[line].Counts[model.Fate(fate).String()], "%v at %v", model.Fate(fate), times[k])
					}
				}
			}
			requireSums(t, tab, x)
			requireSteps(t, tab, x)
			requireLevels(t, tab, x.Shifts[0])
			_, complaints := tab.Heard()
			assert.Empty(t, complaints)
		})
	}
}

// requireSums sees to it that at the end all lines and passes are counted together.
func requireSums(t *testing.T, tab *browser.Tab, x *study.Traced) {
	t.Helper()
	good, begun := int64(0), int64(0)
	for _, s := range x.Shifts {
		good += s.Outcome.Sets.Good
		begun += s.Outcome.Sets.Started
	}
	last := x.Shifts[len(x.Shifts)-1]
	got := look(t, tab, []sim.Seconds{last.Begins + last.Lasts()})[0].Counts
	require.Equal(t, good, got["good"])
	require.Equal(t, begun, got["begun"])
}

// requireSteps sees to it that a step is a cycle, in the last pass too.
func requireSteps(t *testing.T, tab *browser.Tab, x *study.Traced) {
	t.Helper()
	last := x.Shifts[len(x.Shifts)-1]
	cycles := ask[[]int64](t, tab, fmt.Sprintf(`(player.go(%v), [...Array(9).keys()].map(() => {
		player.step(1)
		return player.show.view(player.time).lines[0].now.cycle
	}))`, float64(last.Begins)+1))
	for i := range cycles {
		require.Equal(t, cycles[0]+int64(i), cycles[i])
	}
}

// requireLevels sees to it that stocks are as the simulation saw them when it looked.
func requireLevels(t *testing.T, tab *browser.Tab, s *trace.Shift) {
	t.Helper()
	looks := s.Levels[:min(200, len(s.Levels))]
	var times []sim.Seconds
	for _, x := range looks {
		times = append(times, x.At)
	}
	for i, got := range look(t, tab, times) {
		k := i // the last look of that station at that moment
		for n := i + 1; n < len(s.Levels) && s.Levels[n].At == looks[i].At; n++ {
			if s.Levels[n].Station == looks[i].Station {
				k = n
			}
		}
		require.Equal(t, s.Levels[k].Left, got.Lines[0].Levels[looks[i].Station], "%s at %v", s.Name(looks[i].Station), looks[i].At)
	}
}

// at opens the page of a shift in a window so wide.
func at(t *testing.T, tab *browser.Tab, width int64, page string) {
	t.Helper()
	require.NoError(t, chromedp.Do(tab.Context, chromedp.EmulateViewport(width, 900)))
	shown(t, tab, page)
}

// The film is small, asks for nothing, and the keyboard alone plays it.
func TestFilmIsPlayedByKeys(t *testing.T) {
	tab := browser.NewTab(browser.Start(t), t)
	x := one(t, "direct-mail")
	s, page := x.Shifts[0], filmed(t, x)
	assert.Less(t, len(page), 200_000)
	at(t, tab, 1024, page)
	press := func(keys string, how ...chromedp.KeyOption) {
		require.NoError(t, chromedp.Do(tab.Context, chromedp.KeyEvent(keys, how...)))
	}
	text := func(selector string) string {
		return ask[string](t, tab, `document.querySelector('`+selector+`').textContent`)
	}
	moment := func() float64 { return ask[float64](t, tab, "player.time") }
	cycle := func() int64 { return ask[int64](t, tab, "player.show.view(player.time).lines[0].now.cycle") }

	press("n")
	first := moment()
	assert.InDelta(t, float64(s.Stops[0].From), first, 0.001)
	assert.Contains(t, text(`[data-part="state"]`), s.Name(s.Stops[0].Station))
	assert.Contains(t, text(`[role="status"]`), s.Name(s.Stops[0].Station), "it is read out")
	press("n")
	assert.InDelta(t, float64(s.Stops[1].From), moment(), 0.001)
	press("p")
	assert.InDelta(t, first, moment(), 1e-9)

	before := cycle()
	press(kb.ArrowRight)
	assert.Equal(t, before+1, cycle())
	press(kb.ArrowLeft)
	press(kb.ArrowLeft)
	assert.Equal(t, before-1, cycle())
	press(kb.End)
	assert.InDelta(t, float64(s.Outcome.Time.Shift), moment(), 0)
	press(kb.Home)
	assert.InDelta(t, 0, moment(), 0)

	press("+")
	press("+")
	assert.Equal(t, "5", ask[string](t, tab, `document.querySelector('[data-part="speed"]').value`))
	press(" ")
	ask[bool](t, tab, "new Promise(done => { const look = () => player.time > 1 ? done(true) : setTimeout(look, 10); look(); })")
	assert.Equal(t, "Pause", text(`[data-part="play"]`))
	press(" ")
	still := moment()
	assert.Equal(t, "Play", text(`[data-part="play"]`))
	assert.InDelta(t, still, ask[float64](t, tab, "new Promise(done => setTimeout(() => done(player.time), 100))"), 0, "paused")
	assert.Equal(t, 1, ask[int](t, tab, "(player.play(true), player.play(true), player.play(false), 1)"))
	assert.InDelta(t, moment(), ask[float64](t, tab, "new Promise(done => setTimeout(() => done(player.time), 100))"), 0, "played twice, paused once")

	fetched, complaints := tab.Heard()
	assert.Len(t, fetched, 1, "the page alone")
	assert.Empty(t, complaints)
}

// All that can be done is reached with the tab key, and a set is followed from there.
func TestFilmFollowsASet(t *testing.T) {
	tab := browser.NewTab(browser.Start(t), t)
	shift := one(t, "direct-mail")
	s := shift.Shifts[0]
	k := slices.IndexFunc(s.Sets, func(x trace.Set) bool { return x.Fate == model.Diverted && !x.Good })
	require.Positive(t, k)
	x := &s.Sets[k]
	at(t, tab, 1024, filmed(t, shift))
	var reached []string
	for range 12 {
		require.NoError(t, chromedp.Do(tab.Context, chromedp.KeyEvent(kb.Tab)))
		reached = append(reached, ask[string](t, tab, "document.activeElement.dataset.part ?? document.activeElement.localName"))
		if reached[len(reached)-1] == "set" {
			require.NoError(t, chromedp.Do(tab.Context, chromedp.KeyEvent(strconv.Itoa(int(x.Number))+kb.Enter)))
		}
	}
	for _, want := range []string{"moment", "play", "previous", "next", "back", "step", "speed", "set", "button", "summary"} {
		assert.Contains(t, reached, want)
	}
	assert.Equal(t, fmt.Sprintf("#set=%d", x.Number), ask[string](t, tab, "location.hash"))
	assert.InDelta(t, float64(s.Moment(x.Happened[0].Cycle)), ask[float64](t, tab, "player.time"), 1e-6)
	told := func() string { return ask[string](t, tab, `document.querySelector('[data-part="told"]').textContent`) }
	assert.Contains(t, told(), "Set "+say.Thousands(int64(x.Number)))
	assert.Contains(t, told(), x.Happened[0].Fault.String())

	ask[bool](t, tab, fmt.Sprintf("(player.go(%v), true)", float64(s.Moment(x.Cycle))))
	assert.Contains(t, told(), "diverted")
	ask[bool](t, tab, fmt.Sprintf("(location.hash = '#set=%d', new Promise(done => setTimeout(() => done(true), 50)))", s.Sets[k+1].Number))
	assert.Contains(t, told(), "Set "+say.Thousands(int64(s.Sets[k+1].Number)), "a link to another")
	ask[bool](t, tab, "(location.hash = '#set=999999999', new Promise(done => setTimeout(() => done(true), 50)))")
	assert.Contains(t, told(), "there is none")
}

// Nothing on the page keeps anybody from using it, and nothing overflows.
func TestFilmIsForEverybody(t *testing.T) {
	ctx := browser.Start(t)
	page := filmed(t, one(t, "two-lines"))
	for _, c := range []struct {
		width  int64
		scheme string
	}{{360, "dark"}, {1024, "light"}, {1440, "dark"}} {
		t.Run(fmt.Sprintf("%d %s", c.width, c.scheme), func(t *testing.T) {
			tab := browser.NewTab(ctx, t)
			defer tab.Close()
			tab.Prefers(t, "prefers-color-scheme", c.scheme)
			at(t, tab, c.width, page)
			ask[bool](t, tab, "(document.querySelector('details').open = true, player.stop(1), true)")
			assert.Empty(t, tab.Violations(t))
			assert.LessOrEqual(t, ask[float64](t, tab, "document.documentElement.scrollWidth - innerWidth"), 0.0, "the page scrolls sideways")
		})
	}
	t.Run("faults are seen", func(t *testing.T) {
		tab := browser.NewTab(ctx, t)
		at(t, tab, 1024, strings.Replace(page, `aria-label="Moment of the film"`, "", 1))
		assert.Contains(t, strings.Join(tab.Violations(t), " "), "label")
	})
}

var filmFrames = flag.Int("film-frames", 0, "TestFilmFrames draws this number of frames at each speed")

// At every speed a frame takes a small part of the 16.7 ms that there are for it. Time is asked of a
// quiet machine: make bench-ui.
func TestFilmFrames(t *testing.T) {
	if *filmFrames == 0 {
		t.Skip("-film-frames says how many")
	}
	tab := browser.NewTab(browser.Start(t), t)
	at(t, tab, 1440, filmed(t, one(t, "direct-mail")))
	for _, speed := range []int{1, 10, 100, 1000, 10_000} {
		took := ask[[2]float64](t, tab, fmt.Sprintf(`(() => {
			const took = []
			player.speed = %d
			player.go(0)
			for (let i = 0; i < %d; i++) {
				player.time = (player.time + player.speed / 60) %% player.show.lasts
				const from = performance.now()
				player.draw()
				took.push(performance.now() - from)
			}
			took.sort((a, b) => a - b)
			return [took[took.length >> 1], took[Math.floor(0.99 * took.length)]]
		})()`, speed, *filmFrames))
		t.Logf("%6d times the speed: a frame takes %.2f ms, one in a hundred more than %.2f ms", speed, took[0], took[1])
		assert.Less(t, took[0], 16.7)
	}
}
