package main

// meant returns ": did you mean NAME?" for the name most like the word, or "" if none is:
// one letter in three may have to change.
func meant(word string, names []string, prefix string) string {
	best, fewest := "", len(word)/3+1
	for _, name := range names {
		if d := distance(word, name); d < fewest {
			best, fewest = name, d
		}
	}
	if best == "" {
		return ""
	}
	return ": did you mean " + prefix + best + "?"
}

// distance returns how many letters must be inserted, removed or replaced to make b of a.
//
// Source: Levenshtein, Soviet Physics Doklady 10 (1966) 707–710 (from memory).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			changed := diagonal
			if a[i] != b[j] {
				changed++
			}
			diagonal = row[j+1]
			row[j+1] = min(changed, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
