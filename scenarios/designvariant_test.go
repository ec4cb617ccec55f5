package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A design written as a variant is the line that the design makes, and costs what its choices cost; the
// rest of the file stays as it was.
func TestDesignAsVariant(t *testing.T) {
	example, err := ExampleNamed("design-budget")
	require.NoError(t, err)
	sc, err := Load("a.yaml", example.Data)
	require.NoError(t, err)
	choices, err := sc.Design.Chosen([]string{"exit gate", "track gate", "rotary for the brochure", "second operator", "a tenth slower"})
	require.NoError(t, err)
	assert.Equal(t, []int{1, 1, 1, 0, 1, 1}, choices)
	text, err := WithDesigned("a.yaml", example.Data, "it’s mine", choices)
	require.NoError(t, err)
	assert.Contains(t, string(text), string(example.Data))
	with, err := Load("b.yaml", text)
	require.NoError(t, err)
	require.Len(t, with.Variants, 1)
	assert.Equal(t, "it’s mine", with.Variants[0].Name)
	made, err := sc.Design.Designed(choices)
	require.NoError(t, err)
	assert.Equal(t, made.Line, with.Variants[0].Line)

	again, err := WithDesigned("a.yaml", text, "another", []int{1, 0, 0, 0, 0, 0})
	require.NoError(t, err)
	both, err := Load("c.yaml", again)
	require.NoError(t, err)
	assert.Len(t, both.Variants, 2)
}

// What costs of the file a design has: its price on top of that of the line.
func TestDesignAsVariantWithCosts(t *testing.T) {
	example, err := ExampleNamed("design-budget")
	require.NoError(t, err)
	priced := string(example.Data) + "\ncosts: {currency: EUR, price: {low: 1000, likely: 2000, high: 3000}, life: 8, rate: 8%, line_hour: 40, operator_hour: 30, volume: 9000000}\n"
	text, err := WithDesigned("a.yaml", []byte(priced), "gate", []int{1, 0, 0, 0, 0, 0})
	require.NoError(t, err)
	sc, err := Load("b.yaml", text)
	require.NoError(t, err)
	assert.InDelta(t, 30_000, sc.Variants[0].Costs.Price.Mean(), 1e-9)
	assert.InDelta(t, 2000, sc.Costs.Price.Mean(), 1e-9)
}

func TestChosenRefuses(t *testing.T) {
	example, err := ExampleNamed("design-budget")
	require.NoError(t, err)
	sc, err := Load("a.yaml", example.Data)
	require.NoError(t, err)
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"gold"}, `no choice of the design is named "gold"`},
		{[]string{"exit gate"}, "exit gate needs track gate"},
		{[]string{sc.Design.Options[2].Choices[0].Name, "rotary for the brochure"}, `two choices of "feeders" are taken`},
		{[]string{"rotary for the brochure", sc.Design.Options[2].Choices[0].Name}, `two choices of "feeders" are taken`},
		{[]string{"rotary for the brochure", "rotary for all four"}, `two choices of "feeders" are taken`},
	} {
		_, err := sc.Design.Chosen(c.names)
		assert.ErrorContains(t, err, c.want)
	}
	_, err = WithDesigned("a.yaml", example.Data, "none", make([]int, 6))
	assert.ErrorContains(t, err, "the line as it is")
}

// However the variants of a file are written, one more comes first, and all else stays as it was.
func TestDesignAsVariantOfAnyFile(t *testing.T) {
	example, err := ExampleNamed("design-budget")
	require.NoError(t, err)
	plain, _, found := strings.Cut(string(example.Data), "\nrun:")
	require.True(t, found)
	const slow = "changes: [{set: line.speed, to: 9000/h}]"
	for name, c := range map[string]struct {
		rest string
		want int
	}{
		"none, and no line at the end": {"", 1},
		"dashes in column 1":           {"\nvariants:\n- name: slow\n  " + slow + "\n", 2},
		"dashes far in":                {"\nvariants: # of ours\n\n        # the first\n        - name: slow\n          " + slow + "\nrun: {seed: 3}\n", 2},
		"an empty list":                {"\nvariants: []\nrun: {seed: 3}\n", 1},
		"in brackets":                  {"\nvariants: [ {name: slow, " + slow + "},\n  {name: slower, changes: [{set: line.speed, to: 8000/h}]} ]\n", 3},
		"Windows":                      {"\r\nvariants:\r\n  - name: slow\r\n    " + slow + "\r\n", 2},
	} {
		t.Run(name, func(t *testing.T) {
			text := plain + c.rest
			if name == "Windows" {
				text = "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n") + c.rest
			}
			before, err := Load("a.yaml", []byte(text))
			require.NoError(t, err)
			with, err := WithDesigned("a.yaml", []byte(text), "new", []int{1, 0, 0, 0, 0, 0})
			require.NoError(t, err)
			after, err := Load("b.yaml", with)
			require.NoError(t, err, string(with))
			require.Len(t, after.Variants, c.want)
			assert.Equal(t, "new", after.Variants[0].Name)
			assert.Len(t, before.Variants, c.want-1)
			for i := range before.Variants {
				assert.Equal(t, before.Variants[i].Name, after.Variants[i+1].Name)
			}
			if name == "Windows" {
				assert.Equal(t, strings.Count(string(with), "\n"), strings.Count(string(with), "\r\n"))
			}
		})
	}
}
