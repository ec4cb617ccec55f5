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
// its unit, all of “6,180 ± 100”, and what a non-breaking space joins.
func Words(text string) (all []string) {
	for word := range strings.FieldsFuncSeq(text, ends) {
		if last := len(all) - 1; last >= 0 && held(all[last], word) {
			all[last] += " " + word
			continue
		}
		all = append(all, word)
	}
	return all
}

// ends reports whether a line may end at a character: not at a space that is there to hold what is
// beside it.
func ends(r rune) bool { return unicode.IsSpace(r) && r != '\u00a0' }

func held(before, word string) bool {
	if strings.HasSuffix(before, "±") {
		return true
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	bare := strings.TrimRight(word, ".,;:)")
	return unicode.IsDigit(last) && (bare == "±" || slices.Contains(units, bare))
}
