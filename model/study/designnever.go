package study

import (
	"cmp"
	"maps"
	"slices"
)

// neverTogether is what can never be among some combinations: choices of which no combination with them can be.
type neverTogether struct {
	search *designSearch
	first  []int // number of the first choice of each option, when all choices are numbered through
	all    []candidate
	found  []designPaper // what each comes to on paper
}

// reasons returns why lines cannot be: first the choices that can never be had, and the pairs that can never stand
// together, those first that account for most combinations; then, of the combinations that no such choice accounts
// for, the reasons themselves, likewise. Each combination is counted once.
func (n *neverTogether) reasons() []DesignReason {
	left := []int{} // combinations that cannot be, and are not accounted for
	for i := range n.found {
		if n.found[i].why != "" {
			left = append(left, i)
		}
	}
	reasons := []DesignReason{}
	if len(left) < len(n.all) { // else nothing can be, whatever is chosen
		may := n.pairs(n.possible())
		for {
			pair, most := n.most(n.pairs(left), may)
			if most == 0 {
				break
			}
			var its, rest []int
			for _, i := range left {
				if n.has(i, pair[0]) && n.has(i, pair[1]) {
					its = append(its, i)
				} else {
					rest = append(rest, i)
				}
			}
			reasons = append(reasons, DesignReason{n.whys(its)[0].Why, most, n.names(pair)})
			left = rest
		}
	}
	return append(reasons, n.whys(left)...)
}

// possible returns the combinations that can be.
func (n *neverTogether) possible() (some []int) {
	for i := range n.found {
		if n.found[i].why == "" {
			some = append(some, i)
		}
	}
	return some
}

// pairs counts in how many of some combinations each two choices stand together; each with itself is how often it is
// taken.
func (n *neverTogether) pairs(some []int) [][]int {
	last := len(n.first) - 1
	size := n.first[last] + len(n.search.Options[last].Choices)
	counts := make([][]int, size)
	for i := range counts {
		counts[i] = make([]int, size)
	}
	for _, i := range some {
		choices := n.all[i].choices
		for o, k := range choices {
			row := counts[n.first[o]+int(k)]
			for p := o; p < len(choices); p++ {
				row[n.first[p]+int(choices[p])]++
			}
		}
	}
	return counts
}

// most returns the two choices that stand together in most combinations of those that cannot be, and in none that can;
// one choice twice if it is in none.
func (n *neverTogether) most(cannot, may [][]int) (pair [2]int, most int) {
	for x := range cannot {
		for y := x; y < len(cannot); y++ {
			better := cannot[x][y] > most || cannot[x][y] == most && x == y && pair[0] != pair[1]
			if may[x][y] == 0 && cannot[x][y] > 0 && better {
				pair, most = [2]int{x, y}, cannot[x][y]
			}
		}
	}
	return pair, most
}

// option returns the option that a choice is of, and its number there.
func (n *neverTogether) option(choice int) (option, k int) {
	option, is := slices.BinarySearch(n.first, choice)
	if !is {
		option--
	}
	return option, choice - n.first[option]
}

// has reports whether a choice is taken in a combination.
func (n *neverTogether) has(i, choice int) bool {
	option, k := n.option(choice)
	return int(n.all[i].choices[option]) == k
}

// names returns the names of a pair of choices; of one, if it is one.
func (n *neverTogether) names(pair [2]int) (names []string) {
	for _, choice := range slices.Compact(pair[:]) {
		option, k := n.option(choice)
		names = append(names, n.search.Options[option].Choices[k].Name)
	}
	return names
}

// whys returns the reasons of some combinations, most combinations first.
func (n *neverTogether) whys(some []int) []DesignReason {
	counts := map[string]int{}
	for _, i := range some {
		counts[n.found[i].why]++
	}
	all := []DesignReason{}
	for _, why := range slices.Sorted(maps.Keys(counts)) {
		all = append(all, DesignReason{Why: why, Combinations: counts[why]})
	}
	slices.SortStableFunc(all, func(x, y DesignReason) int { return cmp.Compare(y.Combinations, x.Combinations) })
	return all
}

// never returns why lines cannot be, of the combinations that were looked at on paper.
func (s *designSearch) never(found []designPaper) []DesignReason {
	n := &neverTogether{search: s, all: s.all, found: found}
	sum := 0
	for _, o := range s.Options {
		n.first = append(n.first, sum)
		sum += len(o.Choices)
	}
	return append(n.barred(), n.reasons()...)
}

// barred returns the choices that are in no combination at all: needs, excludes and the limit of the price leave none.
func (n *neverTogether) barred() []DesignReason {
	all := []DesignReason{}
	taken := make([]bool, n.first[len(n.first)-1]+len(n.search.Options[len(n.first)-1].Choices))
	for i := range n.all {
		for o, k := range n.all[i].choices {
			taken[n.first[o]+int(k)] = true
		}
	}
	for choice, is := range taken {
		if !is {
			all = append(all, DesignReason{Why: "needs, excludes and the limit of the price leave no combination with it", Choices: n.names([2]int{choice, choice})})
		}
	}
	return all
}
