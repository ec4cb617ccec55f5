package model

import "strings"

// Listed returns names as they stand in a sentence: a, b and c.
func Listed(names []string) string { return joined(names, " and ") }

// OneOf returns names to choose from as they stand in a sentence: a, b or c.
func OneOf(names []string) string { return joined(names, " or ") }

func joined(names []string, last string) string {
	k := len(names) - 1
	if k < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:k], ", ") + last + names[k]
}
