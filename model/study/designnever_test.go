package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Of 2 × 2 × 3 combinations those with “gate” and “belt” cannot be (3), nor those with “three” (4, of which 1 has both
// too), nor one that has nothing in common with others: by hand 4 are of “three”, 2 more of the pair, and 1 of neither.
func TestDesignChoicesThatNeverStandTogether(t *testing.T) {
	s := &designSearch{Design: &Design{Options: []DesignOption{
		{Name: "gate", Choices: []DesignChoice{{Name: "without gate"}, {Name: "gate"}}},
		{Name: "belt", Choices: []DesignChoice{{Name: "without belt"}, {Name: "belt"}}},
		{Name: "crew", Choices: []DesignChoice{{Name: "one"}, {Name: "two"}, {Name: "three"}}},
	}}}
	var found []designPaper
	for g := range uint8(2) {
		for b := range uint8(2) {
			for c := range uint8(3) {
				s.all = append(s.all, candidate{choices: []uint8{g, b, c}})
				var p designPaper
				switch {
				case c == 2:
					p.why = "no room for three"
				case g == 1 && b == 1:
					p.why = "both at pitch 8"
				}
				found = append(found, p)
			}
		}
	}
	together := []DesignReason{{"no room for three", 4, []string{"three"}}, {"both at pitch 8", 2, []string{"gate", "belt"}}}
	assert.Equal(t, together, s.never(found))

	// What cannot be for a reason of three choices is of no pair: “without gate”, “without belt” and “two”.
	found[1].why = "too long"
	assert.Equal(t, append(together, DesignReason{Why: "too long", Combinations: 1}), s.never(found))

	// A choice that the rules leave in no combination is named before all others.
	s.Options[1].Choices = append(s.Options[1].Choices, DesignChoice{Name: "long belt"})
	assert.Equal(t, DesignReason{Why: "needs, excludes and the limit of the price leave no combination with it", Choices: []string{"long belt"}}, s.never(found)[0])
	s.Options[1].Choices = s.Options[1].Choices[:2]

	// Where nothing can be, no choice is to blame.
	for i := range found {
		found[i].why = "no costs"
	}
	assert.Equal(t, []DesignReason{{Why: "no costs", Combinations: 12}}, s.never(found))
}
