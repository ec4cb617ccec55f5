package model

import (
	"reflect"
	"runtime"
	"strings"
)

// CountEvents counts what is done from now on by kind: how often what a timer of the track calls was
// called, by the name of that, such as feeder.attempt, and as the whole all events, those by the
// shop clock included, of the last replication. It is for benchmarks, and asked for after a
// replication, when every timer has its place; a Sim that is not asked counts nothing.
func (s *Sim) CountEvents() (byKind map[string]*int64, last func() uint64) {
	byKind = map[string]*int64{}
	s.clocks.Track.Wrap(func(do func()) func() {
		kind := kindOf(do)
		if byKind[kind] == nil {
			byKind[kind] = new(int64)
		}
		n := byKind[kind]
		return func() {
			*n++
			do()
		}
	})
	return byKind, s.clocks.Events
}

// kindOf returns the name of a method, such as feeder.attempt.
func kindOf(do func()) string {
	name := runtime.FuncForPC(reflect.ValueOf(do).Pointer()).Name()
	name = strings.TrimSuffix(name[strings.LastIndexByte(name, '/')+1:], "-fm")
	_, name, _ = strings.Cut(name, ".")
	return strings.NewReplacer("(*", "", ")", "").Replace(name)
}
