package scenarios

import (
	"strconv"
	"strings"

	"netrate/model"
)

// Nearest returns the name that was most likely meant by word, or "" if none is near:
// the one with the fewest letters to change, of which there may be one in three.
func Nearest(word string, names []string) string {
	if len(word) > 40 { // nobody misspells a short name by that much
		return ""
	}
	word = plainWord(word)
	best, fewest := "", len(word)/3+1
	for _, name := range names {
		if d := distance(word, plainWord(name)); d < fewest || d == 0 {
			best, fewest = name, d
		}
	}
	if best != "" || len(word) < 4 {
		return best
	}
	for _, name := range names { // "gate" for "track gate", "false" for "false_calls"
		plain := plainWord(name)
		if len(plain) > 3 && (strings.Contains(plain, word) || strings.Contains(word, plain)) {
			return name
		}
	}
	return ""
}

// plainWord returns the word without the differences that nobody remembers.
func plainWord(s string) string { return blanks.Replace(strings.ToLower(s)) }

var blanks = strings.NewReplacer("_", "", "-", "", " ", "")

// distance returns how many letters must be inserted, removed, replaced or swapped with
// their neighbour to make b of a. Source: restricted Damerau–Levenshtein distance,
// Damerau, Communications of the ACM 7 (1964) 171–176 (from memory).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	var older, old []int
	row := make([]int, len(t)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(s); i++ {
		older, old, row = old, row, make([]int, len(t)+1)
		row[0] = i
		for j := 1; j <= len(t); j++ {
			replace := old[j-1]
			if s[i-1] != t[j-1] {
				replace++
			}
			row[j] = min(replace, old[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
		}
	}
	return row[len(t)]
}

// meant returns a hint at the nearest name, or else the whole list.
func meant(word string, names []string) string {
	if name := Nearest(word, names); name != "" {
		return "did you mean " + name + "?"
	}
	return "want " + model.OneOf(names)
}

// meant is meant, as long as somebody is to read it: among many names it takes its time.
func (r *reader) meant(word string, names []string) string {
	if len(r.problems) >= shownProblems {
		return "want one of " + strconv.Itoa(len(names))
	}
	return meant(word, names)
}
