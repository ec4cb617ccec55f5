package output

import (
	"math"
	"slices"

	"netrate/sim"
)

// BestOf returns how probable it is that each of some systems has the largest true mean, where
// that is not known: the observations come in groups of one size, and in each group all systems
// have true means of their own, as one of the ways in which all of them may be. The observation i
// of every system is made on common random numbers. The probabilities come to 1; systems that tie
// share.
//
// What chance adds to the means of the groups is taken out of all differences at once, as
// [VarianceComponents.LongRun] takes it out of one. It panics unless there are two systems or
// more, of two groups or more.
func BestOf(systems []sim.Sample, each int) []float64 {
	var ahead []sim.Sample // of the first, by the others
	for _, s := range systems[1:] {
		differences, _ := subtract(systems[0], s)
		ahead = append(ahead, differences)
	}
	ahead = longRuns(ahead, each)
	probabilities := make([]float64, len(systems))
	groups := len(ahead[0])
	for g := range groups {
		means := []float64{0}
		for _, a := range ahead {
			means = append(means, a[g])
		}
		tied := ties(means)
		for _, i := range tied {
			probabilities[i] += 1 / float64(len(tied)*groups)
		}
	}
	return probabilities
}

// ties returns which means are the largest, but for rounding.
func ties(means []float64) (tied []int) {
	best := slices.Max(means)
	within := float64(1e-9 * max(math.Abs(best), math.Abs(slices.Min(means))))
	for i, x := range means {
		if x >= best-within {
			tied = append(tied, i)
		}
	}
	return tied
}

// longRuns returns the means of the groups of several figures of the same observations, drawn
// towards the means of all until they vary, and vary together, as true means would.
//
// With the covariances T of the means of the groups and C of what chance adds to them, T^-½ C T^-½
// has the share of chance in each direction in which the means vary. By what [lastingShare] leaves of
// that direction, and by what chance leaves open of the mean of all, the means less the mean of all
// are drawn towards it.
func longRuns(figures []sim.Sample, each int) []sim.Sample {
	parts, means := make([]VarianceComponents, len(figures)), make([]sim.Sample, len(figures))
	within := make([]sim.Sample, len(figures)) // what observations differ from the mean of their group
	for i, f := range figures {
		groups := slices.Collect(slices.Chunk(f, each))
		parts[i] = ANOVA(groups)
		for _, g := range groups {
			mean := g.Mean()
			means[i] = append(means[i], mean-parts[i].Mean)
			within[i] = append(within[i], about(g, mean)...)
		}
	}
	groups := float64(len(means[0]))
	whole := products(means, groups-1)
	chance := products(within, max(1, groups*float64(each-1))*float64(each)) // of groups of one none is seen
	root, inverse := rootOf(whole)
	drawn := spectral(product(product(inverse, chance), inverse), func(share float64) float64 {
		share = max(0, share)
		return math.Sqrt(lastingShare(share, int(groups), each) + share/groups)
	})
	towards := product(product(root, drawn), inverse)
	settled := make([]sim.Sample, len(figures))
	for i := range figures {
		for g := range means[i] {
			x := parts[i].Mean
			for k := range means {
				x += float64(towards[i][k] * means[k][g])
			}
			settled[i] = append(settled[i], x)
		}
	}
	return settled
}

// products returns the sums of products of samples, over n.
func products(samples []sim.Sample, n float64) [][]float64 {
	return symmetric(len(samples), func(i, k int) float64 { return dot(samples[i], samples[k]) / n })
}

func symmetric(n int, of func(i, k int) float64) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
		for k := range i + 1 {
			m[i][k] = of(i, k)
			m[k][i] = m[i][k]
		}
	}
	return m
}

func product(a, b [][]float64) [][]float64 {
	m := make([][]float64, len(a))
	for i := range m {
		m[i] = make([]float64, len(a))
		for k := range m[i] {
			for j := range b {
				m[i][k] += float64(a[i][j] * b[j][k])
			}
		}
	}
	return m
}

// rootOf returns the square root of a symmetric matrix, in which eigenvalues below 0 count as 0,
// and the inverse of that root, in which those next to 0 are left out.
func rootOf(m [][]float64) (root, inverse [][]float64) {
	values, _ := eigen(m)
	const nothing = 1e-12 // of the largest
	least := max(0, nothing*slices.Max(values))
	with := func(of func(float64) float64) [][]float64 {
		return spectral(m, func(x float64) float64 {
			if x > least {
				return of(x)
			}
			return 0
		})
	}
	return with(math.Sqrt), with(func(x float64) float64 { return 1 / math.Sqrt(x) })
}

// spectral returns a function of a symmetric matrix: that of each eigenvalue.
func spectral(m [][]float64, of func(float64) float64) [][]float64 {
	values, vectors := eigen(m)
	return symmetric(len(m), func(i, k int) float64 {
		sum := 0.0
		for j, x := range values {
			sum += float64(of(x) * vectors[i][j] * vectors[k][j])
		}
		return sum
	})
}

// eigen returns the eigenvalues of a symmetric matrix and, as columns, its eigenvectors, by Jacobi's
// rotations.
//
// Source: Golub and Van Loan, Matrix Computations (4th ed. 2013), section 8.5 (from memory).
func eigen(of [][]float64) (values []float64, vectors [][]float64) {
	n := len(of)
	m := symmetric(n, func(i, k int) float64 { return of[i][k] })
	vectors = symmetric(n, func(i, k int) float64 {
		if i == k {
			return 1
		}
		return 0
	})
	const sweeps = 60 // each at least halves what is off the diagonal; a few are enough
	for range sweeps {
		rotated := false
		for i := range n {
			for k := range i {
				rotated = rotate(m, vectors, k, i) || rotated
			}
		}
		if !rotated {
			break
		}
	}
	for i := range n {
		values = append(values, m[i][i])
	}
	return values, vectors
}

// rotate brings the element p, q of a symmetric matrix to 0, if it is not next to that already.
func rotate(m, vectors [][]float64, p, q int) bool {
	if !(math.Abs(m[p][q]) > 1e-15*math.Sqrt(math.Abs(m[p][p]*m[q][q]))) {
		return false
	}
	theta := (m[q][q] - m[p][p]) / (2 * m[p][q])
	t := math.Copysign(1, theta) / (math.Abs(theta) + math.Sqrt(float64(theta*theta)+1))
	c := 1 / math.Sqrt(float64(t*t)+1)
	s := t * c
	for i := range m { // columns, then rows
		a, b := m[i][p], m[i][q]
		m[i][p], m[i][q] = float64(c*a)-float64(s*b), float64(s*a)+float64(c*b)
		a, b = vectors[i][p], vectors[i][q]
		vectors[i][p], vectors[i][q] = float64(c*a)-float64(s*b), float64(s*a)+float64(c*b)
	}
	for i := range m {
		a, b := m[p][i], m[q][i]
		m[p][i], m[q][i] = float64(c*a)-float64(s*b), float64(s*a)+float64(c*b)
	}
	return true
}
