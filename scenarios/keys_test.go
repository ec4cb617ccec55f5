package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every kind of station is a mapping, no mapping comes twice, and what a key holds is listed.
func TestMappings(t *testing.T) {
	met := map[string]bool{}
	for _, m := range Mappings() {
		assert.False(t, met[m.Name], m.Name)
		assert.NotEmpty(t, m.Keys, m.Name)
		met[m.Name] = true
	}
	for _, k := range kindNames() {
		assert.True(t, met[k], k)
	}
	for _, m := range Mappings() {
		for _, k := range m.Keys {
			assert.NotEmpty(t, k.About, "%s of %s", k.Name, m.Name)
		}
	}
}

func TestMappingNamed(t *testing.T) {
	m, err := MappingNamed("document_channel")
	require.NoError(t, err)
	assert.Equal(t, "document channel", m.Name)
	assert.Contains(t, m.Keys, Key{Name: "buffer", About: "gathered documents that can wait for the track", Needed: true})
	m, err = MappingNamed("crew")
	require.NoError(t, err)
	assert.Equal(t, Key{Name: "walk", About: "time from where an operator is to where he is called", Needed: true, Holds: "duration"}, m.Keys[1])
	assert.Equal(t, []string{"most urgent", "along the track", "first come"}, m.Keys[2].Words)
	m, err = MappingNamed("scenario")
	require.NoError(t, err)
	assert.Equal(t, "list of job", m.Keys[9].Holds)
	_, err = MappingNamed("hoper")
	assert.EqualError(t, err, `"hoper" is not a mapping of a scenario file: did you mean hopper?`)
}
