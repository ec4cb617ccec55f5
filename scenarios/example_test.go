package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExamples(t *testing.T) {
	var names []string
	for _, x := range Examples() {
		names = append(names, x.Name)
		t.Run(x.Name, func(t *testing.T) {
			s, err := Load(x.Name, x.Data)
			require.NoError(t, err)
			assert.Equal(t, s.Name, x.Title)
			lines := strings.SplitN(string(x.Data), "\n", 3)
			assert.Equal(t, "# yaml-language-server: $schema=./netrate.schema.json", lines[0])
			assert.True(t, strings.HasPrefix(lines[1], "# Invented for illustration"))
			one, err := ExampleNamed(x.Name)
			require.NoError(t, err)
			assert.Equal(t, x, one)
		})
	}
	assert.Equal(t, []string{"design-budget", "direct-mail", "divert-or-stop", "flats", "flats-season", "gate-worth", "log-rates", "nine-jobs", "seventh-feeder", "small-shop", "statements", "tender", "three-offers", "two-lines", "window-letters"}, names)
}

// The statements say what comes of it if their track gate is taken out.
func TestStatementsWithoutTheirGate(t *testing.T) {
	x, err := ExampleNamed("statements")
	require.NoError(t, err)
	text := strings.Replace(string(x.Data), "match: by hand", "match: in line", 1)
	_, err = Load(x.Name, []byte(text))
	require.NoError(t, err)
	var lines []string
	for line := range strings.Lines(text) {
		if !strings.Contains(line, "kind: track gate") {
			lines = append(lines, line)
		}
	}
	_, err = Load(x.Name, []byte(strings.Join(lines, "")))
	require.ErrorContains(t, err, ": statements, letter and envelopes cannot recover in line: no track gate stands between these stations and the inserter")
}

func TestUnknownExample(t *testing.T) {
	_, err := ExampleNamed("directmial")
	require.ErrorAs(t, err, new(UnknownExample))
	assert.EqualError(t, err, "no example is named directmial: did you mean direct-mail?")
}

func ExampleLoad() {
	_, err := Load("mine.yaml", []byte("name: mine\nline: {restart: 4 sec}\n"))
	fmt.Println(err)
	// Output:
	// mine.yaml:1:1: the scenario has no crew
	//     name: mine
	//     ^
	// mine.yaml:1:1: the scenario has no work
	//     name: mine
	//     ^
	// mine.yaml:2:7: line has no stations
	//     line: {restart: 4 sec}
	//           ^
	// mine.yaml:2:17: restart is "4 sec", want a time such as 45 s, 2 min, 8 h or 5 h 30 min: the unit "sec" is written s
	//     line: {restart: 4 sec}
	//                     ^
	// 4 problems
}

func ExamplePresets() {
	for _, v := range Presets()[0].Values {
		fmt.Println(v.Key, v.Text)
	}
	// Output:
	// rated 20000/h
	// misfeed 1/3000
	// double 1/10000
	// jam 1/15000
	// growth 1.5
	// clear {lognormal: {mean: 45 s, cv: 0.8}}
}

func ExampleScenario_With() {
	x, _ := ExampleNamed("seventh-feeder")
	s, _ := Load(x.Name, x.Data)
	for _, v := range s.Variants {
		fmt.Println(v.Name+":", strings.Join(v.Changes, "; "))
	}
	r, _ := ParseRange("line.speed=10000/h:16000/h:3")
	for _, v := range r.Values {
		line, err := s.With(r.Path, v.Text)
		fmt.Println(v.Text, line.RunSpeed(), err)
	}
	_, err := s.With("stations.flier.misfeed", "1/900")
	fmt.Println(err)
	// Output:
	// seven feeders, one operator: track gate and all after it moved on by 2 pitches; feeder voucher added after flyer
	// seven feeders, two operators: track gate and all after it moved on by 2 pitches; feeder voucher added after flyer; crew.operators: 1 → 2
	// 10000/h 10000 <nil>
	// 13000/h 13000 <nil>
	// 16000/h 16000 <nil>
	// seventh-feeder: stations.flier.misfeed: no station is named "flier": did you mean flyer?
}
