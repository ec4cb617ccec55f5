// Package tapetest tells whether all of a result is recorded: for tests.
package tapetest

import (
	"bytes"
	"context"
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim/tape"
)

// Whole gives every number and text of a result, in lists as long as they are, one of its own, records
// it, and fails the test where what is read is another. A field that is forgotten would be 0 in the
// answer of a cluster. It returns how many numbers and texts there are.
func Whole[R any, P interface {
	*R
	tape.Recorded
}](t *testing.T, result *R,
) (numbers int64) {
	t.Helper()
	number(reflect.ValueOf(result).Elem(), &numbers)

	var file bytes.Buffer
	w := tape.NewWriter(&file, nil)
	of := tape.Shard(func(t *tape.Tape) error { t.RecordsPart(1, 1, w); return nil })
	s, err := tape.Begin(of.With(context.Background()), "result")
	require.NoError(t, err)
	s.Record(0, 1)(P(result))
	require.NoError(t, s.Recorded())
	require.NoError(t, w.Close())

	f, err := tape.Open("x", bytes.NewReader(file.Bytes()), int64(file.Len()))
	require.NoError(t, err)
	s, err = tape.Begin(tape.Player([]*tape.File{f}).With(context.Background()), "result")
	require.NoError(t, err)
	blocks, err := s.Blocks(0)
	require.NoError(t, err)
	require.Len(t, blocks, 1)
	var got R
	var from tape.Reader
	_, err = from.Read(blocks[0], func(int) tape.Recorded { return P(&got) })
	require.NoError(t, err)
	assert.Equal(t, *result, got)
	return numbers
}

// number gives every number and text of a value another one.
func number(v reflect.Value, n *int64) {
	switch v.Kind() {
	case reflect.Int64:
		*n++
		v.SetInt(*n)
	case reflect.Float64:
		*n++
		v.SetFloat(float64(*n) + 0.25)
	case reflect.String:
		*n++
		v.SetString(fmt.Sprint("text ", *n))
	case reflect.Struct:
		for _, field := range v.Fields() {
			number(field, n)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			number(v.Index(i), n)
		}
	default:
		panic("tapetest: a result holds a " + v.Kind().String())
	}
}
