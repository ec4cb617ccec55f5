package output

import (
	"fmt"
	"math"

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
		all[k] = Contribution{Variance: max(0, float64(slope*slope)-float64(err*err)), Error: 2 * math.Abs(slope) * err, Slope: slope / columns[i].SD()}
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
//
// The columns are brought to the mean 0 and the variance 1, so that what is solved, the matrix
// of their correlations, is as well rounded as it can be.
func regress(columns []sim.Sample, y sim.Sample) (slopes, errs []float64, ok bool) {
	n := float64(len(y))
	scaled := make([]sim.Sample, len(columns))
	for i, c := range columns {
		scaled[i] = standardised(c)
	}
	rest := about(y, y.Mean())
	products, right := make([][]float64, len(columns)), make([]float64, len(columns))
	for i, c := range scaled {
		products[i] = make([]float64, len(columns))
		for k, d := range scaled[:i+1] {
			products[i][k] = dot(c, d)
		}
		right[i] = dot(c, rest)
	}
	inverse, ok := inverted(products)
	if !ok {
		return nil, nil, false
	}
	for i := range columns {
		slopes = append(slopes, dot(inverse[i], right))
	}
	for i, c := range scaled {
		for j, x := range c {
			rest[j] -= float64(slopes[i] * x)
		}
	}
	variance := dot(rest, rest) / (n - float64(len(columns)) - 1)
	for i := range columns {
		errs = append(errs, math.Sqrt(variance*inverse[i][i]))
	}
	return slopes, errs, true
}

// about returns the distances of a sample from a number.
func about(s sim.Sample, x float64) sim.Sample {
	distances := make(sim.Sample, len(s))
	for i, v := range s {
		distances[i] = v - x
	}
	return distances
}

// standardised returns a sample with the mean 0 and the variance 1.
func standardised(s sim.Sample) sim.Sample {
	z, sd := about(s, s.Mean()), s.SD()
	for i := range z {
		z[i] /= sd
	}
	return z
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += float64(x * b[i])
	}
	return sum
}

// inverted returns the inverse of a symmetric positive matrix, of which the lower half is
// given and overwritten; false if there is none, or rounding leaves nothing of it.
//
// Source: Cholesky's factors; Golub and Van Loan, Matrix Computations (4th ed. 2013), section
// 4.2 (from memory).
func inverted(m [][]float64) ([][]float64, bool) {
	for i := range m { // m = L·Lᵀ
		for k := range i + 1 {
			left := m[i][k] - dot(m[i][:k], m[k][:k])
			switch {
			case k < i:
				m[i][k] = left / m[k][k]
			case !(left > 1e-12*m[i][i]):
				return nil, false
			default:
				m[i][i] = math.Sqrt(left)
			}
		}
	}
	inverse := make([][]float64, len(m))
	for j := range m { // L·Lᵀ·x = the unit vector j
		x := make([]float64, len(m))
		x[j] = 1
		for i := range m {
			x[i] = (x[i] - dot(m[i][:i], x[:i])) / m[i][i]
		}
		for i := len(m) - 1; i >= 0; i-- {
			sum := x[i]
			for k := i + 1; k < len(m); k++ {
				sum -= float64(m[k][i] * x[k])
			}
			x[i] = sum / m[i][i]
		}
		inverse[j] = x
	}
	return inverse, true
}
