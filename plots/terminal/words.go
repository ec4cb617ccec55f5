package terminal

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// units are what stands after a number and means nothing without it.
var units = []string{"%", "‰", "h", "min", "s", "mm", "in", "oz", "ppm"}

// Words returns the words of a text, those together between which no line may end: a number and
// its unit, and all of “6,180 ± 100”.
func Words(text string) (all []string) {
	for word := range strings.FieldsSeq(text) {
		if last := len(all) - 1; last >= 0 && held(all[last], word) {
			all[last] += " " + word
			continue
		}
		all = append(all, word)
	}
	return all
}

func held(before, word string) bool {
	if strings.HasSuffix(before, "±") {
		return true
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	bare := strings.TrimRight(word, ".,;:)")
	return unicode.IsDigit(last) && (bare == "±" || slices.Contains(units, bare))
}
