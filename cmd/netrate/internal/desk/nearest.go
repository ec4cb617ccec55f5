package desk

import "netrate/scenarios"

// Meant returns ": did you mean NAME?" for the name most likely meant by the word, or "" if
// none is near.
func Meant(word string, names []string, prefix string) string {
	name := scenarios.Nearest(word, names)
	if name == "" {
		return ""
	}
	return ": did you mean " + prefix + name + "?"
}
