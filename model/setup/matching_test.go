package setup

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestAssign(t *testing.T) {
	for _, c := range []struct {
		name string
		can  [][]int
		want []int
	}{
		{"nothing", nil, []int{}},
		{"all can have all: in order", [][]int{{0, 1, 2}, {0, 1, 2}, {0, 1, 2}}, []int{0, 1, 2}},
		{"the first gives way", [][]int{{0, 1}, {0}}, []int{1, 0}},
		{"all give way", [][]int{{0, 1}, {1, 2}, {2, 3}, {0}}, []int{1, 2, 3, 0}},
		{"the first has no need to", [][]int{{0, 2}, {0, 1}, {1}}, []int{2, 0, 1}},
		{"one of two is left out", [][]int{{1}, {1}, {0}}, []int{1, -1, 0}},
		{"one can have none", [][]int{{}, {0}}, []int{-1, 0}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, assign(c.can)) })
	}
}

func TestShortage(t *testing.T) {
	// Two groups of their own, each with too little, and one row that has enough.
	can := [][]int{{0}, {0, 1}, {1}, {2}, {2}, {3}, {}}
	assigned := assign(can)
	assert.Equal(t, []int{0, 1, -1, 2, -1, 3, -1}, assigned)
	rows, columns := shortage(can, assigned, 2)
	assert.Equal(t, [][]int{{0, 1, 2}, {0, 1}}, [][]int{rows, columns})
	rows, columns = shortage(can, assigned, 4)
	assert.Equal(t, [][]int{{3, 4}, {2}}, [][]int{rows, columns})
}

// Against every way there is to give columns to rows: as many rows have one as can, and no
// other way to do that comes before it in the order of the columns. Where a row has none
// although it could have some, the rows that compete are more than the columns.
func TestAssignAgainstEveryWay(t *testing.T) {
	short, full := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 5).Draw(t, "columns")
		can := make([][]int, rapid.IntRange(0, 5).Draw(t, "rows"))
		for i := range can {
			for k := range columns {
				if rapid.IntRange(0, 2).Draw(t, "can") == 0 {
					can[i] = append(can[i], k)
				}
			}
		}
		got, want := assign(can), bestWay(can, nil)
		if !slices.Equal(got, want) {
			t.Fatalf("%v: assigned %v, want %v", can, got, want)
		}
		full++
		for i, k := range got {
			if k >= 0 || len(can[i]) == 0 {
				continue
			}
			short++
			rows, columns := shortage(can, got, i)
			if !slices.Contains(rows, i) || len(rows) <= len(columns) {
				t.Fatalf("%v: row %d has none although %v share %v", can, i, rows, columns)
			}
			for _, row := range rows {
				for _, k := range can[row] {
					if !slices.Contains(columns, k) {
						t.Fatalf("%v: row %d could have %d, not one of %v", can, row, k, columns)
					}
				}
			}
		}
	})
	assert.Greater(t, short, 20, "nothing is ever short: the test sees little")
	assert.Greater(t, full, 20)
}

// bestWay goes through every way to give the rest of the rows a column.
func bestWay(can [][]int, given []int) []int {
	if len(given) == len(can) {
		return slices.Clone(append([]int{}, given...))
	}
	var best []int
	for _, k := range append(slices.Clone(can[len(given)]), -1) {
		if k >= 0 && slices.Contains(given, k) {
			continue
		}
		if way := bestWay(can, append(slices.Clone(given), k)); best == nil || placed(way) > placed(best) {
			best = way
		}
	}
	return best
}

func placed(way []int) (n int) {
	for _, k := range way {
		if k >= 0 {
			n++
		}
	}
	return n
}
