package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is learnt of a variant becomes changes of it, after its others; nothing else of the file is
// touched, and the variant has the numbers while the file keeps its own.
func TestEditedVariant(t *testing.T) {
	x, err := ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	const name = "seven feeders, one operator"
	edits := []Edit{
		{Path: "stations.voucher.misfeed", Value: "{seen: 5, of: 10000}", Comment: "1/2,000"},
		{Path: "stations.voucher.jam", Value: "1/7000"},
		{Path: "stations.voucher.source", Value: "'a log, of March'"},
	}
	edited, err := EditedVariant("x.yaml", x.Data, name, edits)
	require.NoError(t, err)
	const first = "\n      - {set: 'stations.voucher.misfeed', to: {seen: 5, of: 10000}, source: 'a log, of March'}  # 1/2,000" +
		"\n      - {set: 'stations.voucher.jam', to: 1/7000, source: 'a log, of March'}"
	assert.Equal(t, 1, strings.Count(string(edited), first))
	assert.Equal(t, string(x.Data), strings.Replace(string(edited), first, "", 1), "all else is as it was")

	sc, err := Load("x.yaml", edited)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(sc.Variants[0].Changes, "\n"), "stations.voucher.misfeed: ")
	assert.NotContains(t, strings.Join(sc.Variants[1].Changes, "\n"), "stations.voucher.misfeed: ")

	flow := strings.Replace(string(edited), "  - name: seven feeders, two operators", "  - {name: more, changes: [{set: crew.operators, to: 3}]}\n  - name: seven feeders, two operators", 1)
	edited, err = EditedVariant("x.yaml", []byte(flow), "more", []Edit{{Path: "crew.walk", Value: "20 s"}})
	require.NoError(t, err)
	assert.Contains(t, string(edited), "[{set: crew.operators, to: 3}, {set: 'crew.walk', to: 20 s}]")

	for wrong, c := range map[string]struct {
		variant string
		edit    Edit
	}{
		"it has no changes to which": {"none such", edits[0]},
		"no station":                 {name, Edit{Path: "stations.nobody.misfeed", Value: "1/7"}},
		"want a probability":         {name, Edit{Path: "stations.voucher.misfeed", Value: "7"}},
		"cannot be edited here":      {name, Edit{Path: "stations.voucher.misfeed", Value: "1/7}\n  - {name: y"}},
	} {
		_, err := EditedVariant("x.yaml", x.Data, c.variant, []Edit{c.edit})
		require.ErrorContains(t, err, wrong)
	}
}
