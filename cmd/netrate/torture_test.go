package main

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

var (
	tortured    = flag.Duration("torture", 0, "how long TestTorture goes on, instead of a few inputs")
	tortureSeed = flag.Uint64("torture-seed", 1, "where TestTorture begins")
)

// What one command may take, on any input of the grammar.
const (
	tortureTime   = 2 * time.Minute
	tortureMemory = 1 << 30
)

// Whatever scenario or log the grammar writes, whichever verb reads it and in whichever form
// it answers: no panic, nothing that is not a number, no negative rate, status 0 or 2, no
// input changed and nothing left behind. Each input is one number: -torture-seed begins there.
func TestTorture(t *testing.T) {
	until, most := time.Now().Add(*tortured), uint64(12)
	if *tortured > 0 {
		most = 1 << 40
	}
	x := &torture{t: t, statuses: map[int]int{}, verbs: map[string]int{}}
	for i := range most {
		if *tortured > 0 && time.Now().After(until) {
			break
		}
		x.input(*tortureSeed + i)
	}
	t.Logf("%d inputs, %d commands (%v), statuses %v, slowest %.1f s: %s; finds: %d", x.inputs, x.commands, x.verbs, x.statuses, x.slowest.Seconds(), x.slowestIs, x.finds)
}

// torture is what was tried so far.
type torture struct {
	t                       *testing.T
	inputs, commands, finds int
	statuses                map[int]int
	verbs                   map[string]int
	slowest                 time.Duration
	slowestIs               string
}

// input writes the input of a number and gives it to verbs.
func (x *torture) input(seed uint64) {
	x.inputs++
	x.t.Chdir(x.t.TempDir())
	g := &grammar{Rand: rand.New(rand.NewPCG(seed, 2))}
	stops, counts := g.log()
	scenario := g.scenario()
	files := map[string]string{"in.yaml": scenario, "again.yaml": scenario, "stops.csv": stops, "counts.csv": counts}
	for name, text := range files {
		require.NoError(x.t, os.WriteFile(name, []byte(text), 0o600))
	}
	commands := []string{
		"check in.yaml", "check in.yaml --rules", "run in.yaml --reps 3", "compare in.yaml --reps 3", "sweep in.yaml --reps 3 --vary crew.operators=1,2", "sweep in.yaml --reps 2 --vary crew.operators=1:3:3 --vary line.restart=0.001s,4s",
		"strategy in.yaml --reps 3", "sensitivity in.yaml --reps 2", "season in.yaml --reps 2", "plan in.yaml --reps 2", "fit stops.csv --counts counts.csv --draws 19", "fit stops.csv --counts counts.csv --draws 0 --skip-bad --into in.yaml --out fitted.yaml",
		"run in.yaml --reps 9 --against stops.csv --counts counts.csv", "compare in.yaml again.yaml --reps 2", "compare in.yaml --best --reps 70",
		"trace in.yaml --shift 2 --hour 0 --events page.json", "trace in.yaml --shifts 0-1 --stops rows.csv --seen --counts feeds.csv --sets sets.csv --all --crew crew.csv",
		"film in.yaml --shift 2 --out page.html", "draw in.yaml --out line.svg", "accept in.yaml --promised 3000 --unacceptable 2000 --hours 1 --reps 200 --clause stops --clause clearing=20s:40s --clause defective", "design in.yaml --reps 3",
	}
	g.Shuffle(len(commands), func(i, j int) { commands[i], commands[j] = commands[j], commands[i] })
	lacks := map[string]string{"compare in.yaml --": "variants:", "season": "season:", "plan": "plan:", "design": "design:"} // what the verb is about
	commands = slices.DeleteFunc(commands, func(command string) bool {
		for verb, what := range lacks {
			if strings.HasPrefix(command, verb) && !strings.Contains(files["in.yaml"], what) && g.odds(0.9) {
				return true
			}
		}
		return false
	})
	for _, command := range commands[:5] {
		args := strings.Fields(command)
		if strings.Contains(scenario, "name: Flats") && simulates(args[0]) && g.odds(0.9) {
			args = append(args, "--job", "Letters")
		}
		outputs := []string{"", "--json", "--report page.html", "--xlsx book.xlsx", "--plots pictures", "--csv rows.csv", "--csv -", "--csv rows.csv --report page.html --xlsx book.xlsx --plots pictures"}
		if written := strings.Fields(g.of(outputs...)); !slices.Contains([]string{"trace", "film", "draw"}, args[0]) && (!slices.Contains(written, "--csv") || writesRows(command)) {
			args = append(args, written...)
		}
		x.command(seed, args)
		for name, text := range files {
			if now, err := os.ReadFile(name); err != nil || string(now) != text {
				x.find(seed, args, "%s is changed: %v", name, err)
			}
		}
	}
}

