package study_test

import (
	"encoding/json"
	"fmt"

	"netrate/model/setup"
	"netrate/model/study"
)

// Which of two jobs run on a line, and why not.
func ExampleCoverage() {
	envelope := setup.Envelope{Name: "DL", Height: 110, Length: 230}
	job := func(name string, thickness float64) *setup.Product {
		return &setup.Product{
			Name: name, Envelope: envelope,
			Inserts: []setup.Insert{{Name: name, Height: 99, Length: 210, Thickness: thickness, Material: 1, Share: 1}},
		}
	}
	a := study.Coverage{Alternatives: []study.Alternative{
		{Name: "as it stands", Line: twoInserts(), Products: []*setup.Product{job("bill", 0.3), job("booklet", 3)}},
	}}.Ask()
	for _, job := range a.Jobs {
		fmt.Println(job.Name, job.CanRun(), job.Fits[0].Reasons)
	}
	text, _ := json.Marshal(a.Jobs[0])
	fmt.Println(string(text))
	// Output:
	// bill true []
	// booklet false [the insert booklet, 99 × 210 mm, 3 mm thick, goes into no feeder: letter, taking up to 2 mm in thickness; card, taking up to 1 mm in thickness]
	// {"name":"bill","fits":[{"line":"as it stands","runs":true,"speed_per_h":10000,"limited_by":["inserter"],"feeders":{"bill":"letter"}}]}
}
