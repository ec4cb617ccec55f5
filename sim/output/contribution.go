package output

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"netrate/sim"
)

// Contribution is what one input adds to the variance of an output, as far as the output
// follows it in a straight line.
type Contribution struct {
	Variance float64 // 0 if it is no more than chance makes it
	Error    float64 // standard error of it
	Slope    float64 // of the output, for each unit of the input
}

// Contributions returns what each input adds, given the inputs of every run and its output.
// The inputs must have been drawn independently of one another. An input that never varies
// adds nothing. It returns false if there are fewer than two runs for each input, and three
// more: too few to tell.
//
// Source: standardised regression coefficients, Saltelli et al., Global Sensitivity Analysis:
// The Primer (2008), section 1.2.5 (from memory).
func Contributions(inputs [][]float64, output sim.Sample) ([]Contribution, bool) {
	if len(inputs) != len(output) {
		panic(fmt.Sprintf("output: inputs of %d runs and outputs of %d", len(inputs), len(output)))
	}
	if len(inputs) == 0 {
		return nil, false
	}
	all := make([]Contribution, len(inputs[0]))
	var columns []sim.Sample
	var which []int
	for k := range all {
		if x := columnOf(inputs, k); x.SD() > 0 {
			columns, which = append(columns, x), append(which, k)
		}
	}
	if len(output) < 2*len(columns)+3 {
		return nil, false
	}
	slopes, errs, ok := regress(columns, output)
	if !ok {
		return nil, false
	}
	for i, k := range which {
		slope, err := slopes[i], errs[i]
		all[k] = Contribution{Variance: max(0, slope*slope-err*err), Error: 2 * math.Abs(slope) * err, Slope: slope / columns[i].SD()}
	}
	return all, true
}

func columnOf(rows [][]float64, k int) sim.Sample {
	column := make(sim.Sample, len(rows))
	for j, row := range rows {
		column[j] = row[k]
	}
	return column
}

// regress returns the slopes of the plane through some points by least squares, for each
// standard deviation of a column, and their standard errors; false if the columns do not tell
// them apart.
func regress(columns []sim.Sample, y sim.Sample) (slopes, errs []float64, ok bool) {
	n, d := len(y), len(columns)
	x := mat.NewDense(n, d+1, nil)
	for i, c := range columns {
		mean, sd := stat.MeanStdDev(c, nil)
		for j, v := range c {
			x.Set(j, i+1, (v-mean)/sd)
		}
	}
	for j := range n {
		x.Set(j, 0, 1)
	}
	var qr mat.QR
	qr.Factorize(x)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, mat.NewVecDense(n, y)); err != nil {
		return nil, nil, false
	}
	var fitted, rest mat.VecDense
	fitted.MulVec(x, &b)
	rest.SubVec(mat.NewVecDense(n, y), &fitted)
	variance := mat.Dot(&rest, &rest) / float64(n-d-1)
	var square, inverse mat.Dense
	square.Mul(x.T(), x)
	if err := inverse.Inverse(&square); err != nil {
		return nil, nil, false
	}
	for i := range d {
		slopes = append(slopes, b.AtVec(i+1))
		errs = append(errs, math.Sqrt(variance*inverse.At(i+1, i+1)))
	}
	return slopes, errs, true
}