// simulates reports whether a verb runs shifts of one job.
func simulates(verb string) bool {
	return !slices.Contains([]string{"check", "fit", "season", "plan"}, verb)
}

// writesRows reports whether the verb of a command has rows to write.
func writesRows(command string) bool {
	for _, without := range []string{"check", "fit", "run in.yaml --reps 9 --against"} {
		if strings.HasPrefix(command, without) {
			return false
		}
	}
	return true
}

// command runs a command and looks at all that it says and writes.
func (x *torture) command(seed uint64, args []string) {
	var answer, says bytes.Buffer
	var err error
	began, before := time.Now(), allocated()
	func() {
		defer func() {
			if p := recover(); p != nil {
				x.find(seed, args, "panic: %v\n%s", p, debug.Stack())
			}
		}()
		err = run(args, desk.Env{In: strings.NewReader(""), Out: &answer, Err: &says, Getenv: func(string) string { return "" }})
	}()
	took := time.Since(began)
	x.commands++
	x.verbs[args[0]]++
	x.statuses[desk.Status(err)]++
	if took > x.slowest {
		x.slowest, x.slowestIs = took, strings.Join(args, " ")
	}
	if status := desk.Status(err); status != 0 && status != 2 {
		x.find(seed, args, "status %d: %v", status, err)
	}
	if err != nil && answer.Len() == 0 && strings.TrimSpace(err.Error()) == "" {
		x.find(seed, args, "an error that says nothing")
	}
	if took > tortureTime {
		x.find(seed, args, "took %v", took)
	}
	if used := allocated() - before; took > tortureTime/4 && used > 100*tortureMemory {
		x.find(seed, args, "allocated %d bytes", used)
	}
	x.look(seed, args, "the answer", answer.String())
	if err != nil {
		fmt.Fprintln(&says, err)
	}
	x.look(seed, args, "the messages", says.String())
	outputs, _ := filepath.Glob("*")
	inside, _ := filepath.Glob("pictures/*")
	for _, name := range append(outputs, inside...) {
		if strings.Contains(name, ".part-") {
			x.find(seed, args, "%s is left behind", name)
		}
		switch filepath.Ext(name) {
		case ".html", ".svg", ".csv", ".json":
			if !slices.Contains([]string{"stops.csv", "counts.csv"}, name) {
				text, _ := os.ReadFile(name)
				x.look(seed, args, name, string(text))
			}
		}
		if !slices.Contains([]string{"in.yaml", "again.yaml", "stops.csv", "counts.csv"}, name) {
			_ = os.RemoveAll(name)
		}
	}
}

// nonsense is what no answer holds: what is no number, a negative rate or time, and what a
// terminal or a browser could take for a command.
var nonsense = regexp.MustCompile(`\bNaN\b|[+-]Inf\b|\b[Ii]nfinity\b|%!|Net rate +[-−]|[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]|\x{202e}`)

// packed is bytes that a page carries as base64, in which any letters may come together.
var packed = regexp.MustCompile(`[A-Za-z0-9+/=]{200,}`)

// look finds nonsense in a text.
func (x *torture) look(seed uint64, args []string, where, text string) {
	text = packed.ReplaceAllString(text, "")
	if at := nonsense.FindStringIndex(text); at != nil {
		x.find(seed, args, "%q in %s: %q", text[at[0]:at[1]], where, text[max(0, at[0]-120):min(len(text), at[1]+60)])
	}
}

// find notes that something is wrong.
func (x *torture) find(seed uint64, args []string, format string, found ...any) {
	x.finds++
	x.t.Errorf("-torture-seed %d: netrate %s: %s", seed, strings.Join(args, " "), fmt.Sprintf(format, found...))
}

func allocated() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}

// The test is of use only if its eye sees: what it looks for is found in a text that has it.
func TestTortureSeesNonsense(t *testing.T) {
	for _, text := range []string{"rate NaN", "a +Inf b", "%!d(MISSING)", "Net rate  -5", "\x1b[2J", "x\u202ey"} {
		require.Regexp(t, nonsense, text)
	}
	for _, text := range []string{"Net rate  5,690 ± 120", "Info", "100 %", "a\tb\n", "Nancy"} {
		require.NotRegexp(t, nonsense, text)
	}
}
