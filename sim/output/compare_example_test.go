package output_test

import (
	"fmt"

	"netrate/sim"
	"netrate/sim/output"
)

// Sets an hour of two lines, five shifts on common random numbers.
func ExamplePaired() {
	one := sim.Sample{9120, 8740, 9310, 8980, 9050}
	two := sim.Sample{9180, 8820, 9350, 9060, 9100}
	c := output.Paired(one, two, 0.95)
	fmt.Printf("%+.0f ± %.0f an hour, ahead in %.0f %% of the shifts\n",
		c.Difference.Mean, c.Difference.Half, 100*c.Wins)
	fmt.Printf("on random numbers of their own: ± %.0f\n", c.Narrowing*c.Difference.Half)
	// Output:
	// +62 ± 22 an hour, ahead in 100 % of the shifts
	// on random numbers of their own: ± 293
}

// Which of three lines is the best, if 10 sets an hour are worth finding?
func ExampleSelection() {
	selection, err := output.NewSelection(3, 10, 10, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	selection.Cap(1000)
	random := sim.NewStream("shift", "luck")
	for replication := 0; !selection.Over(); replication++ {
		random.Seed(1, replication)
		shift := 9000 + 400*random.Uniform()
		selection.Add([]float64{
			shift + 60*random.Uniform(),
			shift + 90*random.Uniform(),
			shift + 60*random.Uniform() - 200,
		})
	}
	for _, d := range selection.Dropped() {
		fmt.Printf("line %d dropped after %d shifts, behind line %d\n", d.System, d.At, d.By)
	}
	best, promised := selection.Best()
	fmt.Printf("line %d, promise kept: %t\n", best, promised)
	// Output:
	// line 2 dropped after 10 shifts, behind line 1
	// line 0 dropped after 20 shifts, behind line 1
	// line 1, promise kept: true
}
