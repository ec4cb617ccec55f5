package model

import (
	"bytes"
	"context"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim/tape"
)

// number gives every number and text of a value another one.
func number(v reflect.Value, n *int64) {
	*n++
	switch v.Kind() {
	case reflect.Int64:
		v.SetInt(*n)
	case reflect.Float64:
		v.SetFloat(float64(*n) + 0.25)
	case reflect.String:
		v.SetString(string(rune('a' + *n%26)))
	case reflect.Struct:
		for _, field := range v.Fields() {
			number(field, n)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			number(v.Index(i), n)
		}
	default:
		panic("model: an outcome holds a " + v.Kind().String())
	}
}

// All that an outcome holds is recorded: a field that is forgotten would be 0 in the answer of a
// cluster.
func TestOutcomeIsRecordedWhole(t *testing.T) {
	want, n := Outcome{Stations: make([]StationOutcome, 3)}, int64(0)
	number(reflect.ValueOf(&want).Elem(), &n)
	require.Greater(t, n, int64(300))

	var file bytes.Buffer
	w := tape.NewWriter(&file, nil)
	of := tape.Shard(func(t *tape.Tape) error { t.RecordsPart(1, 1, w); return nil })
	s, err := tape.Begin(of.With(context.Background()), "outcome")
	require.NoError(t, err)
	s.Record(0, 1)(&want)
	require.NoError(t, s.Recorded())
	require.NoError(t, w.Close())

	f, err := tape.Open("x", bytes.NewReader(file.Bytes()), int64(file.Len()))
	require.NoError(t, err)
	s, err = tape.Begin(tape.Player([]*tape.File{f}).With(context.Background()), "outcome")
	require.NoError(t, err)
	var got Outcome
	recorded, err := s.Read(0, &got)
	require.NoError(t, err)
	assert.True(t, recorded)
	assert.Equal(t, want, got)
}
