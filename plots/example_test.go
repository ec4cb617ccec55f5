package plots_test

import (
	"fmt"
	"strings"

	"netrate/plots"
	"netrate/sim"
)

// A figure is made of plain data and drawn as SVG or PNG.
func ExampleDifferences() {
	figure, err := plots.Differences(plots.DifferencesData{
		Head: plots.Head{
			Title:    "Only the gate pays",
			Subtitle: "Change of the net rate, good envelopes an hour, of 1,000 paired shifts (invented)",
		},
		Axis: "against the line as it is, good envelopes an hour",
		Rows: []plots.Difference{
			{Name: "track gate", Mean: sim.Estimate{Mean: 995, Half: 31, Level: 0.95, N: 1000}},
			{Name: "second operator", Mean: sim.Estimate{Mean: 12, Half: 22, Level: 0.95, N: 1000}},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	svg, err := figure.SVG()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Count(string(svg), "<text"), "pieces of text, among them:")
	for _, s := range []string{"Only the gate pays", "+995 ± 31", "+12 ± 22"} {
		fmt.Println(s, strings.Contains(string(svg), ">"+s+"<"))
	}
	// Output:
	// 14 pieces of text, among them:
	// Only the gate pays true
	// +995 ± 31 true
	// +12 ± 22 true
}
