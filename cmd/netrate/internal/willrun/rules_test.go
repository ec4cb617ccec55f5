package willrun

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// lineOfFile returns the line of a scenario of the tests.
func lineOfFile(t *testing.T, file string) *model.Line {
	t.Helper()
	sc, _, err := desk.Load(desk.Env{Err: t.Output()}, file)
	require.NoError(t, err)
	return sc.Line
}

func TestRulesGolden(t *testing.T) {
	golden.Check(t, "testdata/rules.txt", present.RulesText(study.Rules(lineOfFile(t, "../../testdata/matched.yaml"))))
}

// Feeders that are alike take one entry: a line of eight fits a screen.
func TestRulesGroup(t *testing.T) {
	l := lineOfFile(t, "../../testdata/small.yaml")
	for i := range 6 {
		f := *l.Stations[0].(*model.Feeder)
		f.Name = fmt.Sprintf("insert %d", i+1)
		l.Stations = slices.Insert(l.Stations, 2, model.Station(&f))
	}
	text := present.RulesText(study.Rules(l))
	assert.Contains(t, text, "feeders letter, card,     misfeed ")
	assert.LessOrEqual(t, strings.Count(text, "\n"), say.ScreenLines, text)

	l.Stations[3].(*model.Feeder).OnDouble = model.Ship
	assert.Regexp(t, `\nfeeder insert 5 +misfeed `, present.RulesText(study.Rules(l)), "unlike the others")
}

func TestRulesSay(t *testing.T) {
	for name, c := range map[string]struct {
		file   string
		change func(*model.Line)
		want   string
	}{
		"a response refused": {
			"small", func(l *model.Line) { l.Stations[3].(*model.Inserter).OnFlap = model.Ship },
			"flap              possible  no 3    possible  REFUSED 4\n",
		},
		"gate not required": {"small", nil, "No track gate is required"},
		"gate required where no exit gate is": {
			"small", without[*model.ExitGate],
			"every station before the inserter. No exit gate stands after the inserter. This line has one: gate.",
		},
		"gate required and not there": {
			"small", func(l *model.Line) { without[*model.ExitGate](l); without[*model.TrackGate](l) },
			"This line has none.",
		},
		"gate required by personalised envelopes": {
			"matched", func(l *model.Line) { l.Stations[3].(*model.Feeder).Envelopes = true },
			"The envelopes are personalised: a set that is wrong",
		},
		"in line":         {"matched", nil, "Put in step in line, while the line runs: documents (documents) and letters (letter)."},
		"by hand":         {"matched", byHand, "Put in step by hand, at a stop: documents (documents) and letters (letter)."},
		"a reader":        {"matched", nil, "A false alarm gets the answer to a mismatch."},
		"the only answer": {"matched", nil, "jam               always    no 2    no 2      no 2\n"},
	} {
		t.Run(name, func(t *testing.T) {
			l := lineOfFile(t, "../../testdata/"+c.file+".yaml")
			if c.change != nil {
				c.change(l)
			}
			text := present.RulesText(study.Rules(l))
			assert.Contains(t, text+" "+strings.Join(strings.Fields(text), " "), c.want)
			for line := range strings.Lines(text) {
				assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen()+1, line)
				assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line)
			}
		})
	}
}

// without takes all stations of a kind out of a line.
func without[Kind model.Station](l *model.Line) {
	l.Stations = slices.DeleteFunc(l.Stations, func(s model.Station) bool { _, ok := s.(Kind); return ok })
}

func byHand(l *model.Line) {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		case *model.Channel:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		}
	}
}

// What a file that is accepted chooses is possible.
func TestRulesOfExamples(t *testing.T) {
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		text := present.RulesText(study.Rules(sc.Line))
		assert.NotContains(t, text, "REFUSED", x.Name)
		assert.Contains(t, text, "CHOSEN", x.Name)
	}
}
