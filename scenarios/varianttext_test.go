package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a variant is stands in a file of its own as it stands in the file with its variants, in every
// example.
func TestVariantText(t *testing.T) {
	n := 0
	for _, x := range Examples() {
		sc, err := Load(x.Name, x.Data)
		require.NoError(t, err)
		for i := range sc.Variants {
			v := &sc.Variants[i]
			n++
			text, err := VariantText(x.Name, x.Data, v.Name)
			require.NoError(t, err, "%s, %s", x.Name, v.Name)
			alone, err := Load(x.Name, text)
			require.NoError(t, err)
			assert.Empty(t, alone.Variants)
			assert.Equal(t, v.Line, alone.Line, "%s, %s", x.Name, v.Name)
			assert.Equal(t, v.LineGroup, alone.LineGroup, "%s, %s", x.Name, v.Name)
			assert.Equal(t, v.Costs, alone.Costs, "%s, %s", x.Name, v.Name)
			assert.Equal(t, v.Products, alone.Products, "%s, %s", x.Name, v.Name)
		}
	}
	assert.Greater(t, n, 20)
	_, err := VariantText("x", []byte("name: x"), "a")
	assert.Error(t, err)
	_, err = VariantText("x", Examples()[0].Data, "none of these")
	assert.ErrorContains(t, err, "no variant is named")
}
