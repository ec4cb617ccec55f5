package workbench

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// Only what was typed in the editor of a tab is called that tab's own: all else it has yet to make in its
// text, also where it asked for it, such as an undo while it goes on typing.
func TestOwnEdits(t *testing.T) {
	w, err := openWork(desk.Env{}, "", place{Title: "x"}, "name: é\n")
	require.NoError(t, err)
	b := newBench(w, nil)
	defer b.close()
	for _, op := range []Op{
		{Kind: "type", Edits: []json.RawMessage{json.RawMessage(`[8,[0,"# a",""]]`)}},
		{Kind: "undo"},
		{Kind: "redo"},
		{Kind: "example", Name: "direct-mail"},
		{Kind: "set", Path: "crew.operators", Value: "3"},
	} {
		op.Tab, op.Rev = "mine", b.rev
		require.Empty(t, b.do(op).Wrong, op.Kind)
		want := ""
		if op.Kind == "type" {
			want = "mine"
		}
		assert.Equal(t, want, b.log[len(b.log)-1].Tab, op.Kind)
	}
	assert.Len(t, b.log, 5)
}
