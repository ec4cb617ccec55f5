package setup

import "slices"

// assign gives rows a column each, no column to two rows, for as many rows as can be;
// can lists the columns that each row may have. It returns the column of each row, or -1.
//
// Of all ways to do so it returns the one in which row 0 has the first column of its list
// that it can have, then row 1, and so on.
func assign(can [][]int) []int {
	assigned := make([]int, 0, len(can))
	most, placed := matchable(can, nil), 0
	for i, columns := range can {
		assigned = append(assigned, -1)
		for _, k := range columns {
			if slices.Contains(assigned, k) {
				continue
			}
			assigned[i] = k
			if placed+1+matchable(can[i+1:], assigned) == most {
				placed++
				break
			}
			assigned[i] = -1
		}
	}
	return assigned
}

// matchable returns how many rows can have a column each, of the columns not taken.
func matchable(can [][]int, taken []int) int {
	m := matching{can: can, owner: map[int]int{}}
	for i := range can {
		m.tried = map[int]bool{}
		for _, k := range taken {
			m.tried[k] = true
		}
		m.place(i)
	}
	return len(m.owner)
}

// matching is a bipartite matching in the making, by augmenting paths (Kuhn 1955, from
// memory).
type matching struct {
	can   [][]int
	owner map[int]int  // row that has each column
	tried map[int]bool // columns that the path in hand has met, and those that are taken
}

// place finds row i a column, for which other rows may have to move on.
func (m *matching) place(i int) bool {
	for _, k := range m.can[i] {
		if m.tried[k] {
			continue
		}
		m.tried[k] = true
		if other, owned := m.owner[k]; !owned || m.place(other) {
			m.owner[k] = i
			return true
		}
	}
	return false
}

// shortage returns why assign found no column for a row: more rows than there are columns
// that any of them can have (LineGroup 1935, from memory). Rows without any column are not
// among them. The columns rise.
func shortage(can [][]int, assigned []int, row int) (rows, columns []int) {
	for next := []int{row}; len(next) > 0; next = next[1:] {
		for _, k := range can[next[0]] {
			if !slices.Contains(columns, k) {
				columns = append(columns, k)
				next = append(next, slices.Index(assigned, k)) // it has an owner, or the row could have had it
			}
		}
	}
	slices.Sort(columns)
	for i := range can {
		elsewhere := func(k int) bool { return !slices.Contains(columns, k) }
		if len(can[i]) > 0 && !slices.ContainsFunc(can[i], elsewhere) {
			rows = append(rows, i)
		}
	}
	return rows, columns
}
