package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fieldNamed returns the field of a key.
func fieldNamed(t *testing.T, all []Field, name string) Field {
	t.Helper()
	for _, f := range all {
		if f.Name == name {
			return f
		}
	}
	require.Fail(t, "no field", name)
	return Field{}
}

func TestFields(t *testing.T) {
	x, err := ExampleNamed("direct-mail")
	require.NoError(t, err)
	letter := Fields(x.Data, "stations.letter")
	misfeed := fieldNamed(t, letter, "misfeed")
	assert.Equal(t, "1/2500", misfeed.Value)
	assert.Equal(t, "stations.letter.misfeed", misfeed.Path)
	hopper := fieldNamed(t, letter, "hopper")
	assert.Equal(t, "{pieces: 4000, warn: 800, refill: 25 s}", hopper.Value)
	assert.Equal(t, "800", fieldNamed(t, hopper.Fields, "warn").Value)
	clearing := fieldNamed(t, fieldNamed(t, letter, "clear").Fields, "lognormal")
	assert.Equal(t, "stations.letter.clear.lognormal.mean", clearing.Fields[0].Path)
	assert.False(t, fieldNamed(t, letter, "stream").Given)

	coupon := Fields(x.Data, "stations.coupon")
	assert.NotEmpty(t, fieldNamed(t, coupon, "misfeed").Preset)
	assert.Empty(t, fieldNamed(t, coupon, "misfeed").Value)

	assert.Equal(t, "2", fieldNamed(t, Fields(x.Data, "crew"), "operators").Value)
	assert.Equal(t, "18000/h", fieldNamed(t, Fields(x.Data, "line"), "speed").Value)
	assert.Equal(t, []string{"stop", "divert", "outsort", "ship"}, fieldNamed(t, Fields(x.Data, "policy"), "misfeed").Words)
	assert.NotEmpty(t, Fields(x.Data, "costs"), "what is not given yet can be")
	for _, none := range []string{"stations.nobody", "", "nothing", "crew.operators", "stations"} {
		assert.Empty(t, Fields(x.Data, none), none)
	}
	assert.Empty(t, Fields([]byte("{"), "crew"))
}
