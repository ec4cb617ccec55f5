package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParameters(t *testing.T) {
	l := referenceLine()
	paths := map[string]string{}
	for _, v := range l.Parameters() {
		paths[v.Path()] = v.Value
	}
	assert.Len(t, paths, 2+6*5+4) // restart, walk; misfeed, double, jam, clear, refill; flap, jam, clear, refill
	assert.Equal(t, "1/2500", paths["stations.3.misfeed"])
	assert.Equal(t, "60 s", paths["stations.3.clear"])
	assert.Equal(t, "15 s", paths["crew.walk"])
	assert.NotContains(t, paths, "stations.delivery.belt.sweep", "the belt never fills up")
}

// Moving a parameter moves that value and no other, and leaves the line as it is.
func TestMoved(t *testing.T) {
	l := referenceLine()
	for i, v := range l.Parameters() {
		moved := l.Moved(v, 2)
		require.Empty(t, moved.Check())
		for k, w := range moved.Parameters() {
			old := l.Parameters()[k]
			if k == i {
				assert.NotEqual(t, old.Value, w.Value, v.Path())
			} else {
				assert.Equal(t, old.Value, w.Value, "%s moved with %s", w.Path(), v.Path())
			}
		}
	}
	assert.Equal(t, referenceLine(), l)
	assert.Equal(t, 2*firstOf[*Feeder](l).Misfeed, firstOf[*Feeder](l.Moved(l.Parameters()[2], 2)).Misfeed)
}
