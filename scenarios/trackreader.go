package scenarios

import (
	"slices"

	"netrate/model"
)

// trackReader is a reader on the track as it is written; a reader, in this package,
// reads files.
type trackReader struct {
	stationHead
	Reads      *name                 `yaml:"reads,omitempty" jsonschema_description:"the stream that it reads; not needed if all it is for is to see a wrong stock"`
	Verifies   *verified             `yaml:"verifies,omitempty" jsonschema_description:"what it sees of this stream by itself; not needed if match is given"`
	Match      *name                 `yaml:"match,omitempty" jsonschema_description:"another stream, whose pieces must be for the same person"`
	NoRead     *uncertainProbability `yaml:"no_read" jsonschema_description:"probability that it reads nothing"`
	FalseAlarm *uncertainProbability `yaml:"false_alarm,omitempty" jsonschema_description:"probability that a set in order is taken for a mismatch; 0 if not given"`
	Misread    *uncertainProbability `yaml:"misread,omitempty" jsonschema_description:"probability that a set in which it would see something wrong is taken for one in order; 0 if not given"`
	Clear      *readingClear         `yaml:"clear" jsonschema_description:"an operator's time for a no-read or a false alarm, after the walk"`
	Policy     *readerPolicy         `yaml:"policy,omitempty" jsonschema_description:"responses to what it finds, instead of those of the line"`
}

func (s *trackReader) Build(policy Policy) model.Station {
	own, sees := or(s.Policy, readerPolicy{}), or(s.Verifies, verified{})
	usual, times := s.Clear.times()
	return &model.Reader{
		Place:      s.place(nil),
		Reads:      string(or(s.Reads, "")),
		Presence:   sees.presence,
		Sequence:   sees.sequence,
		Match:      string(or(s.Match, "")),
		NoRead:     float64(or(s.NoRead, 0)),
		FalseAlarm: float64(or(s.FalseAlarm, 0)),
		Misread:    float64(or(s.Misread, 0)),
		OnNoRead:   first(own.NoRead, policy.NoRead),
		OnMismatch: first(own.Mismatch, (*answer)(policy.Match), policy.Mismatch),
		Clear:      usual,
		Clearings:  times,
	}
}

// among notes streams that no station carries.
func (s *trackReader) among(r *reader, own, stations *node, l *model.Line) {
	if !r.streamsKnown(stations) {
		return
	}
	streams := l.Streams()
	for _, key := range []string{"reads", "match"} {
		n := child(own, key)
		switch {
		case n == nil || r.spoilt(n) || slices.Contains(streams, n.Value):
		case len(streams) == 0:
			r.note(n, "no station carries the stream %q, nor any other: name it at its feeder, with stream: %s", n.Value, shown(n))
		default:
			r.note(n, "no station carries the stream %q: %s", n.Value, meant(n.Value, streams))
		}
	}
}

// verified is what a reader sees of its stream by itself: one word, or a list of them.
type verified struct{ presence, sequence bool }

var verifiedWords = []string{"presence", "sequence"}

func (x *verified) decode(r *reader, n *node, key string) {
	words := n.Content
	switch {
	case n.Kind == scalarNode:
		words = []*node{n}
	case n.Kind == mappingNode:
		r.note(n, "%s is %s, want %s, or a list of both", key, shown(n), model.OneOf(verifiedWords))
		return
	case len(words) == 0:
		r.note(n, "%s is an empty list, want %s", key, model.OneOf(verifiedWords))
	}
	for _, word := range words {
		x.add(r, word, key)
	}
}

// add takes one word.
func (x *verified) add(r *reader, n *node, key string) {
	sees := &x.presence
	switch {
	case n.Kind == aliasNode: // noted by plain
		return
	case n.Kind == scalarNode && n.Value == "presence":
	case n.Kind == scalarNode && n.Value == "sequence":
		sees = &x.sequence
	case n.Value == "match" || child(n, "match") != nil:
		r.note(n, "%s has match, which is a key of its own: match: STREAM", key)
		return
	default:
		r.note(n, "%s is %s, %v", key, shown(n), want(model.OneOf(verifiedWords), guess(n.Value, verifiedWords)))
		return
	}
	if *sees {
		r.note(n, "%s has %s twice", key, n.Value)
	}
	*sees = true
}
