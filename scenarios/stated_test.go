package scenarios

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Of every example all that its stations say is stated, and what their presets add, with the
// source.
func TestStated(t *testing.T) {
	x, err := ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	s, err := Load(x.Name, x.Data)
	require.NoError(t, err)
	all := s.Stated()
	for name, want := range map[string]Statement{
		"of a station": {Station: "brochure", Key: "material", Value: "1.3"},
		"of a preset":  {Station: "brochure", Key: "jam", Value: "1/15000", Source: "preset rotary, illustrative"},
		"a mapping":    {Station: "inserter", Key: "clear", Value: "lognormal: {mean: 75 s, cv: 0.8}"},
		"of the crew":  {Key: "crew.walk", Value: "10 s"},
		"of the line":  {Key: "line.restart", Value: "4 s"},
		"of the work":  {Key: "work.shift", Value: "8 h"},
	} {
		t.Run(name, func(t *testing.T) { assert.Contains(t, all, want) })
	}
	assert.False(t, slices.ContainsFunc(all, func(s Statement) bool { return s.Station == "voucher" }), "it is in a variant")
	v := s.Variants[0]
	own := slices.DeleteFunc(v.Stated(), func(s Statement) bool { return s.Station != "voucher" })
	require.NotEmpty(t, own)
	assert.Equal(t, "preset, with the speed that a seller might state", own[0].Source)
}

// Nothing that a file says of its stations is left out.
func TestStatedOfAll(t *testing.T) {
	for _, x := range Examples() {
		s, err := Load(x.Name, x.Data)
		require.NoError(t, err)
		for _, list := range lists(s.tree) {
			stations, _ := follow(s.tree, list)
			for i, name := range namesIn(stations) {
				eachOf(stations.Content[i], func(key string, _ *node) {
					said := slices.ContainsFunc(s.Stated(), func(s Statement) bool {
						return s.Station == name && (s.Key == key || strings.HasPrefix(s.Key, key+"."))
					})
					assert.NotEqual(t, slices.Contains([]string{"name", "kind", "at", "source"}, key), said, "%s: %s, %s", x.Name, name, key)
				})
			}
		}
	}
}
