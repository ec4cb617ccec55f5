package workbench

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// texts draws texts in which parts of characters could be mistaken for each other.
func texts(t *rapid.T, name string) string {
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "\n", "½", "¾", "é", "😀", "😁", "  ", "\r"}), 0, 12).Draw(t, name), "")
}

// Whatever two texts are, the change leads from one to the other, its inverse back, and so does the
// change as the editor writes it.
func TestChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := texts(t, "a"), texts(t, "b")
		c := changeBetween(a, b)
		got, fits := c.made(a)
		require.True(t, fits)
		require.Equal(t, b, got)
		got, fits = c.inverse().made(b)
		require.True(t, fits)
		require.Equal(t, a, got)
		got, err := edited(a, c.asEdit(a))
		require.NoError(t, err)
		require.Equal(t, b, got)
	})
	_, fits := change{At: 1, Old: "x"}.made("abc")
	assert.False(t, fits)
	_, fits = change{At: 9, Old: ""}.made("abc")
	assert.False(t, fits)
}

// What is no change of a text is refused, and no text is made of it.
func TestEditedRefuses(t *testing.T) {
	for _, wrong := range []string{``, `7`, `{}`, `[2]`, `[4]`, `[-1,4]`, `[3,[1]]`, `[[-3]]`, `[[0,7],3]`, `[[],3]`, `["x"]`, `[1e9]`, `[[3,"a"],null]x`} {
		_, err := edited("abc", json.RawMessage(wrong))
		assert.Error(t, err, wrong)
	}
}

// Every step is taken back to the same text, in any order of undoing and doing.
func TestHistory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := texts(t, "first")
		h := history{text: first}
		was := []string{first} // the texts before each step that can be undone, and the text now
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			switch rapid.SampledFrom([]string{"to", "to", "undo", "redo"}).Draw(t, "what") {
			case "to":
				if next := texts(t, "next"); next != h.text {
					h.to(next, "", beside{})
					was = append(was[:len(h.done)], next)
				}
			case "undo":
				if _, changed := h.undo(); changed {
					require.Equal(t, was[len(h.done)], h.text)
				}
			case "redo":
				if _, changed := h.redo(); changed {
					require.Equal(t, was[len(h.done)], h.text)
				}
			}
		}
		for {
			if _, changed := h.undo(); !changed {
				break
			}
		}
		require.Equal(t, first, h.text)
	})
}

// Steps of a group are one; a group that leads back to where it began is none, as a drag that ends
// with Escape.
func TestHistoryOfGroups(t *testing.T) {
	h := history{text: "a"}
	h.to("ab", "drag", beside{})
	h.to("abc", "drag", beside{})
	h.to("abcd", "other", beside{})
	require.Len(t, h.done, 2)
	h.undo()
	assert.Equal(t, "abc", h.text)
	h.undo()
	assert.Equal(t, "a", h.text)
	h.redo()
	assert.Equal(t, "abc", h.text)
	h.to("ab", "again", beside{})
	h.to("abc", "again", beside{})
	assert.Len(t, h.done, 1, "nothing was changed")
}
