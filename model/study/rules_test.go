package study

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// A jam can only stop the line, which is said with the one reason that all other responses have;
// an unopened flap that is shipped is refused, and still said to be chosen.
func TestRules(t *testing.T) {
	l := riskLine(t, "small.yaml")
	a := Rules(l)
	feeders := a.Entries[0]
	assert.Equal(t, []string{"letter", "card"}, feeders.Stations, "alike, in one entry")
	jam := feeders.Faults[slices.IndexFunc(feeders.Faults, func(f RulesFault) bool { return f.Fault == "jam" })]
	require.Len(t, jam.Answers, len(a.Responses))
	assert.Equal(t, RulesReply{Possible: true, Only: true, Chosen: true}, jam.Answers[model.Stop])
	for r, reply := range jam.Answers[1:] {
		assert.False(t, reply.Possible, a.Responses[r+1])
		assert.Equal(t, jam.Answers[1].Reason, reply.Reason)
	}
	assert.Nil(t, a.Gate.Needs, "an exit gate takes what is wrong, in its envelope")
	assert.Equal(t, []string{"gate"}, a.Gate.Has)
	assert.False(t, a.Readers)

	inserter := l.Stations[l.First(model.Inserts)].(*model.Inserter)
	inserter.OnFlap = model.Ship
	a = Rules(l)
	i := slices.IndexFunc(a.Entries, func(x RulesEntry) bool { return x.Kind == "inserter" })
	flap := a.Entries[i].Faults[slices.IndexFunc(a.Entries[i].Faults, func(f RulesFault) bool { return f.Fault == model.Flap.String() })]
	reply := flap.Answers[model.Ship]
	assert.True(t, reply.Chosen)
	assert.False(t, reply.Possible)
	assert.NotEmpty(t, a.Reasons[reply.Reason-1])
}

// A stream is put in step in line where its station answers otherwise than with a stop.
func TestRulesStreams(t *testing.T) {
	l := riskLine(t, "matched.yaml")
	for _, x := range Rules(l).Streams {
		assert.True(t, x.InLine, x.Station)
	}
	letter := l.Stations[1].(*model.Feeder)
	letter.OnMisfeed, letter.OnDouble = model.Stop, model.Stop
	a := Rules(l)
	assert.True(t, a.Readers)
	require.Len(t, a.Streams, 2)
	assert.Equal(t, RulesLane{"letters", "letter", false}, a.Streams[1])
}

func TestSlips(t *testing.T) {
	l := riskLine(t, "small.yaml")
	assert.Empty(t, Slips(&Alternative{Line: l}, true, true))
	l.Shift = 240
	letter := l.Stations[0].(*model.Feeder)
	letter.Misfeed, l.Speed = 0.2, 90_000
	slips := Slips(&Alternative{Line: l}, true, true)
	require.Len(t, slips, 3)
	assert.Equal(t, Slip{What: SlipShift, Size: 240}, slips[0])
	assert.Equal(t, SlipRate, slips[1].What)
	assert.Equal(t, "stations.letter.misfeed", slips[1].Path)
	assert.InEpsilon(t, 0.2, slips[1].Size, 1e-12)
	assert.Equal(t, Slip{What: SlipSpeed, Size: 90_000, Most: 10_000}, slips[2])
	assert.Len(t, Slips(&Alternative{Line: l}, false, true), 2, "its work is not looked at where it has none")
}
